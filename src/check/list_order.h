#pragma once

#include <cstddef>
#include <vector>

#include "check/amount_reach.h"
#include "check/talk.h"

namespace panslate {

/// How an unpunctuated list runs ("flour 200 grams sugar 100 grams"): the longest chain of amount, food,
/// amount, food … around this amount; true when it begins with an amount. Amounts before this one must be
/// tied.
[[nodiscard]] bool amounts_come_first(const Talk& talk, const AmountReach& reach, std::size_t index);

/// "it is three, salt now please": a bare number before a food that is measured in spoons does not count it.
[[nodiscard]] bool is_odd_count(const Talk& talk, const std::vector<FoodTarget>& targets,
                                const SpokenAmount& amount, std::size_t food);

/// "kerisik this one I pound myself eighty grams tamarind one tablespoon": few words after the food, no
/// amount yet, and so the list goes on.
[[nodiscard]] bool is_first_of_list(const Talk& talk, const AmountReach& reach, std::size_t food,
                                    std::size_t index);

}  // namespace panslate
