#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "panslate/project/log_footage.h"

namespace panslate {

/// All pairs that hold the same, in the order of the clips.
[[nodiscard]] std::vector<Duplicate> find_duplicates(const std::vector<LoggedClip>& clips);

/// How much later `b` begins than `a`, where both hold the same sound for at least a few seconds (levels as
/// in ClipLog::levels); empty where they do not.
[[nodiscard]] std::optional<MediaTime> sound_offset(std::string_view a, std::string_view b);

}  // namespace panslate
