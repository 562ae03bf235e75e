#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/media_time.h"
#include "panslate/base/progress.h"
#include "panslate/base/result.h"
#include "panslate/kitchen/unit.h"
#include "panslate/media/clip_facts.h"
#include "panslate/media/footage_workers.h"
#include "panslate/recipe/recipe.h"
#include "panslate/speech/script_lines.h"
#include "panslate/speech/transcript.h"

/// The project file holds the user's decisions and nothing else. Example:
///
///     {
///       "panslate_project": 1,
///       "recipe": "recipe.md",
///       "media": [
///         {"id": "pan-1", "file": "footage/pan-1.mp4", "role": "camera"},
///         {"id": "voice", "file": "footage/voice.wav", "role": "narration"},
///         {"id": "edit",  "file": "footage/edit.mp4",  "role": "edit"}
///       ],
///       "segments": [
///         {"id": "s1", "clip": "pan-1", "in": "00:00:01.000", "out": "00:00:09.500", "step": "Rinse the
///         lentils",
///          "framing": "overhead", "shows": ["lentils"], "at": "00:00:12.000"}
///       ],
///       "captions":       [{"file": "captions.vtt", "clock": "edit"}],
///       "on_screen_text": [{"file": "titles.srt",   "clock": "edit"}],
///       "settings": {"measures": "metric"}
///     }
///
/// A step or an ingredient is named by words of its own (the beginning of the step, the ingredient's name or
/// whole line) or by its key from a report: both outlast a line that is inserted above. Times are
/// HH:MM:SS.mmm on the clip's clock, or its timecode HH:MM:SS:FF. The whole form, with every name explained,
/// is src/project/data/project.schema.json.
namespace panslate {

class Store;

enum class MediaRole : std::uint8_t { Camera, Narration, Edit };

struct MediaEntry {
  std::string id;
  std::filesystem::path file;  ///< resolved against the project's folder
  MediaRole role = MediaRole::Camera;
  Place place;                              ///< of the entry in the project file
  Place file_place;                         ///< of its file's name there
  std::optional<std::string> content = {};  ///< the key of what was in it when it came into the project
  std::optional<MediaTime> edit_begin =
      {};  ///< where its beginning stands in the edit: narration laid under it whole
};

/// A reference by lasting words or key, and what it was resolved to.
struct LastingReference {
  std::string written;
  std::optional<std::size_t>
      index;  ///< into Recipe::steps or Recipe::ingredients; empty when nothing (or too much) fits
  Place place;
};

enum class Framing : std::uint8_t { Unknown, Overhead, Front, Close, Wide, Insert, Beauty };
/// In the order in which they are offered.
inline constexpr std::array kFramings{Framing::Unknown, Framing::Overhead, Framing::Front, Framing::Close,
                                      Framing::Wide,    Framing::Insert,   Framing::Beauty};
[[nodiscard]] std::string_view spelling_of(Framing framing);  ///< "overhead", …; empty for Unknown
[[nodiscard]] std::optional<Framing> framing_from_spelling(std::string_view spelling);

/// A time as it stands in the project file.
struct WrittenTime {
  std::string text;      ///< empty where it is left out
  bool pending = false;  ///< a timecode, or the clip's end: only the measured clip can tell
  Place place;           ///< of the time, or of the segment where it is left out
};

struct Segment {
  std::string id;
  std::size_t media = 0;  ///< index into Project::media
  TimeRange range;        ///< on the clip's clock; empty while in or out is pending
  std::vector<LastingReference> steps;
  Framing framing = Framing::Unknown;
  std::vector<LastingReference> shows;
  std::optional<MediaTime> edit_begin;  ///< where it stands in the edit
  std::string note;
  Place place;
  WrittenTime in;
  WrittenTime out;
  WrittenTime at;
};

/// What the user said of a line that was doubtful, or that she wants left alone. It holds as long as the line
/// reads as it did and what was found is the same.
struct Answer {
  enum class About : std::uint8_t { Said, Shown, OnPicture };
  enum class Is : std::uint8_t { Yes, No, Leave };
  std::string line;  ///< the key of the line from a report, its whole text, or the food's name
  About about = About::Said;
  Is is = Is::Yes;
  std::string written;  ///< how the line read; empty: holds however it reads
  /// The words that were found for it, or the parts of clips that show it; empty words: nothing was. None:
  /// the answer holds whatever is found.
  std::optional<std::string> found;
  Place place;
};

struct TimedTextEntry {
  Transcript text;
  std::string clock;  ///< id of the media whose clock it runs on
  Place place;
};

struct Project {
  std::filesystem::path file;
  Recipe recipe;              ///< read, with settings.measures applied
  std::string recipe_source;  ///< the recipe file's text, for showing lines
  std::vector<MediaEntry> media;
  std::vector<Segment> segments;
  std::vector<TimedTextEntry> captions;
  std::vector<TimedTextEntry> on_screen_text;
  std::vector<ScriptLine> script;  ///< what is spoken, where it was written down before; empty: it was not
  std::vector<Answer> answers;
  std::vector<Error> to_decide;  ///< to be decided again, each with its place: references that no longer fit
                                 ///< one line of the recipe, names that look like a slip of the fingers

  [[nodiscard]] const MediaEntry* find_media(std::string_view id) const;
};

/// Reads a project with its recipe and captions. On failure every problem of the file in one list: what
/// breaks the schema, ids used twice or not known, in after out, overlaps, files that are missing (recipe,
/// captions). Clips are not opened: see measure_footage.
[[nodiscard]] Checked<Project> load_project(const FileSystem& fs, const std::filesystem::path& file);

/// Facts of a project's media, by index of Project::media.
struct Footage {
  std::vector<std::optional<ClipFacts>> clips;  ///< empty where it could not be opened
  std::vector<Error>
      unusable;  ///< missing files and files that are no media: told as warnings, the check goes on
  std::vector<Error> moved;           ///< clips found under another name, by their content
  std::vector<std::string> contents;  ///< keys of their content (content_key), by index of Project::media;
                                      ///< empty where it could not be read
  std::vector<Error> mistakes;  ///< decisions the facts contradict: an out past the end of its clip, timecode
                                ///< the clip does not have
};

/// Measures every clip of the project by `workers`; also turns timecode in and out points (left pending by
/// load_project) into clip times.
/// What `store` has of a clip that did not change is taken from there, and the clip is not opened. A clip
/// that is not where the project says is looked for by its content; its entry then names the file found.
[[nodiscard]] Result<Footage> measure_footage(Project& project, Progress& progress, FootageWorkers& workers,
                                              Store& store);
/// The same without a store: every clip is measured.
[[nodiscard]] Result<Footage> measure_footage(Project& project, Progress& progress,
                                              FootageWorkers& workers = footage_in_this_process());

/// What `new` starts from.
struct NewProject {
  std::filesystem::path directory;               ///< made when absent
  std::filesystem::path recipe;                  ///< referred to (relative), never copied or changed
  std::optional<std::filesystem::path> footage;  ///< a folder: its clips, captions and sound become entries
};

/// A file of the footage folder that did not come into the project, and why, in a cook's words.
struct LeftOutFile {
  std::string file;  ///< as the project would write it
  std::string why;
};

struct StartedProject {
  std::filesystem::path file;
  std::vector<LeftOutFile> left_out;
};

/// Writes `<recipe's name>.json` into the directory: media with guessed roles, one segment a clip and no step
/// decided. Exists when there is one already: nothing is ever overwritten.
[[nodiscard]] Result<StartedProject> start_project(FileSystem& fs, const NewProject& start,
                                                   Progress& progress,
                                                   FootageWorkers& workers = footage_in_this_process());

}  // namespace panslate
