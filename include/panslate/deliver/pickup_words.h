#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "panslate/check/pickup.h"

namespace panslate {

/// One clock needs no name; with several, a bare time would not say where to look.
enum class ClockNaming : std::uint8_t { Unnamed, Named };
[[nodiscard]] ClockNaming clock_naming(const std::vector<Pickup>& pickups);

/// Where in the film: "1:36", "0:41 in voice"; empty where the film has no place for it yet.
[[nodiscard]] std::string pickup_place(const Pickup& pickup, ClockNaming naming);

}  // namespace panslate
