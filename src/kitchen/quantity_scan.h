#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "panslate/kitchen/amount_scan.h"

/// One measured quantity, without alternates: a number and its unit, a package, "a pinch", a compound.
namespace panslate {

/// The quantity that starts exactly at `at`.
[[nodiscard]] std::optional<ScannedAmount> quantity_at(std::span<const Token> tokens, std::size_t at,
                                                       SpokenOrWritten how);

/// How many of `small` make one of `large`, for adding up a compound: kitchen measures by US ratios (16 tbsp,
/// 48 tsp to the cup). Empty where they do not add.
[[nodiscard]] std::optional<Ratio> parts_of(Unit large, Unit small);

}  // namespace panslate
