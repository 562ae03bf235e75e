#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/check/listen_for.h"
#include "panslate/kitchen/amount.h"

/// What the sound of clips tells: when each line and word of a script is spoken, its takes, and amounts that
/// are said otherwise. Times are on the clip's clock.
namespace panslate {

struct SpokenTake {
  TimeRange when;
  bool complete = false;  ///< else broken off
  bool chosen = false;
  std::string why;  ///< why it was chosen, or why not, where there was a choice
};

struct SpokenLine {
  int number = 0;  ///< of the script file, from 1; of captions: the cue's place in the file
  std::string text;
  std::vector<SpokenTake> takes;  ///< in order of time; none: not spoken in this clip
  bool in_other_clip = false;     ///< not whole here, but in another clip that has the same script

  [[nodiscard]] bool never_spoken() const { return takes.empty() && !in_other_clip; }
  /// Nor broken off only.
  [[nodiscard]] bool never_whole() const;
};

struct TimedWord {
  int line = 0;  ///< number of its line
  std::string text;
  TimeRange when;
  MediaTime precision;  ///< how far off its start may be
};

struct ListenedAmount {
  int line = 0;
  TimeRange when;
  Amount script;                ///< as the script has it
  std::optional<Amount> heard;  ///< what the sound fits best; empty where it fits nothing
  std::string heard_text;       ///< in words
  std::size_t place = 0;        ///< which of its line's amounts (amounts_heard_in), from 0
  Heeded verdict = Heeded::Unsure;
  /// Natural logarithm of how much likelier the script's amount is than the best other one; below 0 the other
  /// is.
  double ratio = 0;
  std::string why;  ///< one plain sentence where it is not as written
};

enum class ListenStatus : std::uint8_t { Aligned, Partly, Failed };

/// One clip and one script.
struct Listening {
  std::filesystem::path file;
  MediaTime duration;
  bool has_picture = false;
  /// Nobody had written down what is said: the lines are what the machine took it for. Then their numbers
  /// count them, each has one take, and no amount is more than Unsure.
  bool draft = false;
  bool of_captions = false;    ///< its script are captions, and the numbers of its lines count those
  bool sound_damaged = false;  ///< some of it could not be read
  ListenStatus status = ListenStatus::Failed;
  std::string reason;             ///< why not all of it; empty when Aligned
  std::optional<double> snr_db;   ///< speech over what sounds in its pauses
  std::vector<SpokenLine> lines;  ///< every line of the script, in its order
  std::vector<TimedWord> words;   ///< of all takes, in order of time
  std::vector<ListenedAmount> amounts;
  std::vector<TimeRange> other_speech;  ///< that is no line of the script
  /// How loud each twentieth of a second is at its loudest, 0 to 255 (full scale), for drawing.
  std::vector<std::uint8_t> peaks;

  /// Exit status 1 rather than 0: it is a draft, an amount is said otherwise or must be listened to, a line
  /// was never spoken, or the clip could not be listened to.
  [[nodiscard]] bool wants_attention() const;
};

/// Its words are still a draft: the machine's own words agree with what it hears, so no amount is more than
/// Unsure until she has put them right.
void leave_to_a_person(Listening& heard);

/// Of clips that share a script: tells of each line whether another of them has it.
void tell_lines_of_other_clips(std::span<Listening* const> clips);

[[nodiscard]] std::string_view spelling_of(ListenStatus status);  ///< contract word: "aligned"
[[nodiscard]] std::string_view spelling_of(Heeded verdict);       ///< contract word: "as-written"

}  // namespace panslate
