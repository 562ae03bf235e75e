#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "panslate/kitchen/amount_scan.h"

namespace panslate {

/// A part of a food: "half the leeks", "two thirds of it"; without a number "the rest of the stock", "the
/// remaining butter". The words up to the food belong to it.
[[nodiscard]] std::optional<ScannedAmount> share_at(std::span<const Token> tokens, std::size_t at);

}  // namespace panslate
