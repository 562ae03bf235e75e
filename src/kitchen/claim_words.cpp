#include "panslate/kitchen/claim_words.h"

#include <array>
#include <string>
#include <unordered_set>
#include <utility>

#include "panslate/base/csv.h"
#include "panslate/kitchen/food.h"

#include "embedded/claim_words_csv.h"

namespace panslate {

namespace {

constexpr std::array<std::pair<std::string_view, ClaimWord>, 8> kClasses{{
    {"condition", ClaimWord::Condition},
    {"spoken_before", ClaimWord::SpokenBefore},
    {"needs_if", ClaimWord::NeedsIf},
    {"adapts", ClaimWord::Adapts},
    {"spoken_after", ClaimWord::SpokenAfter},
    {"people_after", ClaimWord::PeopleAfter},
    {"food_after", ClaimWord::FoodAfter},
    {"claim_of_self", ClaimWord::OfSelf},
}};

using WordSets = std::array<std::unordered_set<std::string>, kClasses.size()>;

WordSets load_words() {
  WordSets sets;
  const auto table = CsvTable::read(embedded::claim_words_csv);
  for (std::size_t row = 0; row < table.row_count(); ++row)
    for (const auto& [spelling, kind] : kClasses)
      if (table.field(row, "class") == spelling)
        sets.at(static_cast<std::size_t>(kind)).insert(name_stem(table.field(row, "word")));
  return sets;
}

}  // namespace

bool is_claim_word(ClaimWord kind, std::string_view folded) {
  static const auto kSets = load_words();
  return kSets.at(static_cast<std::size_t>(kind)).contains(name_stem(folded));
}

}  // namespace panslate
