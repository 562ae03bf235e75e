#include "kitchen/food_words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "panslate/base/text.h"

#include "embedded/food_words_csv.h"

namespace panslate {

namespace {

constexpr std::array<std::pair<std::string_view, WordClass>, 8> kClasses{{
    {"descriptor", WordClass::Descriptor},
    {"part", WordClass::Part},
    {"maker", WordClass::Maker},
    {"dish", WordClass::Dish},
    {"tool", WordClass::Tool},
    {"distinctive", WordClass::Distinctive},
    {"ambiguous", WordClass::Ambiguous},
    {"verb", WordClass::Verb},
}};

struct Words {
  std::array<std::unordered_set<std::string>, kClasses.size()> classes;
  std::unordered_map<std::string, FoodKinds> categories;
  std::unordered_map<std::string, std::vector<std::size_t>> contrasts;
  std::vector<std::string_view> phrases;
  std::vector<std::pair<std::string_view, std::string_view>> counts;  // "clove", "garlic"
};

FoodKinds kinds_from(std::string_view field) {
  FoodKinds kinds;
  for (const auto part : field_parts(field))
    if (const auto kind = food_kind_from_spelling(part)) kinds.set(static_cast<std::size_t>(*kind));
  return kinds;
}

Words load_words() {
  Words words;
  std::size_t set = 0;
  for (const auto& fields : table_rows(embedded::food_words_csv)) {
    if (fields[0] == "category") {
      words.categories[name_stem(fields[1])] |= kinds_from(fields[2]);
    } else if (fields[0] == "phrase") {
      words.phrases.push_back(fields[1]);
    } else if (fields[0] == "counted") {
      words.counts.emplace_back(fields[1], fields[2]);
    } else if (fields[0] == "contrast") {
      for (const auto member : field_parts(fields[1])) words.contrasts[name_stem(member)].push_back(set);
      ++set;
    }
    for (const auto& [spelling, word_class] : kClasses)
      if (fields[0] == spelling) {
        std::string key;
        for (const auto& word : name_words(fields[1])) key += (key.empty() ? "" : " ") + word.stem;
        words.classes[static_cast<std::size_t>(word_class)].insert(std::move(key));
      }
  }
  return words;
}

const Words& all_words() {
  static const Words words = load_words();
  return words;
}

}  // namespace

std::vector<std::vector<std::string_view>> table_rows(std::string_view csv) {
  std::vector<std::vector<std::string_view>> rows;
  bool heading = true;
  for (const auto& line : split_lines(csv)) {
    if (std::exchange(heading, false) || line.text.empty()) continue;
    std::vector<std::string_view> fields;
    std::size_t begin = 0;
    for (std::size_t comma = 0; comma != std::string_view::npos; begin = comma + 1) {
      comma = line.text.find(',', begin);
      fields.push_back(line.text.substr(begin, comma == std::string_view::npos ? comma : comma - begin));
    }
    rows.push_back(std::move(fields));
  }
  return rows;
}

std::vector<std::string_view> field_parts(std::string_view field) {
  std::vector<std::string_view> parts;
  while (!field.empty()) {
    const auto bar = std::min(field.find('|'), field.size());
    parts.push_back(field.substr(0, bar));
    field.remove_prefix(std::min(bar + 1, field.size()));
  }
  return parts;
}

void append_name_words(std::string_view folded_word, std::vector<NameWord>& out) {
  const auto add = [&out](std::string_view piece) {
    const auto is_letter = [](unsigned char c) { return std::isalnum(c) != 0 || c >= 0x80; };
    while (!piece.empty() && !is_letter(static_cast<unsigned char>(piece.front()))) piece.remove_prefix(1);
    while (!piece.empty() && !is_letter(static_cast<unsigned char>(piece.back())) && piece.back() != '%')
      piece.remove_suffix(1);
    if (!piece.empty()) out.push_back({std::string(piece), name_stem(piece)});
  };
  for (std::size_t begin = 0; begin <= folded_word.size();) {
    const auto hyphen = std::min(folded_word.find('-', begin), folded_word.size());
    add(folded_word.substr(begin, hyphen - begin));
    begin = hyphen + 1;
  }
}

std::vector<NameWord> name_words(std::string_view name) {
  std::vector<NameWord> words;
  const auto folded = fold_accents(name);
  // Nearly every name is of plain letters, whose only spaces are spaces.
  const bool plain = std::all_of(folded.begin(), folded.end(), [](unsigned char c) { return c < 0x80; });
  const auto text = plain ? folded : collapse_spaces(folded);
  for (std::size_t begin = 0; begin < text.size();) {
    const auto end = std::min(text.find_first_of(" \t\n\r\f\v", begin), text.size());
    append_name_words(std::string_view(text).substr(begin, end - begin), words);
    begin = end + 1;
  }
  return words;
}

bool is_of_class(WordClass word_class, std::string_view name_stem) {
  return all_words().classes[static_cast<std::size_t>(word_class)].contains(std::string(name_stem));
}

FoodKinds kinds_of_category(std::string_view name_stem) {
  const auto it = all_words().categories.find(std::string(name_stem));
  return it == all_words().categories.end() ? FoodKinds{} : it->second;
}

std::vector<std::string_view> counts_of(std::string_view food) {
  std::vector<std::string_view> counts;
  for (const auto& [word, of_food] : all_words().counts)
    if (of_food == food) counts.push_back(word);
  return counts;
}

bool words_contrast(std::string_view name_stem, std::string_view other_name_stem) {
  if (name_stem == other_name_stem) return false;
  const auto& contrasts = all_words().contrasts;
  const auto one = contrasts.find(std::string(name_stem));
  const auto other = contrasts.find(std::string(other_name_stem));
  if (one == contrasts.end() || other == contrasts.end()) return false;
  return std::any_of(one->second.begin(), one->second.end(), [&other](std::size_t set) {
    return std::find(other->second.begin(), other->second.end(), set) != other->second.end();
  });
}

bool has_contrasts(std::string_view name_stem) {
  return all_words().contrasts.contains(std::string(name_stem));
}

bool lets_believe_food(std::string_view folded_word) {
  static const std::unordered_set<std::string_view> kBefore{
      "of",    "some", "more", "extra", "few",   "enough", "the",  "a",     "an",   "any",
      "our",   "my",   "your", "this",  "that",  "cup",    "cups", "grams", "g",    "kg",
      "ml",    "tbsp", "tsp",  "one",   "two",   "three",  "four", "five",  "six",  "seven",
      "eight", "nine", "ten",  "half",  "dozen", "twelve", "both", "each",  "these"};
  if (kBefore.contains(folded_word) || is_descriptor(folded_word)) return true;
  return !folded_word.empty() && folded_word.front() >= '0' && folded_word.front() <= '9';
}

const std::vector<std::string_view>& phrases_without_food() {
  return all_words().phrases;
}

}  // namespace panslate
