#pragma once

#include <string>

#include "panslate/deliver/footage_log_files.h"
#include "panslate/project/log_footage.h"

#include "app/terminal.h"

namespace panslate::app {

/// The footage log for a terminal: a table of the clips, what is wrong with them, what stands out, which
/// parts of clips are proposed.
[[nodiscard]] std::string log_text(const FootageLog& log, const Terminal& terminal,
                                   const LoggedProposals* proposals = nullptr);

}  // namespace panslate::app
