#include <algorithm>
#include <string>
#include <system_error>
#include <tuple>
#include <utility>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/media/content_key.h"
#include "panslate/project/project.h"

#include "project/footage_guess.h"

namespace panslate {

namespace fs = std::filesystem;

namespace {

using nlohmann::ordered_json;

// A path without links and dots, so that one folder can be told from another; as it is where the disk does
// not know it.
fs::path settled(const fs::path& path) {
  std::error_code error;
  auto out = fs::weakly_canonical(fs::absolute(path, error), error);
  return error ? path.lexically_normal() : out;
}

std::string_view spelling_of(MediaRole role) {
  switch (role) {
    case MediaRole::Camera:
      return "camera";
    case MediaRole::Narration:
      return "narration";
    case MediaRole::Edit:
      return "edit";
  }
  return "";
}

struct FoundClip {
  fs::path file;
  ClipFacts facts;
  MediaRole role = MediaRole::Camera;
  std::string id = {};
};

struct FoundText {
  fs::path file;
  bool on_screen = false;
  std::string clock = {};
};

class ProjectStarter {
 public:
  ProjectStarter(FileSystem& disk, const NewProject& start, Progress& progress, FootageWorkers& workers)
      : disk_(disk), start_(start), progress_(progress), workers_(workers), home_(settled(start.directory)) {}

  Result<StartedProject> write() && {
    PANSLATE_TRY(const auto recipe, read_text(disk_, start_.recipe));
    PANSLATE_TRY(const auto understood, read_recipe(recipe, start_.recipe));
    static_cast<void>(understood);
    const auto target = start_.directory / project_name();
    PANSLATE_CHECK(is_free(target));
    if (start_.footage) PANSLATE_CHECK(look_through(*start_.footage));
    PANSLATE_CHECK(disk_.create_directories(start_.directory));
    // Clips take a while to measure: somebody may have saved there meanwhile.
    PANSLATE_CHECK(is_free(target));
    const auto text = file_text().dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
    PANSLATE_CHECK(save_atomically(disk_, target, text));
    return StartedProject{target, std::move(left_out_)};
  }

 private:
  // A recipe that is JSON itself keeps its name.
  [[nodiscard]] fs::path project_name() const {
    auto name = start_.recipe.stem();
    name += fold_case(to_utf8(start_.recipe.extension().string())) == ".json" ? "-project.json" : ".json";
    return name;
  }

  [[nodiscard]] Status is_free(const fs::path& target) const {
    if (!disk_.exists(target)) return {};
    return fail(ErrorCode::Exists, "there is a project already", Place{target},
                "go on with it, or start the new one in another folder");
  }

  Status look_through(const fs::path& folder) {
    if (disk_.exists(folder) && !disk_.is_directory(folder))
      return fail(ErrorCode::Unreadable, "this is a file, a folder with clips is needed", Place{folder});
    PANSLATE_TRY(const auto files, disk_.list(folder));
    PANSLATE_CHECK(measure_media(files));
    choose_edit();
    put_in_order();
    read_timed_texts(files);
    return {};
  }

  Status measure_media(const std::vector<fs::path>& files) {
    std::vector<fs::path> media;
    for (const auto& file : files) {
      if (kind_of(file) != FileKind::Media) continue;
      const auto name = file.filename().string();
      if (to_utf8(name) == name)
        media.push_back(file);
      else
        leave_out(file, "its name is not UTF-8: rename it");
    }
    PANSLATE_TRY(auto probed, workers_.probe_all(media, progress_));
    for (std::size_t i = 0; i < media.size(); ++i) {
      if (probed[i])
        clips_.push_back({media[i], *std::move(probed[i])});
      else
        leave_out(media[i], probed[i].error().message);
    }
    for (auto& clip : clips_) clip.role = guess_role(clip.file, clip.facts);
    return {};
  }

  // Of several exports the surest name counts, then the one recorded last, then the last by name ("edit-v3").
  void choose_edit() {
    const auto rank = [](const FoundClip& clip) {
      return std::tuple(edit_likeness(clip.file), clip.facts.recorded.value_or(""), clip.file.filename());
    };
    const FoundClip* best = nullptr;
    for (const auto& clip : clips_)
      if (clip.role == MediaRole::Edit && (best == nullptr || rank(*best) < rank(clip))) best = &clip;
    if (best == nullptr) return;
    const auto chosen = best->file;
    for (const auto& clip : clips_)
      if (clip.role == MediaRole::Edit && clip.file != chosen)
        leave_out(clip.file, "looks like another export of the edit");
    std::erase_if(clips_,
                  [&](const FoundClip& clip) { return clip.role == MediaRole::Edit && clip.file != chosen; });
  }

  void put_in_order() {
    std::sort(clips_.begin(), clips_.end(), [](const FoundClip& a, const FoundClip& b) {
      const auto rank = [](const FoundClip& clip) {
        return std::tuple(clip.role, !clip.facts.recorded, clip.facts.recorded.value_or(""),
                          clip.file.filename());
      };
      return rank(a) < rank(b);
    });
    std::vector<std::string> taken;
    for (auto& clip : clips_) {
      clip.id = new_id(clip.file, taken);
      taken.push_back(clip.id);
    }
  }

  // WebVTT first: it may carry a time for each word.
  void read_timed_texts(std::vector<fs::path> files) {
    const auto extension = [](const fs::path& file) { return fold_case(to_utf8(file.extension().string())); };
    std::stable_partition(files.begin(), files.end(),
                          [&](const fs::path& file) { return extension(file) == ".vtt"; });
    for (const auto& file : files) {
      if (kind_of(file) != FileKind::TimedText || settled(file) == settled(start_.recipe)) continue;
      const auto bytes = disk_.read(file, kTextFileLimit);
      const auto transcript = bytes ? read_captions(*bytes, file) : tl::unexpected(bytes.error());
      if (!transcript) {
        // Any text may lie in the folder; only what claims to be captions is worth a word.
        if (extension(file) != ".txt") leave_out(file, transcript.error().message);
        continue;
      }
      FoundText text{file, is_on_screen_text(file)};
      text.clock = clock_for(file);
      if (text.clock.empty()) {
        leave_out(file, "there is no clip that it could belong to");
        continue;
      }
      const auto same = std::find_if(texts_.begin(), texts_.end(), [&](const FoundText& other) {
        return other.on_screen == text.on_screen && other.clock == text.clock;
      });
      if (same != texts_.end())
        leave_out(file, same->file.filename().string() + " is taken for the same clip");
      else
        texts_.push_back(std::move(text));
    }
  }

  // The clip of the same name ("edit.en.vtt" goes with "edit.mp4"), else the edit, narration, first clip.
  [[nodiscard]] std::string clock_for(const fs::path& file) const {
    const auto name = file.stem().string();
    for (const auto& clip : clips_) {
      const auto stem = clip.file.stem().string();
      if (name == stem || name.starts_with(stem + ".")) return clip.id;
    }
    for (const auto role : {MediaRole::Edit, MediaRole::Narration, MediaRole::Camera})
      for (const auto& clip : clips_)
        if (clip.role == role) return clip.id;
    return {};
  }

  void leave_out(const fs::path& file, const std::string& why) { left_out_.push_back({written(file), why}); }

  [[nodiscard]] std::string written(const fs::path& file) const {
    const auto absolute = settled(file);
    const auto relative = absolute.lexically_relative(home_);
    return (relative.empty() ? absolute : relative).generic_string();
  }

  [[nodiscard]] ordered_json segments() const {
    ordered_json list = ordered_json::array();
    for (const auto& clip : clips_) {
      if (clip.role != MediaRole::Camera) continue;
      ordered_json segment{{"id", "s" + std::to_string(list.size() + 1)}, {"clip", clip.id}};
      const auto end = MediaTime::from_ms(clip.facts.duration.to_ms(Round::Down));
      if (end > MediaTime()) {
        segment["in"] = format_timestamp(MediaTime(), TimestampStyle::Clock);
        segment["out"] = format_timestamp(end, TimestampStyle::Clock);
      }
      list.push_back(std::move(segment));
    }
    return list;
  }

  [[nodiscard]] ordered_json timed_texts(bool on_screen) const {
    ordered_json list = ordered_json::array();
    for (const auto& text : texts_)
      if (text.on_screen == on_screen) list.push_back({{"file", written(text.file)}, {"clock", text.clock}});
    return list;
  }

  [[nodiscard]] ordered_json file_text() const {
    ordered_json media = ordered_json::array();
    for (const auto& clip : clips_) {
      ordered_json entry{{"id", clip.id}, {"file", written(clip.file)}, {"role", spelling_of(clip.role)}};
      // By it the clip is found again under another name.
      if (const auto key = content_key(clip.file)) entry["content"] = *key;
      media.push_back(std::move(entry));
    }
    ordered_json project{{"panslate_project", 1},          {"recipe", written(start_.recipe)},
                         {"media", std::move(media)},      {"segments", segments()},
                         {"captions", timed_texts(false)}, {"on_screen_text", timed_texts(true)}};
    for (const auto& left : left_out_)
      project["left_out"].push_back({{"file", left.file}, {"why", left.why}});
    return project;
  }

  FileSystem& disk_;
  const NewProject& start_;
  Progress& progress_;
  FootageWorkers& workers_;
  fs::path home_;
  std::vector<FoundClip> clips_;
  std::vector<FoundText> texts_;
  std::vector<LeftOutFile> left_out_;
};

}  // namespace

Result<StartedProject> start_project(FileSystem& disk, const NewProject& start, Progress& progress,
                                     FootageWorkers& workers) {
  return ProjectStarter(disk, start, progress, workers).write();
}

}  // namespace panslate
