#pragma once

#include <cstddef>
#include <span>

#include "panslate/kitchen/amount_scan.h"

/// The same amount told otherwise in one breath: "200 g (7 oz)", "250 grams or one cup", "1 cup, that's 240
/// ml".
namespace panslate {

/// Reads "or so", "each", "in all", "more" after the amount.
void read_tail(std::span<const Token> tokens, ScannedAmount& found);

/// Takes the alternates that follow `found` directly. "1 can (400 g)" becomes a can of 400 g.
void read_alternates(std::span<const Token> tokens, ScannedAmount& found, SpokenOrWritten how);

/// Takes an alternate told after the food: "two hundred grams of flour, or a cup", "a kilo of potatoes,
/// that's two pounds". Sets retold_end; `end` stays before the food.
void read_retold(std::span<const Token> tokens, ScannedAmount& found, SpokenOrWritten how);

/// A temperature in its scales: "180C/160C fan/gas 4"; empty when none starts at `at`.
[[nodiscard]] std::optional<ScannedAmount> temperatures_at(std::span<const Token> tokens, std::size_t at);

}  // namespace panslate
