#pragma once

#include <vector>

#include "panslate/check/report.h"
#include "panslate/recipe/recipe.h"

#include "check/food_verdict.h"
#include "check/talk.h"

namespace panslate {

/// Amounts that no words tied to a food, told right after one that has none so far and equal to what is
/// written for it ("the oil, sunflower, you will think I have gone mad, but it is a hundred millilitres"),
/// are that food's. Another amount than the written one is never taken this way, nor one with another food
/// near.
void take_unclaimed_amounts(Talk& talk, const std::vector<FoodTarget>& targets, const LineChoice& lines,
                            const Recipe& recipe, const std::vector<Requirement>& requirements);

}  // namespace panslate
