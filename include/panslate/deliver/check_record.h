#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/deliver/report_change.h"

/// What is kept of a check, so that the next one can tell what changed meanwhile: the recipe's lines, what
/// was found of each, and which clips there were.
namespace panslate {

/// A clip as the check had it.
struct RecordedClip {
  std::string id;
  std::string content;  ///< key of its content; empty where it could not be read
};

/// As JSON text.
[[nodiscard]] std::string check_record(const CheckReport& report, const std::vector<RecordedClip>& clips,
                                       std::string_view looked_in);

/// What is otherwise now than in the record: lines of the recipe written otherwise, new or gone; findings;
/// clips with another content, new or gone. In the order of the recipe, clips last. Empty for what is no
/// record, and for the record of a check that looked in something else (`looked_in`).
[[nodiscard]] std::vector<ReportChange> changes_since(std::string_view record, const CheckReport& report,
                                                      const std::vector<RecordedClip>& clips,
                                                      std::string_view looked_in);

}  // namespace panslate
