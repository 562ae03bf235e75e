#pragma once

#include <optional>
#include <string>

#include "panslate/media/clip_log.h"

namespace panslate {

/// What the log of a clip holds, for the strip under it, as JSON in seconds of the clip's clock:
/// {"logged": true, "shots": [[0, 4.2, "cut"], …], "speech": [[1.1, 3.0], …], "faults": [[0, 2, "dark"], …]};
/// {"logged": false} where it was not logged.
[[nodiscard]] std::string clip_strip(const std::optional<ClipLog>& log);

}  // namespace panslate
