#include <chrono>
#include <memory>

#include <CLI/CLI.hpp>

#include "panslate/deliver/read_json.h"
#include "panslate/deliver/read_page.h"
#include "panslate/recipe/reading.h"

#include "app/commands.h"
#include "app/help.h"
#include "app/output_options.h"
#include "app/read_text.h"

namespace panslate::app {

namespace {

struct ReadCommandOptions {
  std::string recipe;
  std::string serves;
  std::string limits;
  OutputOptions output;
};

Result<std::optional<Ratio>> servings_asked(const std::string& text) {
  if (text.empty()) return std::optional<Ratio>{};
  const auto value = Ratio::parse(text);
  constexpr int kMost = 100000;
  if (!value || !(Ratio(0) < *value) || Ratio(kMost) < *value)
    return fail(ErrorCode::Usage, "'" + text + "' is no number of servings", std::nullopt,
                "give a number such as --serves 6");
  return std::optional<Ratio>{*value};
}

ExitStatus run_read(const ReadCommandOptions& options, Context& context) {
  apply(options.output, context);
  if (options.recipe.empty())
    return context.give_up(
        Error{ErrorCode::Usage, "no recipe was named", std::nullopt, "panslate read RECIPE"});
  const auto serves = servings_asked(options.serves);
  if (!serves) return context.give_up(serves.error());
  const auto text = read_text(context.disk, options.recipe);
  if (!text) return context.give_up(text.error());
  const auto recipe = read_recipe(*text, options.recipe);
  if (!recipe) return context.give_up(recipe.error());
  LimitTable limits;
  if (!options.limits.empty()) {
    const auto table = read_text(context.disk, options.limits);
    if (!table) return context.give_up(table.error());
    auto read = read_limits(*table, options.limits);
    if (!read) return context.give_up(read.error());
    limits = *std::move(read);
  }
  ReadOptions asked;
  asked.serves = *serves;
  asked.limits = options.limits.empty() ? nullptr : &limits;
  asked.today = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  const auto reading = read_through(*recipe, asked);
  if (!options.output.out.empty()) {
    const std::vector<OutputFile> files{
        {"reading.html", read_page(reading, *recipe, *text), std::string(kPageMark)},
        {"reading.json", read_json(reading, *recipe), std::string(kReadingMark)}};
    if (const auto saved = save(options.output, files, context); !saved)
      return context.give_up(saved.error());
  }
  if (options.output.json)
    context.out << read_json(reading, *recipe);
  else if (!options.output.quiet)
    context.out << read_terminal_text(reading, *recipe, context.out_terminal);
  return reading.wants_attention() ? ExitStatus::Attention : ExitStatus::Ok;
}

}  // namespace

void add_read(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<ReadCommandOptions>();
  auto* command = root.add_subcommand("read", "Read a recipe through: what is wrong before anyone films");
  command->group("Verbs");
  set_help(*command, "  panslate read RECIPE [--serves N] [--limits LIMITS.csv]");
  command->add_option("recipe", options->recipe, "The written recipe")->type_name("RECIPE");
  command->add_option("--serves", options->serves, "Also write it for so many servings")->type_name("N");
  command->add_option("--limits", options->limits, "Your own limits for one serving, a table (CSV)")
      ->type_name("LIMITS.csv");
  add_output_options(*command, options->output, Overwritable::Yes);
  command->footer(
      "Ends with 0 when all is well, 1 when an error or a warning stands, 2 when it was\n"
      "called wrongly, 3 when a file cannot be read. --out: reading.html, reading.json.\n"
      "Limits: food,amount per serving,note,source,checked on (dates as 2026-01-31).\n"
      "For example: panslate read pie.md --serves 8 --out results");
  command->callback(
      [options, &chosen] { chosen = [options](Context& context) { return run_read(*options, context); }; });
}

}  // namespace panslate::app
