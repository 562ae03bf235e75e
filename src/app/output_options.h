#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "panslate/deliver/output_folder.h"

#include "app/context.h"

namespace CLI {
class App;
}

namespace panslate::app {

/// What every subcommand takes.
struct OutputOptions {
  bool json = false;
  bool quiet = false;
  bool no_color = false;
  bool overwrite = false;
  std::string out;  ///< folder for results; empty: nothing is saved
};

enum class Overwritable : std::uint8_t { No, Yes };

/// Adds --json, --out DIR, --quiet, --no-color, and --overwrite where the results may be the user's by now.
void add_output_options(CLI::App& command, OutputOptions& options, Overwritable overwritable);

/// Makes the context fit: no colour, no progress.
void apply(const OutputOptions& options, Context& context);

/// Saves results where a folder was named, and says so unless --quiet or --json.
[[nodiscard]] Status save(const OutputOptions& options, const std::vector<OutputFile>& files,
                          Context& context);

}  // namespace panslate::app
