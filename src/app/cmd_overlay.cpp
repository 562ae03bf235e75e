#include <memory>

#include <CLI/CLI.hpp>

#include "panslate/deliver/overlay.h"
#include "panslate/deliver/overlay_json.h"

#include "app/commands.h"
#include "app/film.h"
#include "app/help.h"
#include "app/output_options.h"
#include "app/overlay_text.h"

namespace panslate::app {

namespace {

struct OverlayOptions {
  FilmOptions film;
  OutputOptions output;
};

// Of the clip the text is for; where none tells, the most usual picture.
PictureSize picture_size(const Film& film, const OverlayTrack& track) {
  const auto size_of_clip = [](const std::optional<ClipFacts>& facts) -> std::optional<PictureSize> {
    if (!facts || !facts->picture || facts->picture->shown_width <= 0 || facts->picture->shown_height <= 0)
      return std::nullopt;
    return PictureSize{facts->picture->shown_width, facts->picture->shown_height};
  };
  if (const auto size = size_of_clip(film.video)) return *size;
  if (film.project) {
    const auto& media = film.project->media;
    for (std::size_t i = 0; i < media.size() && i < film.footage.clips.size(); ++i)
      if (media[i].id == track.clock)
        if (const auto size = size_of_clip(film.footage.clips[i])) return *size;
    for (const auto& clip : film.footage.clips)
      if (const auto size = size_of_clip(clip)) return *size;
  }
  return {1920, 1080};
}

ExitStatus run_overlay(const OverlayOptions& options, Context& context) {
  apply(options.output, context);
  const auto film = read_film(options.film, context.disk, context.progress, context.footage);
  if (!film) return context.give_up(film.error());
  const auto report = check_film(**film);
  const auto& project = (*film)->project;
  const auto track = plan_overlay(report, (*film)->recipe(), project ? &*project : nullptr);
  const auto size = picture_size(**film, track);
  const std::vector<OutputFile> files{{"overlay.srt", write_subrip(track), {}},
                                      {"overlay.vtt", write_webvtt(track), {}},
                                      {"overlay.ass", write_ass(track, size.width, size.height), {}}};
  if (const auto saved = save(options.output, files, context); !saved) return context.give_up(saved.error());
  context.progress.clear();
  if (options.output.json)
    context.out << overlay_json(track, report);
  else if (!options.output.quiet)
    context.out << overlay_text(track, options.output.out.empty() ? Saved::No : Saved::Yes,
                                context.out_terminal);
  return ExitStatus::Ok;
}

}  // namespace

void add_overlay(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<OverlayOptions>();
  auto* command = root.add_subcommand("overlay", "Make the on-screen text: amounts, temperatures and times");
  command->group("Verbs");
  set_help(*command,
           "  panslate overlay PROJECT.json\n  panslate overlay --recipe FILE --captions FILE [--text FILE] "
           "[--video FILE]");
  add_film_options(*command, options->film);
  add_output_options(*command, options->output, Overwritable::Yes);
  command->footer(
      "--out saves overlay.srt, overlay.vtt and overlay.ass: three forms of the same\n"
      "text, amounts as written in the recipe, each at the moment it is spoken.\n"
      "For example: panslate overlay pie.json --out results");
  command->callback([options, &chosen] {
    chosen = [options](Context& context) { return run_overlay(*options, context); };
  });
}

}  // namespace panslate::app
