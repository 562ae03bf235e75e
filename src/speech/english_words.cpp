#include "embedded/english_words.h"

#include <algorithm>
#include <string_view>

#include "panslate/speech/pronunciation.h"

namespace panslate {

namespace {

// Halves the sorted list itself: a table made of its 60,000 words would take longer than a whole check.
bool is_listed(std::string_view word) {
  const std::string_view list = embedded::english_words;
  std::size_t low = 0;
  std::size_t high = list.size();
  while (low < high) {
    const auto middle = low + (high - low) / 2;
    const auto before = list.substr(0, middle).rfind('\n');
    const auto begin = before == std::string_view::npos || before < low ? low : before + 1;
    const auto end = std::min(list.find('\n', begin), list.size());
    const auto here = list.substr(begin, end - begin);
    if (here == word) return true;
    if (here < word)
      low = std::min(end + 1, high);
    else
      high = begin;
  }
  return false;
}

}  // namespace

bool is_english_word(std::string_view folded_word) {
  if (is_listed(folded_word)) return true;
  // The lists have no possessives here.
  const auto apostrophe = folded_word.find('\'');
  return apostrophe != std::string_view::npos && is_listed(folded_word.substr(0, apostrophe));
}

}  // namespace panslate
