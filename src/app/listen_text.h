#pragma once

#include <string>
#include <vector>

#include "panslate/check/listening.h"

#include "app/terminal.h"

namespace panslate::app {

/// What was heard, for a terminal: of each clip first the amounts that are said otherwise or must be listened
/// to, then lines never spoken, lines with several takes, and other speech; the last line sums up.
[[nodiscard]] std::string listen_text(const std::vector<Listening>& clips, const Terminal& terminal);

}  // namespace panslate::app
