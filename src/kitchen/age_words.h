#pragma once

#include <cstddef>
#include <span>

#include "panslate/kitchen/token.h"

namespace panslate {

/// Index after an age or a count of years at `at` ("eleven years old", "my daughter is |seven|", "when I was
/// |nineteen|", "she turned |ninety|", "the age of |six|"); `at` itself when none stands there.
[[nodiscard]] std::size_t age_end(std::span<const Token> tokens, std::size_t at);

}  // namespace panslate
