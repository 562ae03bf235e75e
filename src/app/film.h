#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/progress.h"
#include "panslate/check/check.h"
#include "panslate/check/pickup.h"
#include "panslate/check/use_listening.h"
#include "panslate/deliver/report_change.h"
#include "panslate/project/project.h"
#include "panslate/project/store.h"

#include "app/heard_words.h"

namespace CLI {
class App;
}

namespace panslate::app {

/// The two ways to name what is checked: a project, or the files themselves.
struct FilmOptions {
  std::string project;
  std::string recipe;
  std::string captions;
  std::string text;  ///< timed text that is on the picture
  std::string video;
  std::string on = "usual";  ///< of a project: usual, edit, raw or both
};

void add_film_options(CLI::App& command, FilmOptions& options);

/// Everything that was read for one run. Stays where it is: the check points into it.
struct Film {
  Film() = default;
  Film(const Film&) = delete;
  Film& operator=(const Film&) = delete;

  std::optional<Project> project;       ///< empty when the files were named one by one
  Store store;                          ///< of the project; keeps nothing without one
  Footage footage;                      ///< of the project's clips
  std::vector<HeardWords::Clip> heard;  ///< what `listen` found in the sound of clips, where it was run
  std::optional<Recipe> named_recipe;
  std::optional<Transcript> captions;
  std::optional<Transcript> text;
  std::optional<ClipFacts> video;
  std::vector<CheckWarning>
      warnings;  ///< files that could not be opened, sound that must be listened to again

  [[nodiscard]] const Recipe& recipe() const { return project ? project->recipe : *named_recipe; }
};

/// Reads the project, or the files named. Usage when the options name neither or both ways.
[[nodiscard]] Checked<std::unique_ptr<Film>> read_film(const FilmOptions& options, FileSystem& disk,
                                                       Progress& progress, FootageWorkers& workers);

/// The check of what was read, with warnings about clips in it.
[[nodiscard]] CheckReport check_film(const Film& film);

/// A check with all that is shown beside it.
struct FilmCheck {
  CheckInput input;
  CheckReport report;
  std::string looked_in;              ///< one sentence; empty without a project
  std::vector<ReportChange> changes;  ///< since the last check of this project, in the same footage
};

/// Checks what `on` names, and tells what is otherwise than at the last check.
[[nodiscard]] FilmCheck check_and_compare(const Film& film, const std::string& on);

/// Keeps the check for the next one to be compared with. Only once its results are out: a run that was
/// stopped or could not save leaves the last one standing.
void keep_for_next_check(Film& film, const FilmCheck& check, const std::string& on);

}  // namespace panslate::app
