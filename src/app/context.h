#pragma once

#include <functional>
#include <ostream>
#include <string_view>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/result.h"
#include "panslate/media/footage_workers.h"

#include "app/exit_status.h"
#include "app/progress_line.h"
#include "app/terminal.h"

namespace panslate::app {

/// What a subcommand works with: handed in, so that a test can watch all of it.
struct Context {
  FileSystem& disk;
  std::ostream& out;       ///< results only
  std::ostream& messages;  ///< everything said about the work
  Terminal out_terminal;
  ProgressLine& progress;
  FootageWorkers& footage;

  /// Writes an error with the line of the file it speaks of, where that can be read, and its hint.
  void tell(const Error& error) const;
  /// Tells every error; the exit status of the first.
  [[nodiscard]] ExitStatus give_up(const std::vector<Error>& errors) const;
  [[nodiscard]] ExitStatus give_up(const Error& error) const;
};

/// What the command line asked for, run once it is read whole.
using Action = std::function<ExitStatus(Context&)>;

}  // namespace panslate::app
