#include "check/dish_names.h"

#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"

#include "check/filler_words.h"

namespace panslate {

namespace {

// "half a cup of key lime juice" for a key lime pie: the words are part of a listed name that is said whole.
bool is_within_name(const SpokenText& text, TokenSpan run, const std::vector<std::string>& foods) {
  return std::any_of(foods.begin(), foods.end(), [&](const auto& food) {
    const auto words = split(fold_case(food), ' ');
    for (std::size_t offset = 0; offset < words.size() && offset <= run.begin; ++offset) {
      const auto first = run.begin - offset;
      if (words.size() < offset + (run.end - run.begin)) break;
      std::size_t same = 0;
      while (same < words.size() && text.is_word(first + same, words[same])) ++same;
      if (same == words.size()) return true;
    }
    return false;
  });
}

}  // namespace

std::vector<TokenSpan> dish_names(const SpokenText& text, const std::string& title,
                                  const std::vector<std::string>& foods) {
  std::vector<std::string> words;
  for (const auto& token : tokenize(title))
    if (token.kind == TokenKind::Word) words.push_back(token.text);
  std::vector<TokenSpan> spans;
  const bool has_dish_word = std::any_of(words.begin(), words.end(), [](const auto& w) {
    return !is_filler(w) && !is_food_word(w) && !is_descriptor(w);
  });
  const std::size_t shortest = has_dish_word ? 2 : words.size();
  if (words.size() < 2 || words.size() > 20) return spans;
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::size_t longest = 0;
    bool with_dish_word = false;
    for (std::size_t w = 0; w < words.size(); ++w) {
      std::size_t length = 0;
      bool dish = false;
      while (w + length < words.size() && text.is_word(i + length, words[w + length])) {
        const auto& word = words[w + length];
        dish = dish || (!is_filler(word) && !is_food_word(word) && !is_descriptor(word));
        ++length;
      }
      if (length > longest) {
        longest = length;
        with_dish_word = dish;
      }
    }
    // "a cup of wild rice" is the food, though the title has its words.
    if (longest > 1 && longest < words.size()) {
      const auto run = text.text({i, i + longest});
      const bool listed = std::any_of(foods.begin(), foods.end(),
                                      [&](const auto& food) { return fold_case(food) == fold_case(run); });
      if (listed || find_food(run) != nullptr || is_within_name(text, {i, i + longest}, foods)) continue;
    }
    if (longest >= shortest && (with_dish_word || longest == words.size())) {
      spans.push_back({i, i + longest});
      i += longest - 1;
    }
  }
  return spans;
}

}  // namespace panslate
