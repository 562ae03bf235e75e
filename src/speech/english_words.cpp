#include "embedded/english_words.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <unordered_set>

#include "panslate/base/text.h"
#include "panslate/speech/pronunciation.h"

namespace panslate {

namespace {

std::unordered_set<std::string_view> word_set() {
  const std::string_view text = embedded::english_words;
  std::unordered_set<std::string_view> words;
  words.reserve(text.size() / 8);
  for (std::size_t begin = 0; begin < text.size();) {
    const auto end = std::min(text.find('\n', begin), text.size());
    words.insert(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return words;
}

}  // namespace

bool is_english_word(std::string_view folded_word) {
  static const auto kWords = word_set();
  if (kWords.contains(folded_word)) return true;
  // The lists have no possessives here.
  const auto apostrophe = folded_word.find('\'');
  return apostrophe != std::string_view::npos && kWords.contains(folded_word.substr(0, apostrophe));
}

}  // namespace panslate
