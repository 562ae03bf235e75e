#include <algorithm>
#include <filesystem>
#include <memory>

#include <CLI/CLI.hpp>

#include "panslate/check/pickup.h"
#include "panslate/deliver/check_json.h"
#include "panslate/deliver/pickup_sheet.h"
#include "panslate/deliver/report_page.h"

#include "app/check_text.h"
#include "app/commands.h"
#include "app/film.h"
#include "app/film_stills.h"
#include "app/help.h"
#include "app/output_options.h"
#include "app/save_corrected.h"

namespace panslate::app {

namespace {

struct CheckOptions {
  FilmOptions film;
  OutputOptions output;
  std::string corrected;  ///< file for the captions with misheard words put right
};

std::optional<std::string> playable_edit(const Film& film) {
  if (!film.project) return std::nullopt;
  for (std::size_t i = 0; i < film.project->media.size(); ++i)
    if (film.project->media[i].role == MediaRole::Edit && film.footage.clips[i])
      return film.project->media[i].id;
  return std::nullopt;
}

// The clips beside the page: their paths as the page's folder sees them, so that both may be moved together.
// The film is the edit; where there is none, the clip with the captions.
std::vector<PlayableClip> playable_clips(const Film& film, const std::filesystem::path& folder) {
  std::vector<PlayableClip> clips;
  const auto add = [&](const std::string& id, const std::filesystem::path& file) {
    clips.push_back({id, path_seen_from(folder, file)});
  };
  if (film.video) add({}, film.video->file);
  if (!film.project) return clips;
  const auto& project = *film.project;
  const auto rank = [&](const MediaEntry& media) {
    if (media.role == MediaRole::Edit) return 0;
    return std::any_of(project.captions.begin(), project.captions.end(),
                       [&](const auto& captions) { return captions.clock == media.id; })
               ? 1
               : 2;
  };
  for (const int wanted : {0, 1, 2})
    for (std::size_t i = 0; i < project.media.size(); ++i)
      if (film.footage.clips[i] && rank(project.media[i]) == wanted)
        add(project.media[i].id, project.media[i].file);
  return clips;
}

Status save_results(const CheckOptions& options, Film& film, const FilmCheck& check,
                    const std::vector<Pickup>& pickups, Context& context) {
  if (options.output.out.empty()) return {};
  ReportPageInput input{&check.report, &film.recipe(), &pickups};
  input.said = check.input.said;
  input.looked_in = check.looked_in;
  input.changes = check.changes;
  for (const auto& again : check.report.decide_again)
    input.decide_again.push_back({again.what, again.before, again.after});
  input.playable = playable_clips(film, options.output.out);
  input.playable_edit = playable_edit(film);
  PANSLATE_TRY(input.segments, take_segment_stills(film, context.footage, context.progress));
  PANSLATE_TRY(input.moments, take_moment_stills(film, check.report, context.footage, context.progress));
  return save(options.output,
              {{"report.html", report_page(input), std::string(kPageMark)},
               pickups_csv(pickup_sheet(pickups, check.report, film.recipe()), check.report)},
              context);
}

ExitStatus run_check(const CheckOptions& options, Context& context) {
  apply(options.output, context);
  const auto film = read_film(options.film, context.disk, context.progress, context.footage);
  if (!film) return context.give_up(film.error());
  const auto checked = check_and_compare(**film, options.film.on);
  const auto& report = checked.report;
  const auto& recipe = (*film)->recipe();
  const auto pickups = pickups_of(report, recipe, checked.input.said);
  const auto corrected = correct(options.corrected, options.output, **film, report, context);
  if (!corrected) return context.give_up(corrected.error());
  if (const auto saved = save_results(options, **film, checked, pickups, context); !saved)
    return context.give_up(saved.error());
  if (const auto saved = save_corrected(*corrected, options.output, context); !saved)
    return context.give_up(saved.error());
  context.progress.clear();
  if (options.output.json)
    context.out << check_json(report, recipe, {checked.looked_in, checked.changes});
  else if (!options.output.quiet)
    context.out << check_text(report, recipe, pickups, context.out_terminal,
                              {checked.looked_in, checked.changes});
  keep_for_next_check(**film, checked, options.film.on);
  return report.wants_attention() ? ExitStatus::Attention : ExitStatus::Ok;
}

}  // namespace

void add_check(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<CheckOptions>();
  auto* command = root.add_subcommand("check", "Compare the film with the recipe: said, shown, written");
  command->group("Verbs");
  set_help(*command,
           "  panslate check PROJECT.json\n  panslate check --recipe FILE --captions FILE [--text FILE] "
           "[--video FILE]");
  add_film_options(*command, options->film);
  command->add_option("--corrected", options->corrected, "Save the captions with misheard foods put right")
      ->type_name("FILE");
  command->add_option("--on", options->film.on, "Of a project: look in the edit, the clips, or both")
      ->type_name("edit|raw|both")
      ->check(CLI::IsMember({"edit", "raw", "both", "usual"}).description(""));
  add_output_options(*command, options->output, Overwritable::Yes);
  command->footer(
      "Ends with 0 when nothing needs attention, 1 when something does, 2 when it was\n"
      "called wrongly, 3 when a file cannot be read. --out: report.html, pickups.csv.");
  command->callback(
      [options, &chosen] { chosen = [options](Context& context) { return run_check(*options, context); }; });
}

}  // namespace panslate::app
