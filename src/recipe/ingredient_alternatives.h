#pragma once

#include <string>
#include <vector>

#include "panslate/kitchen/token.h"

/// Foods named after a comma or in a bracket that may stand for the first one of a line.
namespace panslate {

struct AlternativeWords {
  const std::vector<Token>& tokens;
  std::size_t from = 0, to = 0;  ///< the words between commas, or inside the bracket
  bool in_bracket = false;
};

/// "maple syrup, agave, or honey", "squash (or zucchini)": the words open with "or" and name a food. Foods
/// that were taken for preparation before it ("agave") move along. False, and nothing is changed, where it is
/// none.
[[nodiscard]] bool take_alternative(const AlternativeWords& words, std::vector<std::string>& preparation,
                                    std::vector<std::string>& or_foods);

/// "butter, ghee or oil": nothing but foods, one of them to be chosen.
[[nodiscard]] bool take_listed_alternatives(const AlternativeWords& words,
                                            std::vector<std::string>& or_foods);

}  // namespace panslate
