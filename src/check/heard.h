#pragma once

#include <vector>

#include "panslate/check/report.h"

#include "check/food_verdict.h"
#include "check/talk.h"
#include "check/timing_verdict.h"

namespace panslate {

/// Every amount of a talk once, in order, with what it was taken for. Bare numbers that count no food are no
/// amounts.
[[nodiscard]] std::vector<Heard> heard_in(const Talk& talk, const std::vector<FoodTarget>& targets,
                                          const LineChoice& lines, const std::vector<FoodFinding>& foods,
                                          const TimingFindings& timings,
                                          const std::vector<Requirement>& requirements);

}  // namespace panslate
