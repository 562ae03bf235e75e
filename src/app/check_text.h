#pragma once

#include <string>
#include <vector>

#include "panslate/check/pickup.h"
#include "panslate/check/report.h"
#include "panslate/deliver/report_change.h"

#include "app/terminal.h"

namespace panslate::app {

/// The check report for a terminal: what needs attention first, then what is in order, what to say again or
/// film, what was said beyond the recipe, and what else was noticed; the last line sums up.
[[nodiscard]] std::string check_text(const CheckReport& report, const Recipe& recipe,
                                     const std::vector<Pickup>& pickups, const Terminal& terminal,
                                     const ReportSetting& setting = {});

}  // namespace panslate::app
