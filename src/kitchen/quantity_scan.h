#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "panslate/kitchen/amount_scan.h"

/// One quantity, without alternates: a number and its unit, a package, "a pinch", a compound.
namespace panslate {

/// The quantity that starts exactly at `at`.
[[nodiscard]] std::optional<ScannedAmount> quantity_at(std::span<const Token> tokens, std::size_t at,
                                                       SpokenOrWritten how);

/// The quantity without what may be added to it: of "1 lb 5 oz" the pound.
[[nodiscard]] std::optional<ScannedAmount> measured_at(std::span<const Token> tokens, std::size_t at,
                                                       SpokenOrWritten how);

}  // namespace panslate
