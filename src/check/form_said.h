#pragma once

#include <vector>

#include "check/food_verdict.h"

namespace panslate {

/// Warns (`form-not-said`) of every food that is named, but never in the form that makes another food of it:
/// "apricots" for dried apricots, "tomatoes" for tins of tomatoes. The warnings go to the findings they speak
/// of.
void warn_of_unsaid_forms(const Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe,
                          const std::vector<Requirement>& requirements, const LineChoice& lines,
                          std::vector<FoodFinding>& findings);

}  // namespace panslate
