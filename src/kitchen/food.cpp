#include "panslate/kitchen/food.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "kitchen/food_table.h"

namespace panslate {

namespace {

constexpr std::size_t kLongestName = 8;  // words
constexpr int kNamesOfAHead = 3;  // a last word of so many names is a food of its own: "beans", "noodles"

std::unordered_set<std::string> load_food_words() {
  std::unordered_set<std::string> words;
  std::unordered_map<std::string, int> heads;
  for (const auto& food : all_foods()) {
    auto names = food.other_names;
    names.push_back(food.name);
    for (const auto name : names) {
      const auto cut = name_words(name);
      if (cut.size() == 1)
        words.insert(cut.front().stem);
      else if (!cut.empty() && !is_of_class(WordClass::Part, cut.back().stem))
        ++heads[cut.back().stem];
    }
  }
  for (const auto& [head, count] : heads)
    if (count >= kNamesOfAHead) words.insert(head);
  return words;
}

}  // namespace

const std::vector<Food>& all_foods() {
  return food_table().rows();
}

const Food* find_food(std::string_view name) {
  const auto resolved = food_table().resolve(name_words(name));
  return resolved.whole ? &all_foods()[resolved.row] : nullptr;
}

std::vector<std::string_view> synonyms_of(std::string_view name) {
  std::vector<std::string_view> names;
  if (const auto* food = find_food(name)) {
    names.push_back(food->name);
    names.insert(names.end(), food->other_names.begin(), food->other_names.end());
  }
  return names;
}

bool is_descriptor(std::string_view folded_word) {
  return form_of(folded_word).has_value() || is_of_class(WordClass::Descriptor, name_stem(folded_word));
}

bool makes_another_food(std::string_view modifier, std::string_view head) {
  const auto head_words = name_words(head);
  auto words = name_words(modifier);
  if (words.empty() || head_words.empty()) return false;
  const auto modifier_row = food_table().row_of(words);
  words.insert(words.end(), head_words.begin(), head_words.end());
  const auto both = food_table().row_of(words);
  const auto alone = food_table().row_of(head_words);
  if (both != kNoFood) return alone == kNoFood || !food_table().is_under(both, alone);
  return modifier_row != kNoFood && is_of_class(WordClass::Maker, head_words.back().stem);
}

bool is_food_word(std::string_view folded_word) {
  static const auto words = load_food_words();
  const auto key = name_stem(folded_word);
  return words.contains(key) && !is_of_class(WordClass::Dish, key);
}

bool is_ambiguous_word(std::string_view folded_word) {
  return is_of_class(WordClass::Ambiguous, name_stem(folded_word));
}

std::size_t food_name_length(const std::vector<std::string>& words, std::size_t at) {
  std::vector<NameWord> cut;
  std::vector<std::size_t> ends;  // of the word that each cut one came from
  for (std::size_t i = at; i < words.size() && cut.size() < kLongestName; ++i) {
    append_name_words(words[i], cut);
    if (cut.size() == ends.size()) break;  // a boundary
    ends.resize(cut.size(), i + 1);
  }
  const auto known = food_table().longest_at(cut, 0);
  if (known.length == 0 || known.row == kNoFood) return 0;
  const bool alone = known.length == 1 && is_ambiguous_word(cut.front().text);
  if (alone && (at == 0 || !lets_believe_food(words[at - 1]))) return 0;
  return ends[known.length - 1] - at;
}

}  // namespace panslate
