#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "panslate/kitchen/amount_scan.h"

#include "kitchen/unit_words.h"

/// Units where a quantity may have them, and the small questions that readers of quantities share.
namespace panslate {

/// As unit_word_at, and inches grown onto a figure ("2in", `2" piece`).
[[nodiscard]] std::optional<UnitWord> unit_at(std::span<const Token> tokens, std::size_t at,
                                              SpokenOrWritten how);

[[nodiscard]] bool is_word(std::span<const Token> tokens, std::size_t at);

/// After a hyphen grown onto the next word ("20-minute", "3 - inch"); `at` where none stands there.
[[nodiscard]] std::size_t skip_unit_hyphen(std::span<const Token> tokens, std::size_t at);

[[nodiscard]] bool is_mass_or_volume(Unit unit);
[[nodiscard]] bool is_length(Unit unit);

/// Counts and containers: a tin, a clove, a piece.
[[nodiscard]] bool is_countable(const UnitWord& word);

}  // namespace panslate
