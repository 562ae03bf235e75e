#pragma once

#include <optional>
#include <string>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/project/project.h"

namespace panslate {

/// One line of the shot list.
struct Shot {
  std::string number;  ///< set-up letter and count: "A3"
  std::string setup;   ///< "A"
  Framing framing = Framing::Overhead;
  std::size_t step = 0;            ///< index into Recipe::steps
  std::string subject;             ///< "the drained chickpeas going into the bowl"
  std::vector<std::string> shows;  ///< foods with amounts that must be visible: "chickpeas, 2 × 400 g cans"
  std::string line;                ///< the sentence spoken over it; empty for silent inserts
  MediaTime length;        ///< planned: the line's time to speak, at least long enough to see the action
  bool repeatable = true;  ///< false: once done it cannot be undone (cracking, pouring, plating)
  std::vector<std::string> covered_by;  ///< ids of segments; empty: to film
};

struct ShotList {
  std::vector<Shot> shots;  ///< in the order of the method, a beauty shot last
};

/// The shots that let a viewer see every ingredient with its amount and every step of the recipe; `project`
/// (may be null) tells what is filmed already.
[[nodiscard]] ShotList make_shot_list(const Recipe& recipe, const Project* project);

}  // namespace panslate
