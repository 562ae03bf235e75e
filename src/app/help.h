#pragma once

#include <string>

namespace CLI {
class App;
}

namespace panslate::app {

/// Gives a command its help: `usage` (its lines are what to type) under the description, options in two
/// columns, all within 80 columns.
void set_help(CLI::App& command, std::string usage);

}  // namespace panslate::app
