#pragma once

#include <vector>

#include "check/talk.h"

namespace panslate {

/// Amounts that she tells and then does otherwise: "Three eggs, but I've only got two", "the recipe says two
/// hundred grams of flour, I use a hundred and eighty", "two tins of chickpeas, I use one", "fifty grams of
/// raisins, I skip them". What was told first is no longer said; another number right behind is of its food,
/// with its unit, and loosely so. "Officially two eggs, but I don't bother": told, and perhaps not done, is
/// marked as qualified.
void find_own_ways(Talk& talk);

}  // namespace panslate
