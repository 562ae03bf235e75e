#include <memory>

#include <CLI/CLI.hpp>

#include "panslate/deliver/escape.h"
#include "panslate/deliver/new_project_json.h"
#include "panslate/project/project.h"

#include "app/commands.h"
#include "app/help.h"
#include "app/item_list.h"
#include "app/output_options.h"

namespace panslate::app {

namespace {

struct NewOptions {
  std::string directory;
  std::string recipe;
  std::string footage;
  OutputOptions output;
};

std::optional<Error> usage_error(const NewOptions& options) {
  if (options.recipe.empty())
    return Error{ErrorCode::Usage, "the written recipe is not named", std::nullopt, "add --recipe FILE"};
  if (options.directory.empty() == options.output.out.empty())
    return Error{ErrorCode::Usage, "one folder is needed for the project", std::nullopt,
                 "panslate new DIR --recipe FILE"};
  return std::nullopt;
}

ExitStatus run_new(const NewOptions& options, Context& context) {
  apply(options.output, context);
  if (const auto error = usage_error(options)) return context.give_up(*error);
  NewProject start;
  start.directory = options.directory.empty() ? options.output.out : options.directory;
  start.recipe = options.recipe;
  if (!options.footage.empty()) start.footage = options.footage;
  const auto started = start_project(context.disk, start, context.progress, context.footage);
  if (!started) return context.give_up(started.error());
  context.progress.clear();
  if (options.output.json) {
    context.out << new_project_json(*started);
  } else if (!options.output.quiet) {
    const auto name = escape_terminal(started->file.string());
    context.out << "started " << name << "\n";
    std::string left_out;
    for (const auto& left : started->left_out)
      append_item(left_out, escape_terminal(std::filesystem::path(left.file).filename().string()), left.why,
                  context.out_terminal);
    if (!left_out.empty())
      context.out << list_heading("Left out", started->left_out.size(), context.out_terminal) << left_out
                  << "\n";
    context.out << "Next: open it and say which step each part of a clip shows, then\n"
                << "  panslate check " << name << "\n";
  }
  return ExitStatus::Ok;
}

}  // namespace

void add_new(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<NewOptions>();
  auto* command = root.add_subcommand("new", "Start a project from a recipe and a folder of clips");
  command->group("Verbs");
  set_help(*command, "  panslate new DIR --recipe FILE [--footage DIR]");
  command->add_option("folder", options->directory, "Folder for the project; made when absent")
      ->type_name("DIR");
  command->add_option("--recipe", options->recipe, "The written recipe; it is never changed")
      ->type_name("FILE");
  command->add_option("--footage", options->footage, "Folder with the clips, sound and captions")
      ->type_name("DIR");
  add_output_options(*command, options->output, Overwritable::No);
  command->get_option("--out")->description("Another way to name the folder");
  command->footer(
      "Writes one project file and changes nothing else; it never replaces one.\n"
      "For example: panslate new pie --recipe pie.md --footage clips");
  command->callback(
      [options, &chosen] { chosen = [options](Context& context) { return run_new(*options, context); }; });
}

}  // namespace panslate::app
