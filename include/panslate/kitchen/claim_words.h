#pragma once

#include <cstdint>
#include <string_view>

/// Words that tell whether a claim is made of a food or a dish, or only spoken of; from claim_words.csv.
namespace panslate {

enum class ClaimWord : std::uint8_t {
  Condition,     ///< in an ingredient line: "if", "use", "check": what is told need not hold
  SpokenBefore,  ///< "use gluten-free flour": nothing is claimed
  NeedsIf,       ///< "if you need it gluten-free"
  Adapts,        ///< "swap the butter and it is vegan": perhaps nothing is claimed
  SpokenAfter,   ///< "vegan version", "gluten-free if you use tamari"
  PeopleAfter,   ///< "my vegan friends"
  FoodAfter,     ///< "vegan butter": a food of that kind, unless the dish is one
  OfSelf,        ///< "this vegan chocolate cake": the dish itself
};

/// True where the word, or another of its forms, is of the class. `folded` as fold_accents makes it.
[[nodiscard]] bool is_claim_word(ClaimWord kind, std::string_view folded);

}  // namespace panslate
