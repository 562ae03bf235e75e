#pragma once

#include <vector>

#include "panslate/check/report.h"

#include "check/food_verdict.h"
#include "check/talk.h"

namespace panslate {

/// What the captions of a talk should say instead, with the line each is about.
[[nodiscard]] std::vector<CaptionCorrection> corrections_of(const Talk& talk,
                                                            const std::vector<FoodTarget>& targets,
                                                            const LineChoice& lines);

}  // namespace panslate
