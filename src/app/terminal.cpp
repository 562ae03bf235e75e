#include "app/terminal.h"

#include <cstdlib>

#include <sys/ioctl.h>
#include <unistd.h>

namespace panslate::app {

namespace {

std::string_view code_of(Look look) {
  switch (look) {
    case Look::Plain:
      return "";
    case Look::Heading:
      return "\x1b[1m";
    case Look::Wrong:
      return "\x1b[31m";
    case Look::Doubtful:
      return "\x1b[33m";
    case Look::Good:
      return "\x1b[32m";
    case Look::Quiet:
      return "\x1b[2m";
  }
  return "";
}

// The variable is read once at the start, before any thread exists.
std::string_view environment(const char* name) {
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe)
  return value == nullptr ? std::string_view{} : value;
}

}  // namespace

std::string Terminal::styled(std::string_view text, Look look) const {
  if (!colour || look == Look::Plain || text.empty()) return std::string(text);
  return std::string(code_of(look)) + std::string(text) + "\x1b[0m";
}

bool is_terminal(int descriptor) {
  return ::isatty(descriptor) == 1;
}

Terminal terminal_of(int descriptor) {
  Terminal terminal;
  if (!is_terminal(descriptor)) return terminal;
  winsize size{};
  if (::ioctl(descriptor, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) terminal.width = size.ws_col;
  const auto kind = environment("TERM");
  terminal.colour = environment("NO_COLOR").empty() && !kind.empty() && kind != "dumb";
  return terminal;
}

}  // namespace panslate::app
