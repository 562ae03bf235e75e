#pragma once

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

struct CheckInput {
  const Recipe* recipe = nullptr;
  std::vector<TimedText> said;
  std::vector<TimedText> on_text;
  std::optional<std::vector<FilmedSegment>> segments;  ///< empty optional: nothing to look in
  std::optional<MediaTime> duration;
};

/// Cross-checks what is said, shown and written on the picture with the written recipe. Never calls a wrong
/// amount right: what the evidence does not settle is Unsure. Cost grows linearly with the words.
[[nodiscard]] CheckReport check(const CheckInput& input);

/// The input of a loaded project (whose Project and Footage must outlive it).
[[nodiscard]] CheckInput check_input_of(const Project& project, const Footage& footage);

/// Adds what the project itself tells: clips that could not be opened, decisions to be made again.
void add_project_warnings(CheckReport& report, const Project& project, const Footage& footage);

}  // namespace panslate
