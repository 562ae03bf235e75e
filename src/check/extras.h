#pragma once

#include <vector>

#include "panslate/check/report.h"
#include "panslate/recipe/recipe.h"

#include "check/food_verdict.h"
#include "check/talk.h"

namespace panslate {

/// What is said (or on the picture) beside the recipe: foods it does not have, more of one it has, ideas for
/// serving and swapping. In order of time.
[[nodiscard]] std::vector<Extra> extras_of(const Talk& talk, const std::vector<FoodTarget>& targets,
                                           const Recipe& recipe, const std::vector<FoodFinding>& foods);

}  // namespace panslate
