#pragma once

#include <cstddef>
#include <vector>

#include "check/amount_reach.h"
#include "check/talk.h"

namespace panslate {

/// Adds amounts told by an article for foods that are written as a count: "an onion", "both eggs", "the
/// second onion".
void add_told_by_article(Talk& talk, const std::vector<FoodTarget>& targets);

/// Gives an amount told without its unit the one it must have: "150 ml in the jug, and 75 of it", "fifty
/// grams of butter, and fifty of plain flour", "flour 250". Amounts before it must be tied.
void take_unsaid_unit(Talk& talk, const std::vector<FoodTarget>& targets, std::size_t index);

}  // namespace panslate
