#pragma once

#include <cstddef>
#include <span>

#include "panslate/kitchen/token.h"

namespace panslate {

/// Index after a price at `at` ("£|3|", "five dollars", "two pounds fifty", "cost me |four ninety nine|",
/// "three fifty a kilo"); `at` itself when none stands there.
[[nodiscard]] std::size_t price_end(std::span<const Token> tokens, std::size_t at);

}  // namespace panslate
