#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/project/answer_spelling.h"
#include "panslate/project/project.h"

#include "project/entry.h"
#include "project/form_check.h"
#include "project/json_text.h"
#include "project/references.h"
#include "project/segments.h"

namespace panslate {

namespace fs = std::filesystem;

namespace {

// A year of daily videos would not fill it; it bounds what a wrong file can cost.
constexpr std::uintmax_t kProjectFileLimit = std::uintmax_t{4} * 1024 * 1024;
constexpr std::uint64_t kFormVersion = 1;

MediaRole role_from(std::string_view spelling) {
  if (spelling == "narration") return MediaRole::Narration;
  if (spelling == "edit") return MediaRole::Edit;
  return MediaRole::Camera;
}

class ProjectReader {
 public:
  ProjectReader(const FileSystem& disk, fs::path file, JsonText text)
      : disk_(disk), text_(std::move(text)), root_(text_.value, text_.spot, {}) {
    problems_.file = file;
    problems_.errors = text_.oddities;
    project_.file = std::move(file);
  }

  Checked<Project> read() && {
    if (auto newer = made_by_newer()) return tl::unexpected(std::vector<Error>{*std::move(newer)});
    check_form(text_, problems_);
    read_media();
    read_recipe_file();
    read_segments();
    read_timed_texts("captions", project_.captions);
    read_timed_texts("on_screen_text", project_.on_screen_text);
    read_script_file();
    read_answers();
    if (!problems_.errors.empty()) return tl::unexpected(sorted(std::move(problems_.errors)));
    auto slips = near_names(text_, project_.file);
    project_.to_decide.insert(project_.to_decide.end(), slips.begin(), slips.end());
    project_.to_decide = sorted(std::move(project_.to_decide));
    return std::move(project_);
  }

 private:
  [[nodiscard]] std::optional<Error> made_by_newer() const {
    const auto version = root_.member("panslate_project");
    if (!version || !version->value().is_number_unsigned()) return std::nullopt;
    if (version->value().get<std::uint64_t>() <= kFormVersion) return std::nullopt;
    return Error{ErrorCode::Malformed,
                 "made by a newer panslate: its form is version " + version->value().dump() +
                     ", this one reads up to " + std::to_string(kFormVersion),
                 problems_.place_of(version->spot().at), "install the newer panslate"};
  }

  // In the order of the file, what stands in other files last.
  [[nodiscard]] std::vector<Error> sorted(std::vector<Error> errors) const {
    const auto rank = [&](const Error& error) {
      const bool elsewhere = !error.place || error.place->file != project_.file;
      return elsewhere ? std::tuple(1, 0, 0) : std::tuple(0, error.place->line, error.place->column);
    };
    std::stable_sort(errors.begin(), errors.end(),
                     [&](const Error& a, const Error& b) { return rank(a) < rank(b); });
    return errors;
  }

  [[nodiscard]] std::vector<Entry> list(std::string_view key) const {
    const auto entry = root_.member(key);
    return entry && !problems_.is_wrong(*entry) ? entry->items() : std::vector<Entry>{};
  }

  // The words under a name, where the form has no complaint about them.
  [[nodiscard]] std::optional<std::string> sound_text(const Entry& entry, std::string_view key) const {
    const auto member = entry.member(key);
    return member && !problems_.is_wrong(*member) ? member->text() : std::nullopt;
  }

  [[nodiscard]] fs::path resolved(std::string_view written) const {
    return project_.file.parent_path() / fs::path(written);
  }

  void read_media() {
    std::optional<std::string> edit;
    for (const auto& entry : list("media")) {
      MediaEntry media;
      media.place = problems_.place_of(entry.spot().at);
      if (const auto file = sound_text(entry, "file")) {
        media.file = resolved(*file);
        media.file_place = problems_.place_of(entry.member("file")->spot().at);
      }
      media.content = sound_text(entry, "content");
      if (const auto at = sound_text(entry, "at")) {
        media.edit_begin = parse_timestamp(*at);
        if (!media.edit_begin)
          problems_.add(*entry.member("at"), in_quotes(*at) + " is no time", "such as 00:00:03.500");
      }
      media.role = role_from(sound_text(entry, "role").value_or(""));
      if (const auto id = sound_text(entry, "id")) {
        media.id = *id;
        check_new_id(*entry.member("id"), *id, media_ids_);
      }
      if (media.role == MediaRole::Edit) {
        if (edit)
          problems_.add(*entry.member("role"),
                        "there is one edit only, and it is " + in_quotes(*edit) + " already",
                        "give this one the role camera, or take it out");
        else
          edit = media.id;
      }
      project_.media.push_back(std::move(media));
    }
  }

  void check_new_id(const Entry& entry, const std::string& id, std::map<std::string, int>& known) {
    const auto [first, is_new] = known.emplace(id, entry.spot().at.line);
    if (!is_new)
      problems_.add(entry, in_quotes(id) + " is used twice, first on line " + std::to_string(first->second),
                    "give each an id of its own");
  }

  // A file that the project speaks of: a problem with it is shown where it is spoken of.
  std::optional<std::string> read_file(const Entry& entry, const std::string& written) {
    auto bytes = disk_.read(resolved(written), kTextFileLimit);
    if (bytes) return *std::move(bytes);
    auto& error = bytes.error();
    if (error.code == ErrorCode::NotFound)
      problems_.add(entry, "there is no file " + in_quotes(written, 200),
                    "files are looked for from the folder of the project file", ErrorCode::NotFound);
    else
      problems_.add(entry, in_quotes(written, 200) + ": " + error.message, error.hint, error.code);
    return std::nullopt;
  }

  void add_foreign(Error error, const fs::path& file) {
    if (!error.place) error.place = Place{file};
    problems_.errors.push_back(std::move(error));
  }

  void read_recipe_file() {
    const auto written = sound_text(root_, "recipe");
    if (!written) return;
    const auto bytes = read_file(*root_.member("recipe"), *written);
    if (!bytes) return;
    const auto file = resolved(*written);
    project_.recipe_source = to_utf8(*bytes);
    auto recipe = read_recipe(project_.recipe_source, file);
    if (!recipe) return add_foreign(std::move(recipe).error(), file);
    project_.recipe = *std::move(recipe);
    references_.emplace(project_.recipe);
    const auto settings = root_.member("settings");
    const auto measures = settings ? sound_text(*settings, "measures") : std::nullopt;
    if (const auto decided = measures ? measures_from_spelling(*measures) : std::nullopt) {
      project_.recipe.measures = *decided;
      project_.recipe.measures_guessed = false;
      project_.recipe.measures_reason = "the project's settings";
    }
  }

  void read_segments() {
    for (const auto& entry : list("segments")) {
      if (const auto id = sound_text(entry, "id")) check_new_id(*entry.member("id"), *id, segment_ids_);
      auto segment = read_segment(entry, project_, problems_);
      if (!segment) continue;
      if (references_) resolve(*segment, entry.name());
      project_.segments.push_back(*std::move(segment));
    }
    auto overlaps = overlaps_of(project_);
    problems_.errors.insert(problems_.errors.end(), overlaps.begin(), overlaps.end());
  }

  void resolve(Segment& segment, const std::string& name) {
    for (auto& step : segment.steps)
      if (auto doubt = references_->resolve_step(step, name + ".step"))
        project_.to_decide.push_back(*std::move(doubt));
    for (auto& food : segment.shows)
      if (auto doubt = references_->resolve_ingredient(food, name + ".shows"))
        project_.to_decide.push_back(*std::move(doubt));
  }

  void read_timed_texts(std::string_view key, std::vector<TimedTextEntry>& out) {
    for (const auto& entry : list(key)) {
      TimedTextEntry timed;
      timed.place = problems_.place_of(entry.spot().at);
      if (const auto clock = sound_text(entry, "clock")) {
        timed.clock = *clock;
        check_clock(*entry.member("clock"), *clock);
      }
      const auto written = sound_text(entry, "file");
      const auto bytes = written ? read_file(*entry.member("file"), *written) : std::nullopt;
      if (!bytes) continue;
      const auto file = resolved(*written);
      auto transcript = read_captions(*bytes, file);
      if (!transcript) {
        add_foreign(std::move(transcript).error(), file);
        continue;
      }
      timed.text = *std::move(transcript);
      out.push_back(std::move(timed));
    }
  }

  void read_script_file() {
    const auto written = sound_text(root_, "script");
    const auto bytes = written ? read_file(*root_.member("script"), *written) : std::nullopt;
    if (!bytes) return;
    const auto file = resolved(*written);
    auto script = read_script(to_utf8(*bytes), file);
    if (script)
      project_.script = *std::move(script);
    else
      add_foreign(std::move(script).error(), file);
  }

  void read_answers() {
    for (const auto& entry : list("answers")) {
      Answer answer;
      answer.place = problems_.place_of(entry.spot().at);
      answer.line = sound_text(entry, "line").value_or("");
      // Other spellings are refused by the form.
      answer.about = about_from_spelling(sound_text(entry, "about").value_or("")).value_or(answer.about);
      answer.is = is_from_spelling(sound_text(entry, "is").value_or("")).value_or(answer.is);
      answer.written = sound_text(entry, "written").value_or("");
      answer.found = sound_text(entry, "found");
      project_.answers.push_back(std::move(answer));
    }
  }

  void check_clock(const Entry& entry, const std::string& clock) {
    if (project_.find_media(clock) != nullptr) return;
    add_unknown_clip(entry, clock, project_, problems_);
  }

  const FileSystem& disk_;
  JsonText text_;
  Entry root_;
  Project project_;
  ProblemList problems_;
  std::map<std::string, int> media_ids_;
  std::map<std::string, int> segment_ids_;
  std::optional<ReferenceFinder> references_;  // where there is a recipe
};

}  // namespace

std::string_view spelling_of(Framing framing) {
  switch (framing) {
    case Framing::Unknown:
      return "";
    case Framing::Overhead:
      return "overhead";
    case Framing::Front:
      return "front";
    case Framing::Close:
      return "close";
    case Framing::Wide:
      return "wide";
    case Framing::Insert:
      return "insert";
    case Framing::Beauty:
      return "beauty";
  }
  return "";
}

std::optional<Framing> framing_from_spelling(std::string_view spelling) {
  const auto* const found = std::find_if(kFramings.begin(), kFramings.end(),
                                         [&](Framing framing) { return spelling_of(framing) == spelling; });
  return found == kFramings.end() ? std::nullopt : std::optional(*found);
}

const MediaEntry* Project::find_media(std::string_view id) const {
  const auto found =
      std::find_if(media.begin(), media.end(), [&](const MediaEntry& entry) { return entry.id == id; });
  return found == media.end() ? nullptr : &*found;
}

Checked<Project> load_project(const FileSystem& disk, const fs::path& file) {
  auto bytes = disk.read(file, kProjectFileLimit);
  if (!bytes) return tl::unexpected(std::vector<Error>{std::move(bytes).error()});
  auto text = read_json(to_utf8(*bytes), file);
  if (!text) return tl::unexpected(std::vector<Error>{std::move(text).error()});
  return ProjectReader(disk, file, *std::move(text)).read();
}

}  // namespace panslate
