#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/project/project.h"
#include "panslate/recipe/recipe.h"
#include "panslate/speech/transcript.h"

namespace panslate {

/// Spoken words, or text on the picture, on one clock.
struct TimedText {
  const Transcript* transcript = nullptr;
  std::string media;  ///< id of the clip; empty without a project
};

/// A part of a clip that films a step.
struct FilmedSegment {
  std::string id;
  std::vector<std::size_t> steps;  ///< indices into Recipe::steps
  std::vector<std::size_t> shows;  ///< indices into Recipe::ingredients, as a person listed them
};

/// What of a project is looked at.
enum class LookIn : std::uint8_t {
  Usual,  ///< the captions of the edit where it has some, else all there are; every part of a clip
  Edit,   ///< the edit: its captions, or those of the clips and the narration as far as they are in it
  Raw,    ///< the footage before the edit: captions of clips and narration, every part of a clip
};

struct CheckInput {
  const Recipe* recipe = nullptr;
  std::vector<std::shared_ptr<const Transcript>>
      moved;  ///< captions put on the edit's clock: `said` points here
  std::vector<TimedText> said;
  std::vector<TimedText> on_text;
  std::optional<std::vector<FilmedSegment>> segments;  ///< empty optional: nothing to look in
  std::optional<MediaTime> duration;
};

/// Cross-checks what is said, shown and written on the picture with the written recipe. Never calls a wrong
/// amount right: what the evidence does not settle is Unsure. Cost grows linearly with the words.
[[nodiscard]] CheckReport check(const CheckInput& input);

/// The input of a loaded project (whose Project and Footage must outlive it).
[[nodiscard]] CheckInput check_input_of(const Project& project, const Footage& footage,
                                        LookIn look = LookIn::Usual);

/// One sentence for the cook: "Checked on the edit (edit.mp4)."
[[nodiscard]] std::string looked_in_words(const Project& project, LookIn look);

/// Tells in a report on the edit which lines are said in the raw footage all the same, and were cut: `raw` is
/// the report on the same recipe and footage before the edit.
void add_raw_findings(CheckReport& edit, const CheckReport& raw);

/// Applies what the user decided to a report. An answer whose line reads otherwise now, or for which
/// something else is found now, changes nothing and is listed to be decided again.
void apply_answers(CheckReport& report, const std::vector<Answer>& answers);

/// The line that an answer speaks of, by its key, its whole text or the food's name: index into
/// CheckReport::requirements. Empty where no line fits, or several do.
[[nodiscard]] std::optional<std::size_t> line_of(const CheckReport& report, const Answer& answer);

/// What an answer about this line would hold for: the words that are found, or the parts of clips that show
/// it
/// ("s1, s3"); empty where there are none.
[[nodiscard]] std::string found_words(const Requirement& line, Answer::About about);

/// Adds what the project itself tells: clips that could not be opened, decisions to be made again.
void add_project_warnings(CheckReport& report, const Project& project, const Footage& footage);

}  // namespace panslate
