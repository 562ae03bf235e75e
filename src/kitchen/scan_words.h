#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "panslate/kitchen/amount.h"
#include "panslate/kitchen/token.h"

/// Words round a number that say how it is meant: "about", "heaped", "another", "or so".
namespace panslate {

struct AboutWords {
  std::size_t end = 0;  ///< `at` when none stands there
  bool about = false;   ///< false also for "at least": at least four is four
};

/// "about", "roughly", "just over", "at least", "up to" at `at`.
[[nodiscard]] AboutWords about_words_at(std::span<const Token> tokens, std::size_t at);

/// "or so", "-ish", "give or take" after an amount.
[[nodiscard]] AboutWords about_tail_at(std::span<const Token> tokens, std::size_t at);

struct SizeWord {
  std::optional<SpoonSize> size;
  bool about = false;  ///< "a generous tablespoon", "a good handful"
  std::size_t end = 0;
};

/// "heaped", "level", "scant", "generous" at `at`; end is `at` when none stands there.
[[nodiscard]] SizeWord size_word_at(std::span<const Token> tokens, std::size_t at);

}  // namespace panslate
