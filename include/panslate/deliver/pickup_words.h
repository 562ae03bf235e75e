#pragma once

#include <string>

#include "panslate/check/pickup.h"

namespace panslate {

/// Where in the film: "1:36", "0:41 in voice"; empty where the film has no place for it yet.
[[nodiscard]] std::string pickup_place(const Pickup& pickup);

}  // namespace panslate
