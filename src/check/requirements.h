#pragma once

#include <vector>

#include "panslate/check/report.h"
#include "panslate/recipe/recipe.h"

namespace panslate {

/// Everything of a recipe that the video must say, show or write, in the order of the recipe; nothing judged
/// yet.
[[nodiscard]] std::vector<Requirement> requirements_of(const Recipe& recipe);

}  // namespace panslate
