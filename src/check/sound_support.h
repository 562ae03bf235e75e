#pragma once

#include <cstdint>
#include <vector>

#include "check/spoken_text.h"
#include "check/talk.h"

namespace panslate {

/// What the words around a stretch say for its being a food, weakest first.
enum class FoodSupport : std::uint8_t {
  None,
  Deed,      ///< something is done with it that its step does: "rinse the leaks"
  Listing,   ///< it stands among foods: "rosemary, time and garlic"
  Amount,    ///< an amount is said of it: "two leaks"
  AmountOf,  ///< a measure "of" it: "two teaspoons of time"
};

/// `foods` are the foods of the talk that were understood, in order; `target` is what the stretch may mean.
[[nodiscard]] FoodSupport food_support(const Talk& talk, const std::vector<TokenSpan>& foods,
                                       TokenSpan stretch, const FoodTarget& target);

/// Stems of what the method does in the steps that use an ingredient.
[[nodiscard]] std::vector<std::vector<std::string>> deeds_by_ingredient(const Recipe& recipe);

}  // namespace panslate
