#pragma once

#include <vector>

#include "check/talk.h"

namespace panslate {

/// Finds foods called by what sets them apart alone, where an amount of it is told: "a hundred grams of the
/// white" for white flour, "a tablespoon of rye" for rye whisky, "the wholemeal, three hundred grams".
void find_part_names(Talk& talk, const std::vector<FoodTarget>& targets);

}  // namespace panslate
