#pragma once

#include <string>
#include <vector>

namespace panslate {

/// Something that reads otherwise than it did: at the last check, or when a decision was made.
struct ReportChange {
  std::string what;    ///< "700 ml almond drink"
  std::string before;  ///< "not said"
  std::string after;   ///< "said at 1:36"
};

/// What is told beside a report.
struct ReportSetting {
  std::string looked_in = {};              ///< one sentence: "Checked on the edit."; may be empty
  std::vector<ReportChange> changes = {};  ///< since the last check
};

}  // namespace panslate
