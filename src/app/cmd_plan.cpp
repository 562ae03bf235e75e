#include <memory>

#include <CLI/CLI.hpp>

#include "panslate/base/text.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/shot_list_files.h"
#include "panslate/plan/shot_list.h"
#include "panslate/project/project.h"

#include "app/commands.h"
#include "app/help.h"
#include "app/output_options.h"

namespace panslate::app {

namespace {

constexpr std::size_t kFileWidth = 80;

struct PlanOptions {
  std::string file;
  OutputOptions output;
};

struct Planned {
  std::optional<Project> project;
  std::optional<Recipe> recipe;

  [[nodiscard]] const Recipe& the_recipe() const { return project ? project->recipe : *recipe; }
};

// A project is told by what it says of itself, so that a recipe kept as JSON is still a recipe.
bool is_project(std::string_view text) {
  return trim(text).starts_with('{') && text.find("\"panslate_project\"") != std::string_view::npos;
}

Checked<Planned> read_planned(const std::string& file, const FileSystem& disk) {
  const auto one = [](Error error) { return tl::unexpected(std::vector<Error>{std::move(error)}); };
  Planned planned;
  auto text = read_text(disk, file);
  if (!text) return one(std::move(text).error());
  if (is_project(*text)) {
    auto project = load_project(disk, file);
    if (!project) return tl::unexpected(std::move(project).error());
    planned.project = *std::move(project);
    return planned;
  }
  auto recipe = read_recipe(*text, file);
  if (!recipe) return one(std::move(recipe).error());
  planned.recipe = *std::move(recipe);
  return planned;
}

ExitStatus run_plan(const PlanOptions& options, Context& context) {
  apply(options.output, context);
  if (options.file.empty())
    return context.give_up(Error{ErrorCode::Usage, "nothing to plan was named", std::nullopt,
                                 "give a project file or a written recipe"});
  const auto planned = read_planned(options.file, context.disk);
  if (!planned) return context.give_up(planned.error());
  const auto& recipe = planned->the_recipe();
  const auto* project = planned->project ? &*planned->project : nullptr;
  const auto list = make_shot_list(recipe, project);
  const std::vector<OutputFile> files{
      {"shot-list.html", shot_list_page(list, recipe, project), std::string(kPageMark)},
      {"shot-list.csv", shot_list_csv(list, recipe, project), {}},
      {"shot-list.txt", shot_list_text(list, recipe, project, kFileWidth), {}}};
  if (const auto saved = save(options.output, files, context); !saved) return context.give_up(saved.error());
  if (options.output.json)
    context.out << shot_list_json(list, recipe);
  else if (!options.output.quiet)
    context.out << escape_terminal(shot_list_text(list, recipe, project, context.out_terminal.width));
  return ExitStatus::Ok;
}

}  // namespace

void add_plan(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<PlanOptions>();
  auto* command = root.add_subcommand("plan", "Make the shot list from a project or a recipe");
  command->group("Verbs");
  set_help(*command, "  panslate plan PROJECT.json\n  panslate plan RECIPE");
  command->add_option("file", options->file, "The project, or the written recipe alone")
      ->type_name("PROJECT.json|RECIPE");
  add_output_options(*command, options->output, Overwritable::Yes);
  command->footer(
      "--out saves shot-list.html to print, shot-list.csv for a spreadsheet and\n"
      "shot-list.txt. With a project, what is filmed already is ticked.\n"
      "For example: panslate plan pie.md --out results");
  command->callback(
      [options, &chosen] { chosen = [options](Context& context) { return run_plan(*options, context); }; });
}

}  // namespace panslate::app
