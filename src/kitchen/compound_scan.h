#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "panslate/kitchen/amount_scan.h"

/// What is added to a quantity after its unit: "a cup and a half", "1 lb 5 oz", "an hour and twenty", "45
/// minutes to an hour".
namespace panslate {

/// How many of `small` make one of `large`, for adding up a compound: kitchen measures by US ratios (16 tbsp,
/// 48 tsp to the cup), pints of 20 fluid ounces. Empty where they do not add.
[[nodiscard]] std::optional<Ratio> parts_of(Unit large, Unit small);

/// Adds to `found` the parts that follow it; its unit stays the first one.
void add_parts(std::span<const Token> tokens, ScannedAmount& found, SpokenOrWritten how);

/// Takes the upper end of a range whose unit is said twice, or of "a minute or two".
void take_range_end(std::span<const Token> tokens, ScannedAmount& found, SpokenOrWritten how);

}  // namespace panslate
