#pragma once

#include <string>

namespace panslate {

/// True for words that cooks say of everything but foods: tools, places, sizes, countries, what is done.
/// Heard, they are not taken for something else easily.
[[nodiscard]] bool is_kitchen_word(const std::string& folded_word);

}  // namespace panslate
