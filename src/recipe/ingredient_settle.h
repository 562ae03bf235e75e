#pragma once

#include <string>
#include <vector>

#include "panslate/recipe/recipe.h"

#include "recipe/ingredient_foods.h"

/// What can be told of an ingredient line only once all of it was read.
namespace panslate {

[[nodiscard]] bool is_package(Unit unit);
[[nodiscard]] bool is_weight_or_volume(Unit unit);

/// "2 cm ginger": a length counts one piece.
[[nodiscard]] Amount as_food_amount(Amount amount);

/// "1 block (280 g) tofu": the weight is what the one package holds, no alternate.
void settle_package(std::vector<Amount>& amounts);

/// "2 x 400 g tinned tomatoes": the word names the package; the food is tomatoes, the unit a can.
void name_without_package(LineFoods& names, std::vector<Amount>& amounts);

/// "Thyme, rosemary and some bay leaves": without an amount, what follows the comma may be foods too. They
/// move from the preparation to the foods.
void take_listed_foods(Ingredient& ingredient, std::vector<std::string>& preparation);

/// "to taste", "for frying", "to serve".
[[nodiscard]] bool says_to_taste(const std::vector<std::string>& preparation);

}  // namespace panslate
