#include <cerrno>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include <unistd.h>

#include "panslate/media/footage_workers.h"

#include "app/commands.h"
#include "app/interrupt.h"

namespace {

using panslate::app::ExitStatus;

// A reader that closed its pipe has seen enough; any other failure to write loses a result.
ExitStatus finish_output(ExitStatus status) {
  errno = 0;
  if (std::cout.flush() || errno == EPIPE) return status;
  std::cerr << "error: the result cannot be written to the output\n";
  return ExitStatus::Failed;
}

ExitStatus run(std::vector<std::string> arguments) {
  using panslate::app::ProgressLine;
  const auto draw =
      panslate::app::is_terminal(STDERR_FILENO) ? ProgressLine::Draw::Yes : ProgressLine::Draw::No;
  ProgressLine progress(std::cerr, panslate::app::terminal_of(STDERR_FILENO).width, draw);
  // Clips are read by other processes of this same program.
  panslate::FootageWorkers footage({"/proc/self/exe", 0, {}});
  panslate::app::Context context{panslate::real_file_system(),
                                 std::cout,
                                 std::cerr,
                                 panslate::app::terminal_of(STDOUT_FILENO),
                                 progress,
                                 footage};
  return finish_output(panslate::app::run_command_line(std::move(arguments), context));
}

}  // namespace

int main(int argc, char** argv) {
  try {
    if (argc == 2 && argv[1] == panslate::kFootageWorkerArgument) return panslate::serve_footage();
    panslate::app::watch_for_interrupt();
    return static_cast<int>(run(std::vector<std::string>(argv + 1, argv + argc)));
  } catch (const std::exception& exception) {
    // Every expected failure is a value; what arrives here is a defect.
    std::cerr << "panslate: internal error: " << exception.what() << "\n";
    return static_cast<int>(ExitStatus::Internal);
  }
}
