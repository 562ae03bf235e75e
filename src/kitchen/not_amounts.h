#pragma once

#include <cstddef>
#include <span>

#include "panslate/kitchen/token.h"

/// Numbers that measure nothing: "step two", "70% chocolate", "five-spice", "7-Up", "half past ten".
namespace panslate {

/// Index after the number-like words at `at` that are no amount; `at` itself when there are none.
[[nodiscard]] std::size_t skip_no_amount(std::span<const Token> tokens, std::size_t at);

/// Whether a bare "one" or "half" before tokens[next] counts something: "one onion", but not "this one",
/// "one of the", "one by one", "cut in half". A word decides by being no function word, since foods are not
/// known here.
[[nodiscard]] bool could_be_counted(std::span<const Token> tokens, std::size_t at, std::size_t next);

}  // namespace panslate
