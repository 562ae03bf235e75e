#pragma once

#include <cstddef>
#include <string_view>

namespace panslate {

/// How many letters must be put in, left out, changed or swapped with the next to make one folded word of the
/// other (optimal string alignment); at most 64 letters of either count.
[[nodiscard]] std::size_t letters_apart(std::string_view a, std::string_view b);

/// True where `typed`, which is no word, is `meant` with a slip or two of the keys: one in six to eight
/// letters, two in more, none of them the first.
[[nodiscard]] bool is_misspelt(std::string_view typed, std::string_view meant);

/// True for a word made from `meant` by an ending that makes no other food of it: "peppery", "salted",
/// "nutty".
[[nodiscard]] bool is_made_from(std::string_view heard, std::string_view meant);

}  // namespace panslate
