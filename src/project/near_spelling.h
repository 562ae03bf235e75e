#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace panslate {

/// The word most like `written` (case and accents aside) where it can be a slip of the fingers: at most a
/// third of its characters wrong, missing, too many, or swapped with a neighbour. The first of equals; empty
/// when none is near.
[[nodiscard]] std::optional<std::string> nearest_spelling(std::string_view written,
                                                          const std::vector<std::string>& words);

/// Changes of one character (or swaps of neighbours) between two words, characters of the first 64.
[[nodiscard]] std::size_t spelling_distance(std::string_view a, std::string_view b);

}  // namespace panslate
