#pragma once

#include "app/context.h"

namespace CLI {
class App;
}

/// The one table of subcommands: each adds itself to the command line and, when it is the one asked for,
/// becomes the chosen action.
namespace panslate::app {

void add_new(CLI::App& root, Action& chosen);
void add_read(CLI::App& root, Action& chosen);
void add_check(CLI::App& root, Action& chosen);
void add_listen(CLI::App& root, Action& chosen);
void add_log(CLI::App& root, Action& chosen);
void add_plan(CLI::App& root, Action& chosen);
void add_overlay(CLI::App& root, Action& chosen);
void add_desk(CLI::App& root, Action& chosen);

/// Reads the command line and runs what it asks for. `arguments` without the program's name.
[[nodiscard]] ExitStatus run_command_line(std::vector<std::string> arguments, Context& context);

}  // namespace panslate::app
