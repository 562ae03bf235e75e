#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/kitchen/amount.h"
#include "panslate/recipe/recipe.h"
#include "panslate/speech/corrected_captions.h"

/// The result of a check as plain values; `deliver` writes it as JSON (the words for programs), pages and
/// tables (the words for a cook).
namespace panslate {

enum class RequirementKind : std::uint8_t { Ingredient, MethodAmount, Temperature, Time, Yield, Step, Cue };
enum class Verdict : std::uint8_t { Match, Differs, NoAmount, Missing, Unsure, NotChecked };
enum class ShownVerdict : std::uint8_t { Yes, Unconfirmed, No, NotChecked };

/// A stretch of speech or on-screen text that speaks of something, with the amount it gives.
struct Mention {
  TimeRange when;
  MediaTime precision;  ///< how far off `when` may be
  std::string text;
  std::optional<Amount> amount;
  std::vector<Amount> alternates;
  std::vector<std::string> refs;    ///< ids of its cues
  std::string media;                ///< id of the clip whose clock `when` is on; empty without a project
  std::optional<std::size_t> step;  ///< index of the step being spoken, where known
};

struct ChannelFinding {
  Verdict verdict = Verdict::NotChecked;
  std::vector<Mention> mentions;  ///< the deciding one first
};

struct ShownFinding {
  ShownVerdict verdict = ShownVerdict::NotChecked;
  std::vector<std::string> segments;  ///< ids
};

struct Requirement {
  RequirementKind kind = RequirementKind::Ingredient;
  int ordinal = 1;   ///< within its kind, from 1: "ingredient:3"
  std::string key;   ///< lasting
  int line = 0;      ///< of the recipe file; 0 where there is none
  std::string text;  ///< as written
  std::string name;  ///< ingredients and method amounts: the food; else what is done, where known
  bool optional = false;
  std::vector<Amount> amounts;
  std::size_t index =
      0;  ///< into Recipe::ingredients, steps or yields, by kind (times and temperatures: steps)
  ChannelFinding said;
  ShownFinding shown;
  ChannelFinding on_text;
  bool covered = false;
  std::string why;  ///< one plain sentence
  /// Where the edit lacks it and the raw footage was looked at too: what is said there.
  std::optional<ChannelFinding> said_in_raw = {};
  bool answered = false;  ///< a person decided about it
};

struct Extra {
  TimeRange when;
  std::string text;
  std::string name;  ///< may be empty
  std::optional<Amount> amount;
};

enum class HeardRole : std::uint8_t { Ingredient, Share, Portion, Temperature, Time, Yield, Extra, Other };

/// Every amount spoken, once, in order.
struct Heard {
  TimeRange when;
  std::string text;
  Amount amount;
  std::vector<Amount> alternates;
  HeardRole role = HeardRole::Other;
  std::optional<std::size_t> requirement;  ///< index into CheckReport::requirements
};

/// Words of the captions that were taken for the name of a food they sound like.
struct CaptionCorrection {
  TimeRange when;
  std::string heard;            ///< as the captions have it
  std::string meant;            ///< what was most likely said
  std::size_t requirement = 0;  ///< index into CheckReport::requirements
  bool sure = true;             ///< false where a person must look
  std::string media;            ///< id of the clip; empty without a project
  std::size_t source = 0;       ///< index into CheckInput::said
  WordChange change;            ///< what to change in those captions
};

enum class WarningLevel : std::uint8_t { Warning, Note };

struct CheckWarning {
  std::string code;  ///< a word for programs: "pair-loose"
  WarningLevel level = WarningLevel::Note;
  std::string message;
  std::optional<int> line;
  std::optional<MediaTime> at;
};

struct CheckReport {
  std::optional<MediaTime> duration;  ///< of the edit or the captions
  std::vector<Requirement> requirements;
  std::vector<Extra> extras;
  std::vector<Heard> heard;
  std::vector<CheckWarning> warnings;
  std::vector<CaptionCorrection> corrections;  ///< in order of time

  /// Answers that no longer fit what they spoke of.
  struct DecideAgain {
    std::string what;        ///< the line, as it reads now or read then
    std::string before;      ///< what was decided, about what
    std::string after;       ///< what there is now
    std::size_t answer = 0;  ///< index into the answers that were applied
  };
  std::vector<DecideAgain> decide_again;

  /// "ingredient:3"
  [[nodiscard]] static std::string id_of(const Requirement& requirement);
  /// Not covered, not optional, and of a kind that counts (yields and cues never do).
  /// Said or on the picture as written, and neither of them otherwise.
  [[nodiscard]] static bool is_as_written(const Requirement& requirement);
  /// … and not missing from what is shown.
  [[nodiscard]] static bool is_covered(const Requirement& requirement);
  [[nodiscard]] static bool needs_attention(const Requirement& requirement);
  [[nodiscard]] std::size_t covered_count() const;
  [[nodiscard]] std::size_t attention_count() const;
  /// Exit status 1 rather than 0: something needs attention, or a warning that is more than a note stands.
  [[nodiscard]] bool wants_attention() const;
};

[[nodiscard]] std::string_view spelling_of(RequirementKind kind);  ///< contract word: "method-amount"
[[nodiscard]] std::string_view spelling_of(Verdict verdict);       ///< contract word: "no-amount"
[[nodiscard]] std::string_view spelling_of(ShownVerdict verdict);
[[nodiscard]] std::string_view spelling_of(HeardRole role);

}  // namespace panslate
