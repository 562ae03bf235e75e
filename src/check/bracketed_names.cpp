#include "check/bracketed_names.h"

#include <algorithm>

#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"
#include "panslate/speech/pronunciation.h"

#include "check/filler_words.h"

namespace panslate {

namespace {

bool is_name(const std::vector<Token>& words, std::string_view text) {
  constexpr std::size_t kMostWords = 3;
  if (words.empty() || words.size() > kMostWords) return false;
  if (!std::all_of(words.begin(), words.end(), [](const Token& w) { return w.kind == TokenKind::Word; }))
    return false;
  // "(not basmati)", "(or tamari)", "(see note)" say something about the food.
  if (std::any_of(words.begin(), words.end(), [](const Token& word) { return is_filler(word.text); }))
    return false;
  if (find_food(text) != nullptr) return true;
  return std::any_of(words.begin(), words.end(), [](const Token& word) {
    constexpr std::size_t kShortest = 3;
    return word.text.size() >= kShortest && !is_english_word(word.text) && !is_descriptor(word.text);
  });
}

}  // namespace

std::vector<std::string> bracketed_names(std::string_view line) {
  std::vector<std::string> names;
  for (auto open = line.find('('); open != std::string_view::npos; open = line.find('(', open + 1)) {
    const auto close = line.find(')', open);
    if (close == std::string_view::npos) break;
    const auto inside = line.substr(open + 1, close - open - 1);
    if (is_name(tokenize(inside), inside)) names.emplace_back(inside);
  }
  return names;
}

}  // namespace panslate
