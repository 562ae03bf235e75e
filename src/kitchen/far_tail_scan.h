#pragma once

#include <span>
#include <vector>

#include "panslate/kitchen/amount_scan.h"

/// What speech tells of an amount only behind its food: "a hundred and ninety grams of sugar in total",
/// "eleven ounces of dates give or take", "four garlic cloves".
namespace panslate {

/// Reads it into `found`, whose end stays before the food.
void read_far_tail(std::span<const Token> tokens, ScannedAmount& found);

/// "a hundred grams of rye and |two hundred| of wheat": gives `found`, told without a
/// unit, the grams or millilitres of the amount `before` it.
void take_unit_told_before(std::span<const Token> tokens, const ScannedAmount& before, ScannedAmount& found);

/// "two pounds of lard |a week|": true when `found` only tells how often so much of a food is used.
[[nodiscard]] bool is_rate_of(std::span<const Token> tokens, const ScannedAmount& before,
                              const ScannedAmount& found);

/// "three cans of tuna, a hundred and twelve grams each": true when `size` is the size of the packages in
/// `packages` told just before, and has been taken into it.
[[nodiscard]] bool take_size_told_after(std::span<const Token> tokens, ScannedAmount& packages,
                                        const ScannedAmount& size);

}  // namespace panslate
