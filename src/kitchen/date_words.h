#pragma once

#include <cstddef>
#include <span>

#include "panslate/kitchen/token.h"

namespace panslate {

/// Index after a year, a date or a time of the day at `at` ("nineteen fifty two", "since 1987", "the twenty
/// seventh", "six o'clock", "at half past seven", "till seven thirty"); `at` itself when none stands there.
[[nodiscard]] std::size_t date_end(std::span<const Token> tokens, std::size_t at);

}  // namespace panslate
