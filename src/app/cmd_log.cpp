#include <algorithm>
#include <memory>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/footage_log_files.h"
#include "panslate/project/log_footage.h"

#include "app/commands.h"
#include "app/footage_to_log.h"
#include "app/help.h"
#include "app/log_text.h"
#include "app/output_options.h"

namespace panslate::app {

namespace {

struct LogOptions {
  std::vector<std::string> named;
  OutputOptions output;
};

std::vector<OutputFile> results_of(const FootageLog& log, const LogOptions& options) {
  if (options.output.out.empty()) return {};
  std::vector<OutputFile> files{
      {"contact-sheet.html", contact_sheet(log, options.output.out), std::string(kPageMark)},
      {"log.json", footage_log_json(log, Stills::Saved), R"("panslate_log": )"},
      {"log.csv", footage_log_csv(log), std::string(kFootageCsvMark)}};
  return files;
}

// One line for all of them.
Status save_stills(const FootageLog& log, const LogOptions& options, Context& context) {
  if (options.output.out.empty()) return {};
  const auto stills = footage_stills(log);
  PANSLATE_CHECK(save_outputs(context.disk, options.output.out, stills, Replace::Never));
  if (!options.output.quiet && !stills.empty())
    context.messages << "saved " << count_in_words(stills.size(), "still", "stills") << " beside it\n";
  return {};
}

ExitStatus status_of(const FootageLog& log) {
  const auto readable = [](const LoggedClip& clip) { return clip.log.has_value(); };
  if (std::none_of(log.clips.begin(), log.clips.end(), readable)) return ExitStatus::Failed;
  const auto sound = [](const LoggedClip& clip) { return clip.log && clip.log->faults.empty(); };
  return std::all_of(log.clips.begin(), log.clips.end(), sound) ? ExitStatus::Ok : ExitStatus::Attention;
}

ExitStatus run_log(const LogOptions& options, Context& context) {
  apply(options.output, context);
  auto footage = footage_to_log(options.named, context);
  if (!footage) return context.give_up(footage.error());
  auto clips = log_footage(footage->files, context.footage, footage->store, context.progress);
  if (!clips) return context.give_up(clips.error());
  const auto compared = compare_clips(*std::move(clips), context.progress);
  if (!compared) return context.give_up(compared.error());
  const auto& log = *compared;
  if (const auto saved = save(options.output, results_of(log, options), context); !saved)
    return context.give_up(saved.error());
  if (const auto saved = save_stills(log, options, context); !saved) return context.give_up(saved.error());
  context.progress.clear();
  if (options.output.json)
    context.out << footage_log_json(log, options.output.out.empty() ? Stills::NotSaved : Stills::Saved);
  else if (!options.output.quiet)
    context.out << log_text(log, context.out_terminal);
  return status_of(log);
}

}  // namespace

void add_log(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<LogOptions>();
  auto* command = root.add_subcommand("log", "Read all footage once: shots, sound, faults, stills");
  command->group("Verbs");
  set_help(*command, "  panslate log PROJECT.json\n  panslate log FOLDER\n  panslate log CLIP...");
  command->add_option("named", options->named, "A project file, a folder with clips, or clips")
      ->type_name("PROJECT|FOLDER|CLIP");
  add_output_options(*command, options->output, Overwritable::No);
  command->footer(
      "Each clip is decoded once, from start to end; what was found is kept in .panslate\n"
      "beside the project (or the clips), so that the next time only what changed is\n"
      "read. Ctrl-C keeps the clips that are done.\n"
      "--out: contact-sheet.html, log.json, log.csv, and a still of each shot.\n"
      "Ends with 1 when something is wrong with a clip, 3 when none can be read.\n"
      "For example: panslate log footage --out footage-log");
  command->callback(
      [options, &chosen] { chosen = [options](Context& context) { return run_log(*options, context); }; });
}

}  // namespace panslate::app
