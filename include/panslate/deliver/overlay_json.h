#pragma once

#include <string>

#include "panslate/check/report.h"
#include "panslate/deliver/overlay.h"

namespace panslate {

/// {"panslate_overlay": 1, "clock": "edit" or null, "texts": [{"start", "end", "text", "requirements":
/// ["ingredient:3"], "coarse"}], "notes": ["…"]}; times in seconds on a 10 ms grid.
[[nodiscard]] std::string overlay_json(const OverlayTrack& track, const CheckReport& report);

}  // namespace panslate
