#include "kitchen/food_table.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "embedded/foods_csv.h"

namespace panslate {

namespace {

constexpr std::array<std::string_view, 52> kKindSpellings{
    "vegetable", "leaf",    "squash",      "pepper",     "mushroom",  "chilli", "tinned", "fruit",
    "citrus",    "berry",   "dried fruit", "juice",      "zest",      "herb",   "spice",  "rice",
    "grain",     "flour",   "starch",      "pasta",      "bread",     "pastry", "pulse",  "soy",
    "nut",       "seed",    "dairy",       "plant milk", "cheese",    "egg",    "fat",    "oil",
    "meat",      "poultry", "fish",        "seafood",    "seaweed",   "sugar",  "syrup",  "sweetener",
    "chocolate", "baking",  "vinegar",     "sauce",      "condiment", "spread", "pickle", "stock",
    "liquid",    "drink",   "alcohol",     "snack"};

constexpr std::size_t kShortestHalf = 3;  // letters in a half of a word that speech recognisers split

std::vector<std::string> stems_of(std::span<const NameWord> words) {
  std::vector<std::string> stems;
  for (const auto& word : words) stems.push_back(word.stem);
  return stems;
}

bool matches_at(const std::vector<std::string>& stems, std::span<const NameWord> words, std::size_t at) {
  if (at + stems.size() > words.size()) return false;
  for (std::size_t i = 0; i < stems.size(); ++i)
    if (stems[i] != words[at + i].stem) return false;
  return true;
}

}  // namespace

std::string_view spelling_of(FoodKind kind) {
  return kKindSpellings[static_cast<std::size_t>(kind)];
}

std::optional<FoodKind> food_kind_from_spelling(std::string_view spelling) {
  const auto it = std::find(kKindSpellings.begin(), kKindSpellings.end(), spelling);
  if (it == kKindSpellings.end()) return std::nullopt;
  return static_cast<FoodKind>(it - kKindSpellings.begin());
}

FoodTable::FoodTable() {
  const auto fields_of_rows = table_rows(embedded::foods_csv);
  std::unordered_map<std::string_view, std::size_t> row_by_name;
  for (const auto& fields : fields_of_rows) {
    Food food;
    food.name = fields[0];
    food.other_names = field_parts(fields[1]);
    bool first = true;
    for (const auto part : field_parts(fields[2]))
      if (const auto kind = food_kind_from_spelling(part)) {
        if (std::exchange(first, false)) food.kind = *kind;
        food.kinds.set(static_cast<std::size_t>(*kind));
      }
    food.source = fields[5];
    food.note = fields[6];
    row_by_name.emplace(food.name, rows_.size());
    rows_.push_back(std::move(food));
  }
  narrower_.resize(rows_.size());
  meant_by_.resize(rows_.size());
  std::vector<NamedRow> names;
  for (std::size_t row = 0; row < rows_.size(); ++row) {
    if (const auto it = row_by_name.find(fields_of_rows[row][3]); it != row_by_name.end())
      rows_[row].broader = it->second;
    names.emplace_back(name_words(rows_[row].name), row);
    for (const auto name : rows_[row].other_names) names.emplace_back(name_words(name), row);
  }
  for (const auto& [words, row] : names) add_name(words, row);
  for (const auto phrase : phrases_without_food()) add_name(name_words(phrase), kNoFood);
  add_split_names(names);
  for (auto& [first, entries] : by_first_)
    std::stable_sort(entries.begin(), entries.end(), [](const Entry& one, const Entry& other) {
      return one.stems.size() > other.stems.size();
    });
  for (std::size_t row = 0; row < rows_.size(); ++row) {
    for (const auto name : field_parts(fields_of_rows[row][4]))
      if (const auto meant = row_of(name_words(name)); meant != kNoFood) {
        rows_[row].may_mean.push_back(meant);
        meant_by_[meant].push_back(row);
      }
    for (auto broad = rows_[row].broader; broad; broad = rows_[*broad].broader)
      narrower_[*broad].push_back(row);
  }
}

void FoodTable::add_name(std::span<const NameWord> words, std::size_t row) {
  if (words.empty()) return;
  by_first_[words.front().stem].push_back({stems_of(words), row, false});
}

// "eggplant" comes as "egg plant" from recognisers, "spring onion" as "springonion" from hurried hands.
void FoodTable::add_split_names(std::span<const NamedRow> names) {
  std::unordered_set<std::string_view> vocabulary;
  for (const auto& [words, row] : names)
    for (const auto& word : words)
      if (word.text.size() >= kShortestHalf) vocabulary.insert(word.text);
  const auto add = [this](const std::vector<NameWord>& words, std::size_t row) {
    if (row_of(words) == kNoFood && longest_at(words, 0).length < words.size())
      by_first_[words.front().stem].push_back({stems_of(words), row, true});
  };
  for (const auto& [words, row] : names) {
    if (words.size() != 1) continue;
    const auto& word = words.front();
    for (std::size_t cut = kShortestHalf; cut + kShortestHalf <= word.text.size(); ++cut) {
      const auto front = std::string_view(word.text).substr(0, cut);
      const auto back = std::string_view(word.text).substr(cut);
      if (vocabulary.contains(front) && vocabulary.contains(back))
        add({{std::string(front), name_stem(front)}, {std::string(back), name_stem(back)}}, row);
    }
  }
  for (const auto& [words, row] : names) {
    if (words.size() != 2) continue;
    const auto joined = words[0].text + words[1].text;
    const std::vector<NameWord> one{{joined, name_stem(joined)}};
    if (row_of(one) != row) {
      add(one, row);
      continue;
    }
    // "butter milk" beside "buttermilk" may be two foods as well.
    for (auto& entry : by_first_[words[0].stem])
      if (entry.row == row && entry.stems == stems_of(words)) entry.split = true;
  }
}

KnownName FoodTable::longest_at(std::span<const NameWord> words, std::size_t at) const {
  KnownName best;
  if (at >= words.size()) return best;
  const auto it = by_first_.find(words[at].stem);
  if (it == by_first_.end()) return best;
  for (const auto& entry : it->second)
    if (entry.stems.size() > best.length && matches_at(entry.stems, words, at))
      best = {entry.stems.size(), entry.row, entry.split};
  return best;
}

std::size_t FoodTable::row_of(std::span<const NameWord> words) const {
  if (words.empty()) return kNoFood;
  const auto it = by_first_.find(words.front().stem);
  if (it == by_first_.end()) return kNoFood;
  for (const auto& entry : it->second)
    if (entry.stems.size() == words.size() && entry.row != kNoFood && matches_at(entry.stems, words, 0))
      return entry.row;
  return kNoFood;
}

bool FoodTable::starts_name(std::string_view name_stem) const {
  return by_first_.contains(std::string(name_stem));
}

bool FoodTable::is_under(std::size_t row, std::size_t broad) const {
  if (row == broad) return true;
  return std::find(narrower_[broad].begin(), narrower_[broad].end(), row) != narrower_[broad].end();
}

ResolvedName FoodTable::resolve(std::span<const NameWord> words) const {
  const auto without = [](std::span<const NameWord> all, auto says_nothing) {
    std::vector<NameWord> kept;
    std::copy_if(all.begin(), all.end(), std::back_inserter(kept),
                 [&says_nothing](const NameWord& word) { return !says_nothing(word); });
    return kept.empty() ? std::vector<NameWord>(all.begin(), all.end()) : kept;
  };
  const auto described = without(words, [](const NameWord& word) {
    return is_of_class(WordClass::Descriptor, word.stem) && !form_of(word.text);
  });
  const auto bare = without(words, [](const NameWord& word) { return is_descriptor(word.text); });
  auto whole = bare;
  while (whole.size() > 1 && is_of_class(WordClass::Part, whole.back().stem)) whole.pop_back();
  for (const auto& choice : {std::span<const NameWord>(words), std::span<const NameWord>(described),
                             std::span<const NameWord>(bare), std::span<const NameWord>(whole)})
    if (const auto row = row_of_kind_named(choice); row != kNoFood) return {row, true};
  for (const auto& choice : {std::span<const NameWord>(described), std::span<const NameWord>(bare),
                             std::span<const NameWord>(whole)})
    for (std::size_t begin = 1; begin < choice.size(); ++begin)
      if (const auto row = row_of_kind_named(choice.subspan(begin)); row != kNoFood) return {row, false};
  return {};
}

// "edam cheese" is edam: the last word only says what edam is.
std::size_t FoodTable::row_of_kind_named(std::span<const NameWord> words) const {
  if (const auto row = row_of(words); row != kNoFood || words.size() < 2) return row;
  const auto row = row_of(words.first(words.size() - 1));
  const auto kind = row_of(words.last(1));
  return row != kNoFood && kind != kNoFood && is_under(row, kind) ? row : kNoFood;
}

const FoodTable& food_table() {
  static const FoodTable table;
  return table;
}

}  // namespace panslate
