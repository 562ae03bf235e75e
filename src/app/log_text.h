#pragma once

#include <string>

#include "panslate/project/log_footage.h"

#include "app/terminal.h"

namespace panslate::app {

/// The footage log for a terminal: a table of the clips, what is wrong with them, what stands out.
[[nodiscard]] std::string log_text(const FootageLog& log, const Terminal& terminal);

}  // namespace panslate::app
