#include "check/food_sounds.h"

#include <algorithm>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "panslate/base/csv.h"
#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "check/filler_words.h"
#include "check/step_alignment.h"
#include "embedded/food_sounds.h"

namespace panslate {

namespace {

constexpr std::size_t kMostWays = 6;

using SoundTable = std::unordered_map<std::string, std::vector<Sounds>>;

const SoundTable& food_sound_table() {
  static const SoundTable kTable = [] {
    SoundTable table;
    const auto rows = CsvTable::read(embedded::food_sounds);
    for (std::size_t r = 0; r < rows.row_count(); ++r)
      for (const auto& way : split(rows.field(r, "sounds"), '|'))
        if (auto sounds = sounds_from_text(way)) table[rows.field(r, "word")].push_back(*std::move(sounds));
    return table;
  }();
  return kTable;
}

// "what'll": the letters after the apostrophe are said as what they are short for.
Sounds sounds_of_word(const std::string& folded_word) {
  const auto apostrophe = folded_word.find('\'');
  if (apostrophe == std::string::npos || folded_word.ends_with("n't")) return pronounce(folded_word);
  auto sounds = pronounce(folded_word.substr(0, apostrophe));
  const auto ending = folded_word.substr(apostrophe + 1);
  const auto said = ending == "ll"   ? sounds_from_text("ax l")
                    : ending == "re" ? sounds_from_text("ax r")
                    : ending == "ve" ? sounds_from_text("v")
                    : ending == "s"  ? sounds_from_text("z")
                                     : sounds_from_text("");
  if (!said) return pronounce(folded_word);
  sounds.insert(sounds.end(), said->begin(), said->end());
  return sounds;
}

struct WrittenName {
  std::vector<std::string> folded;
  std::vector<std::string> written;
};

// Words of a name; what stands in brackets or after a comma is no part of it.
WrittenName words_of(std::string_view name) {
  WrittenName words;
  for (const auto& token : tokenize(name)) {
    if (token.text == "(" || token.text == ",") break;
    if (token.kind == TokenKind::Number) return {};
    if (token.kind != TokenKind::Word) continue;
    words.folded.push_back(token.text);
    // A capital at the start of a line says nothing; "Worcestershire" has one everywhere.
    const bool proper = token.capital && !is_english_word(token.text);
    words.written.push_back(proper ? token.raw : fold_case(token.raw));
  }
  return words;
}

// One of several, by the usual endings; empty where they do not tell.
std::string singular_of(const std::string& word) {
  if (word.size() < 3 || !word.ends_with('s') || word.ends_with("ss") || word.ends_with("us")) return {};
  if (word.ends_with("ies")) return word.substr(0, word.size() - 3) + "y";
  const bool es = word.ends_with("oes") || word.ends_with("ches") || word.ends_with("shes");
  return word.substr(0, word.size() - (es ? 2 : 1));
}

// Does the phrase, as it stands, name listed foods by more than their kind?
std::vector<std::size_t> named_by(const FoodNames& finder, const std::vector<std::string>& words) {
  const auto mention = finder.find(words, 0);
  const bool whole = mention.length == words.size();
  const bool close = mention.match == NameMatch::Exact || mention.match == NameMatch::Synonym ||
                     mention.match == NameMatch::Head || mention.match == NameMatch::Regional;
  return whole && close ? mention.ingredients : std::vector<std::size_t>{};
}

}  // namespace

std::vector<Sounds> ways_of_saying(const std::string& folded_word) {
  const auto& table = food_sound_table();
  if (const auto found = table.find(folded_word); found != table.end()) return found->second;
  auto sounds = sounds_of_word(folded_word);
  return sounds.empty() ? std::vector<Sounds>{} : std::vector<Sounds>{std::move(sounds)};
}

FoodSounds::FoodSounds(const std::vector<std::string>& names, const FoodNames& finder) {
  std::unordered_set<std::string> seen;
  const auto try_words = [&](std::vector<std::string> folded, std::vector<std::string> written, bool whole) {
    std::string joined;
    for (const auto& word : folded) joined += word + ' ';
    if (!seen.insert(joined).second) return false;
    auto foods = named_by(finder, folded);
    if (foods.empty() || is_filler(folded.front()) || is_filler(folded.back())) return false;
    if (!whole && food_name_length(folded, 0) != folded.size() && !is_food_word(folded.back())) return false;
    add({std::move(folded), std::move(written), std::move(foods), {}});
    return true;
  };
  const auto try_numbers = [&](const WrittenName& name, std::size_t begin, std::size_t end) {
    const auto from = [&](const std::vector<std::string>& words) {
      return std::vector<std::string>(words.begin() + static_cast<std::ptrdiff_t>(begin),
                                      words.begin() + static_cast<std::ptrdiff_t>(end));
    };
    auto folded = from(name.folded);
    auto written = from(name.written);
    const auto describes = [](const std::string& word) { return is_descriptor(word); };
    const auto at = [&](std::size_t i) { return name.folded.begin() + static_cast<std::ptrdiff_t>(i); };
    const bool whole = std::all_of(name.folded.begin(), at(begin), describes) &&
                       std::all_of(at(end), name.folded.end(), describes);
    if (!try_words(folded, written, whole) || !folded.back().ends_with('s')) return;
    folded.back() = singular_of(folded.back());
    written.back() = singular_of(written.back());
    if (!folded.back().empty()) try_words(std::move(folded), std::move(written), whole);
  };
  const auto try_parts = [&](std::string_view name) {
    const auto words = words_of(name);
    for (std::size_t begin = 0; begin < words.folded.size(); ++begin)
      for (std::size_t end = begin + 1; end <= std::min(words.folded.size(), begin + kMostWords); ++end)
        try_numbers(words, begin, end);
  };
  // Names of other languages and very short ones ("anda", "toms") are too near to ordinary words.
  std::unordered_set<std::string_view> tried;
  const auto try_other_name = [&](std::string_view name) {
    if (!tried.insert(name).second) return;
    const auto words = words_of(name);
    std::size_t sounds = 0;
    for (const auto& word : words.folded) {
      if (!is_english_word(word) && !food_sound_table().contains(word)) return;
      const auto ways = ways_of_saying(word);
      sounds += ways.empty() ? 0 : ways.front().size();
    }
    if (sounds >= 5) try_parts(name);
  };
  std::unordered_set<std::string_view> listed;
  for (const auto& name : names) {
    if (!listed.insert(name).second) continue;
    try_parts(name);
    for (const auto other : synonyms_of(name)) try_other_name(other);
  }
  // Other names of the parts: "pepper" of "romano peppers" is "capsicum" as well.
  const auto own = phrases_.size();
  for (std::size_t p = 0; p < own; ++p) {
    std::string name;
    for (const auto& word : phrases_[p].words) name += (name.empty() ? "" : " ") + word;
    for (const auto other : synonyms_of(name)) try_other_name(other);
  }
}

std::vector<Sounds> ways_of_saying(std::span<const std::string> folded_words) {
  std::vector<Sounds> ways{{}};
  for (const auto& word : folded_words) {
    std::vector<Sounds> longer;
    for (const auto& way : ways)
      for (const auto& said : ways_of_saying(word)) {
        if (longer.size() >= kMostWays) break;
        auto& sounds = longer.emplace_back(way);
        sounds.insert(sounds.end(), said.begin(), said.end());
      }
    ways = std::move(longer);
  }
  return ways;
}

void FoodSounds::add(FoodPhrase phrase) {
  for (const auto& word : phrase.words) phrase.stems.push_back(name_stem(word));
  for (auto& way : ways_of_saying(std::span(phrase.words))) {
    index_.add(std::move(way));
    phrase_of_.push_back(phrases_.size());
  }
  phrases_.push_back(std::move(phrase));
}

}  // namespace panslate
