#pragma once

#include <string>
#include <vector>

#include "panslate/check/listening.h"

namespace panslate {

/// What `listen --json` prints: format version 1.
[[nodiscard]] std::string listen_json(const std::vector<Listening>& clips);

}  // namespace panslate
