#pragma once

#include <vector>

#include "panslate/project/log_footage.h"

namespace panslate {

/// All pairs that hold the same, in the order of the clips. Cancelled where `progress` says so.
[[nodiscard]] Result<std::vector<Duplicate>> find_duplicates(const std::vector<LoggedClip>& clips,
                                                             Progress& progress);

}  // namespace panslate
