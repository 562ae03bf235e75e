#pragma once

#include <cstddef>
#include <string>

#include "panslate/plan/shot_list.h"

/// The shot list in the forms a cook takes into the kitchen. `project` (may be null) tells where a part of a
/// clip stands, so that "filmed" says what to look at.
namespace panslate {

/// A page to print on A4 or Letter, with a box to tick beside every shot. Carries kPageMark.
[[nodiscard]] std::string shot_list_page(const ShotList& list, const Recipe& recipe, const Project* project);

/// For a spreadsheet: RFC 4180, CRLF line ends, one row a shot, a heading first.
[[nodiscard]] std::string shot_list_csv(const ShotList& list, const Recipe& recipe, const Project* project);

/// Plain text in lines of at most `width` characters, by step, with boxes to tick.
[[nodiscard]] std::string shot_list_text(const ShotList& list, const Recipe& recipe, const Project* project,
                                         std::size_t width);

/// The plan for programs: the shots; tasks, resources, timers and conflicts stay empty.
[[nodiscard]] std::string shot_list_json(const ShotList& list, const Recipe& recipe);

}  // namespace panslate
