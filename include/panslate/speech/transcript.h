#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

/// Spoken words (or text on the picture) with times on one clock.
namespace panslate {

/// A spoken word. How far off its time may be is part of it: word-time tags are good to 50 ms, a word spread
/// over its cue to the cue's length. Sound notes ("[music]", "(laughs)", songs between ♪), speaker names and
/// dashes are in the text of a cue, but no words. What rolling captions show again was spoken once and is one
/// set of words, of the cue that showed it first; see src/speech/rolling_captions.h for the rule.
struct Word {
  std::string text;  ///< as written, with its punctuation
  TimeRange when;
  MediaTime precision;
  std::uint32_t cue = 0;  ///< index into Transcript::cues
};

struct Cue {
  /// As the file has it; a SubRip counter 12 is "c12"; "c1", "c2", … by order where the file has none. No two
  /// cues of a transcript share one.
  std::string id;
  TimeRange when;
  std::string text;     ///< plain: tags removed, escapes resolved, lines joined with LF
  std::string speaker;  ///< WebVTT voice, or a name in capitals before a colon; empty when none
  int line = 0;         ///< of its timing line in the file
  std::size_t text_at =
      0;  ///< byte of the file's text, as UTF-8 without a byte order mark, where its words begin
};

enum class CaptionFormat : std::uint8_t { SubRip, WebVtt, MarkedText };

struct CaptionWarning {
  std::string message;
  int line = 0;
};

/// Stands in a note at the beginning of captions that a machine wrote by ear, until a person has put them
/// right and takes the note out.
inline constexpr std::string_view kDraftMark = "This is a draft, written by ear by panslate.";

struct Transcript {
  std::filesystem::path file;
  CaptionFormat format = CaptionFormat::SubRip;
  std::vector<Cue> cues;                 ///< in the order of the file's times
  std::vector<Word> words;               ///< in reading order
  std::vector<CaptionWarning> warnings;  ///< what was odd but could be read
  bool draft = false;                    ///< nobody has put right yet what was written by ear

  /// End of the last cue; zero when there is none.
  [[nodiscard]] MediaTime end() const;
};

/// Reads captions by what they are, not by their name: WebVTT (W3C syntax whole), SubRip (with tags,
/// coordinates, full stops for commas, missing counters), or plain text with `[m:ss]` or `m:ss` marks before
/// what is said from then on. Cues are sorted by their start (cues of one start stay as they are), an end
/// before the start is cut to it, a cue that cannot be read is left out: each with a warning. `bytes` are
/// those of the file, whatever they are (UTF-8, UTF-16, Windows-1252): FileSystem::read gives them, read_text
/// has lost what is no UTF-8. Fails (Malformed, with a place) when it is none of them or holds no cue.
[[nodiscard]] Result<Transcript> read_captions(std::string_view bytes, const std::filesystem::path& file);

}  // namespace panslate
