#pragma once

#include <set>
#include <string>

#include "panslate/recipe/recipe.h"

namespace panslate {

/// Stems of the words of a text, without those that tell nothing.
[[nodiscard]] std::set<std::string> stems_of(const std::string& text);

/// The words of a line by which it may be told from another of the same food: not its measures as they are
/// written ("tablespoons", "grams"), or a wrong amount would choose the line where it is right. Tins and jars
/// are forms of the food.
[[nodiscard]] std::set<std::string> telling_stems(const Ingredient& ingredient);

}  // namespace panslate
