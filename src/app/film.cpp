#include "app/film.h"

#include <span>
#include <utility>

#include <CLI/CLI.hpp>

#include "panslate/check/use_listening.h"
#include "panslate/deliver/check_record.h"
#include "panslate/media/footage_workers.h"

namespace panslate::app {

namespace {

using Errors = std::vector<Error>;

std::optional<Error> usage_error(const FilmOptions& options) {
  const bool names_files =
      !options.recipe.empty() || !options.captions.empty() || !options.text.empty() || !options.video.empty();
  const auto usage = [](std::string message, std::string hint) {
    return Error{ErrorCode::Usage, std::move(message), std::nullopt, std::move(hint)};
  };
  if (options.project.empty() && options.on != "usual")
    return usage("--on is for a project", "without one there is only what the options name");
  if (!options.project.empty() && names_files)
    return usage("a project names its recipe and captions itself",
                 "give either the project file or --recipe and --captions, not both");
  if (options.project.empty() && !names_files)
    return usage("nothing to look at was named", "give a project file, or --recipe FILE and --captions FILE");
  if (options.project.empty() && options.recipe.empty())
    return usage("the written recipe is not named", "add --recipe FILE");
  if (options.project.empty() && options.captions.empty())
    return usage("the captions are not named",
                 "add --captions FILE (SubRip, WebVTT, or text with [m:ss] marks)");
  return std::nullopt;
}

Result<Transcript> read_timed_text(const FileSystem& disk, const std::filesystem::path& file) {
  PANSLATE_TRY(const auto bytes, disk.read(file, kTextFileLimit));
  return read_captions(bytes, file);
}

Status read_files(Film& film, const FilmOptions& options, const FileSystem& disk, Progress& progress,
                  FootageWorkers& workers) {
  PANSLATE_TRY(const auto source, read_text(disk, options.recipe));
  PANSLATE_TRY(film.named_recipe, read_recipe(source, options.recipe));
  PANSLATE_TRY(film.captions, read_timed_text(disk, options.captions));
  if (!options.text.empty()) {
    PANSLATE_TRY(film.text, read_timed_text(disk, options.text));
  }
  if (options.video.empty()) return {};
  const std::filesystem::path video = options.video;
  PANSLATE_TRY(auto probed, workers.probe_all(std::span(&video, 1), progress));
  if (auto& facts = probed.front()) {
    film.video = *std::move(facts);
    return {};
  } else {
    film.warnings.push_back({facts.error().code == ErrorCode::NotFound ? "clip-missing" : "clip-unusable",
                             WarningLevel::Warning, options.video + ": " + facts.error().message,
                             std::nullopt, std::nullopt});
  }
  return {};
}

}  // namespace

void add_film_options(CLI::App& command, FilmOptions& options) {
  command.add_option("project", options.project, "The project file")->type_name("PROJECT.json");
  command.add_option("--recipe", options.recipe, "Without a project: the written recipe,")->type_name("FILE");
  command.add_option("--captions", options.captions, "its captions (SubRip, WebVTT or [m:ss] text),")
      ->type_name("FILE");
  command.add_option("--text", options.text, "the text on the picture, timed likewise,")->type_name("FILE");
  command.add_option("--video", options.video, "and the film itself, for its length and stills")
      ->type_name("FILE");
}

Checked<std::unique_ptr<Film>> read_film(const FilmOptions& options, FileSystem& disk, Progress& progress,
                                         FootageWorkers& workers) {
  if (auto error = usage_error(options)) return tl::unexpected(Errors{*std::move(error)});
  auto film = std::make_unique<Film>();
  if (options.project.empty()) {
    if (auto status = read_files(*film, options, disk, progress, workers); !status)
      return tl::unexpected(Errors{std::move(status).error()});
    return film;
  }
  auto project = load_project(disk, options.project);
  if (!project) return tl::unexpected(std::move(project).error());
  film->project = *std::move(project);
  film->store = Store(disk, options.project);
  auto footage = measure_footage(*film->project, progress, workers, film->store);
  if (!footage) return tl::unexpected(Errors{std::move(footage).error()});
  film->footage = *std::move(footage);
  if (!film->footage.mistakes.empty()) return tl::unexpected(film->footage.mistakes);
  auto heard = use_listening(*film->project, film->footage, film->store);
  film->heard = std::move(heard.clips);
  film->warnings.insert(film->warnings.end(), heard.warnings.begin(), heard.warnings.end());
  return film;
}

namespace {

CheckInput named_input(const Film& film) {
  CheckInput input;
  input.recipe = &film.recipe();
  input.said.push_back({&*film.captions, {}});
  if (film.text) input.on_text.push_back({&*film.text, {}});
  if (film.video)
    input.duration = film.video->duration;
  else
    input.duration = film.captions->end();
  return input;
}

void heed_all_sound(CheckReport& report, const Film& film, const CheckInput& input) {
  const auto measures = film.recipe().measures;
  for (const auto& heard : film.heard) heed_sound(report, heard.media, heard.listening, measures, heard.from);
  if (input.moved.empty()) return;
  // What is said in clips and narration was put on the edit's clock: so is what was heard in them.
  const auto& project = *film.project;
  const EditMap map(project, film.footage);
  const auto& edit = input.said.front().media;
  std::vector<HeardInEdit> in_edit;
  for (const auto& heard : film.heard)
    for (std::size_t i = 0; i < project.media.size(); ++i)
      if (project.media[i].id == heard.media && heard.media != edit)
        in_edit.push_back(heard_in_edit(heard.listening, heard.from, map, i));
  heed_sound(report, edit, in_edit, measures);
}

CheckReport report_on(const Film& film, const CheckInput& input) {
  auto report = check(input);
  if (film.project) {
    heed_all_sound(report, film, input);
    apply_answers(report, film.project->answers);
    add_project_warnings(report, *film.project, film.footage);
  }
  report.warnings.insert(report.warnings.end(), film.warnings.begin(), film.warnings.end());
  return report;
}

LookIn look_named(const std::string& on) {
  if (on == "edit" || on == "both") return LookIn::Edit;
  return on == "raw" ? LookIn::Raw : LookIn::Usual;
}

std::vector<RecordedClip> recorded_clips(const Film& film) {
  std::vector<RecordedClip> clips;
  for (std::size_t i = 0; i < film.project->media.size(); ++i)
    clips.push_back({film.project->media[i].id, film.footage.contents[i]});
  return clips;
}

}  // namespace

CheckReport check_film(const Film& film) {
  return report_on(film, film.project ? check_input_of(*film.project, film.footage) : named_input(film));
}

FilmCheck check_and_compare(const Film& film, const std::string& on) {
  FilmCheck out;
  if (!film.project) {
    out.input = named_input(film);
    out.report = report_on(film, out.input);
    return out;
  }
  const auto look = look_named(on);
  out.input = check_input_of(*film.project, film.footage, look);
  out.report = report_on(film, out.input);
  out.looked_in = looked_in_words(*film.project, look);
  if (on == "both") {
    const auto raw = check_input_of(*film.project, film.footage, LookIn::Raw);
    auto before_the_edit = check(raw);
    heed_all_sound(before_the_edit, film, raw);
    add_raw_findings(out.report, before_the_edit);
    out.looked_in += " What is missing there was looked for in the clips and the narration too.";
  }
  if (const auto last = film.store.last_check())
    out.changes = changes_since(*last, out.report, recorded_clips(film), on);
  return out;
}

void keep_for_next_check(Film& film, const FilmCheck& check, const std::string& on) {
  if (film.project) film.store.keep_last_check(check_record(check.report, recorded_clips(film), on));
}

}  // namespace panslate::app
