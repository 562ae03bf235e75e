#pragma once

#include <string>

#include "panslate/project/project.h"

namespace panslate {

/// What `new` tells programs: {"panslate_new": 1, "project": "pie/pie.json", "left_out": [{"file": "…",
/// "why": "…"}]}.
[[nodiscard]] std::string new_project_json(const StartedProject& started);

}  // namespace panslate
