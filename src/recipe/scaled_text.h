#pragma once

#include <functional>
#include <string>

#include "panslate/recipe/recipe.h"

/// A scaled ingredient line in the cook's own words.
namespace panslate {

/// The line as written, with `sensible` in the place of its first amount; other amounts that say the same
/// ("200 g (1 cup)") and added ones ("1 egg, plus 1 yolk") as `scaled` makes them; "onion" and "onions" as
/// the count asks. Empty where the line's amount is not found in its text.
[[nodiscard]] std::string scaled_text(const Ingredient& ingredient, const Amount& sensible,
                                      const std::function<Amount(const Amount&)>& scaled);

}  // namespace panslate
