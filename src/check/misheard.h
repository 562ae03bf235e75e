#pragma once

#include <vector>

#include "panslate/check/report.h"

#include "check/food_verdict.h"
#include "check/talk.h"

namespace panslate {

/// Notes names that are understood but cut in two ("butter nut squash", where the recipe has "butternut
/// squash").
void find_split_names(Talk& talk, const std::vector<FoodTarget>& targets);

/// What the captions of a talk should say instead, with the line each is about.
[[nodiscard]] std::vector<CaptionCorrection> corrections_of(const Talk& talk,
                                                            const std::vector<FoodTarget>& targets,
                                                            const LineChoice& lines);

}  // namespace panslate
