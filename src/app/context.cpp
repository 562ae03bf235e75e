#include "app/context.h"

#include "panslate/deliver/escape.h"

namespace panslate::app {

namespace {

// Only text is worth quoting; a clip has no lines.
std::string source_of(const FileSystem& disk, const Error& error) {
  if (!error.place || error.place->line < 1) return {};
  const auto text = read_text(disk, error.place->file);
  return text ? *text : std::string{};
}

}  // namespace

void Context::tell(const Error& error) const {
  progress.clear();
  messages << escape_terminal(render(error, source_of(disk, error))) << "\n";
}

ExitStatus Context::give_up(const std::vector<Error>& errors) const {
  for (const auto& error : errors) tell(error);
  return errors.empty() ? ExitStatus::Internal : exit_status_of(errors.front().code);
}

ExitStatus Context::give_up(const Error& error) const {
  if (error.code == ErrorCode::Cancelled) {
    progress.clear();
    messages << "stopped; nothing was changed\n";
    return ExitStatus::Stopped;
  }
  return give_up(std::vector<Error>{error});
}

}  // namespace panslate::app
