#pragma once

#include "check/talk.h"

/// Amounts told near a food that are of somebody or something else, and foods that are told to be left out.
namespace panslate {

/// "The recipe says one teaspoon", "the bowl they are in, it's 250 grams": of somebody or something else,
/// or of what is not put in.
[[nodiscard]] bool speaks_of_others(const Talk& talk, const FoodSighting& food, const SpokenAmount& amount);
/// "The book says one teaspoon", "if your doctor lets you have it, it's two hundred grams".
[[nodiscard]] bool is_quoted(const Talk& talk, const SpokenAmount& amount);
/// Nothing goes on about the amount, as in "250 grams more than I asked", "one teaspoon a day".
[[nodiscard]] bool ends_plainly(const Talk& talk, const SpokenAmount& amount);
/// "I've run out of yoghurt", "no sugar for me": what is told next is of something else.
[[nodiscard]] bool is_gone_without(const Talk& talk, const FoodSighting& food);

}  // namespace panslate
