#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Text set in lines of a given width: terminals and plain text files. A column is a character.
namespace panslate {

/// Lines of at most `width` columns, broken at spaces (not at no-break spaces); a longer word is broken where
/// it must be. At least one line. `width` below 1 counts as 1.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, std::size_t width);

/// The start of `text` with "…" where it is longer than `width` columns: cut behind a word, within one only
/// where that would leave less than half of the width.
[[nodiscard]] std::string shortened(std::string_view text, std::size_t width);

}  // namespace panslate
