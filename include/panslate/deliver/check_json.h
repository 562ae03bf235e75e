#pragma once

#include <string>

#include "panslate/check/report.h"
#include "panslate/deliver/report_change.h"

namespace panslate {

/// The check report for programs: one JSON object with a line end after it; times in seconds to the
/// millisecond, amounts as numbers and, exactly, as fractions.
[[nodiscard]] std::string check_json(const CheckReport& report, const Recipe& recipe,
                                     const ReportSetting& setting = {});

}  // namespace panslate
