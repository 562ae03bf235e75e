#pragma once

#include <string>

#include "panslate/check/report.h"

namespace panslate {

/// The check report for programs: one JSON object with a line end after it; times in seconds to the
/// millisecond, amounts as numbers and, exactly, as fractions.
[[nodiscard]] std::string check_json(const CheckReport& report, const Recipe& recipe);

}  // namespace panslate
