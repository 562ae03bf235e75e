#pragma once

#include <string>
#include <vector>

#include "panslate/recipe/recipe.h"

/// The tin for another number of servings.
namespace panslate {

/// What becomes of the first tin, dish or pan whose size the method tells (at least 10 cm, 4 in), so that the
/// food stands as high in it. Empty where none is told.
[[nodiscard]] std::string pan_remark(const Recipe& recipe, const Ratio& factor);

}  // namespace panslate
