#pragma once

#include "panslate/base/result.h"

namespace panslate::app {

enum class ExitStatus : int {
  Ok = 0,         ///< nothing needs attention
  Attention = 1,  ///< something does
  Usage = 2,      ///< the command line does not make sense
  Failed = 3,     ///< a file could not be read, or a result not be saved
  Internal = 70,  ///< a defect of panslate (EX_SOFTWARE of sysexits.h)
  Stopped = 130,  ///< Ctrl-C: 128 + SIGINT, as shells have it
};

/// The one place where a kind of failure becomes an exit status.
[[nodiscard]] ExitStatus exit_status_of(ErrorCode code);

}  // namespace panslate::app
