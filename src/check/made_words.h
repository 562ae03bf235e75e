#pragma once

#include <set>
#include <string>
#include <vector>

#include "panslate/recipe/recipe.h"

#include "check/talk.h"

namespace panslate {

/// "Whisk in the stock and soy sauce …", "… pour on the sauce": what the method makes by the last word of a
/// written name, where it has told the food by its whole name before. The word alone is no longer the food.
[[nodiscard]] std::set<std::string> words_for_what_is_made(const std::vector<FoodTarget>& targets,
                                                           const Recipe& recipe);

}  // namespace panslate
