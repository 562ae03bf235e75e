#pragma once

#include <nlohmann/json.hpp>

#include "panslate/recipe/recipe.h"

namespace panslate {

/// Title, file, yields and measures of a recipe: the same in all JSON reports.
[[nodiscard]] nlohmann::ordered_json recipe_json(const Recipe& recipe);

}  // namespace panslate
