#include "app/output_options.h"

#include <CLI/CLI.hpp>

#include "panslate/deliver/escape.h"

namespace panslate::app {

void add_output_options(CLI::App& command, OutputOptions& options, Overwritable overwritable) {
  command.add_flag("--json", options.json, "Print the result for other programs (JSON)");
  command.add_option("--out", options.out, "Save the result as files in this folder")->type_name("DIR");
  if (overwritable == Overwritable::Yes)
    command.add_flag("--overwrite", options.overwrite, "Replace files that an earlier run saved");
  command.add_flag("--quiet", options.quiet, "Print nothing but errors");
  command.add_flag("--no-color", options.no_color, "Print without colours");
}

void apply(const OutputOptions& options, Context& context) {
  if (options.no_color) context.out_terminal.colour = false;
  if (options.quiet) context.progress.silence();
}

Status save(const OutputOptions& options, const std::vector<OutputFile>& files, Context& context) {
  if (options.out.empty()) return {};
  if (context.progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
  const std::filesystem::path folder = options.out;
  PANSLATE_CHECK(
      save_outputs(context.disk, folder, files, options.overwrite ? Replace::WhenAsked : Replace::Never));
  if (options.quiet) return {};
  context.progress.clear();
  for (const auto& file : files)
    context.messages << "saved " << escape_terminal((folder / file.name).string()) << "\n";
  return {};
}

}  // namespace panslate::app
