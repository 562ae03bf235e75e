#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "panslate/base/ratio.h"
#include "panslate/kitchen/token.h"

/// English number words, without ranges: "a hundred and eighty", "two point five", "three quarters".
namespace panslate {

struct NumberWords {
  Ratio value;
  std::size_t end = 0;
  bool about = false;  ///< "two and a bit"
};

/// True when tokens[at] is the folded word or mark.
[[nodiscard]] bool is_text(std::span<const Token> tokens, std::size_t at, std::string_view text);

/// True when tokens[at] is any of the words or marks, parted by '|'.
[[nodiscard]] bool is_any(std::span<const Token> tokens, std::size_t at, std::string_view alternatives);

/// A whole number in figures or words, "one eighty" for 180 included: the longest that starts at `at`. Looks
/// at a bounded number of tokens.
[[nodiscard]] std::optional<NumberWords> cardinal_at(std::span<const Token> tokens, std::size_t at);

/// One number: a cardinal, a decimal, a fraction, a mixed number, a couple, a dozen. Never "a" or "an" alone.
[[nodiscard]] std::optional<NumberWords> number_at(std::span<const Token> tokens, std::size_t at);

}  // namespace panslate
