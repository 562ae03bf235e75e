#pragma once

#include <algorithm>
#include <initializer_list>
#include <string_view>

namespace panslate {

/// True when `word` is one of `words`.
[[nodiscard]] inline bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

[[nodiscard]] inline bool starts_with(std::string_view text, std::string_view start) {
  return text.substr(0, start.size()) == start;
}

}  // namespace panslate
