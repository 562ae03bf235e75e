#include <utility>

#include "panslate/media/content_key.h"
#include "panslate/project/project.h"
#include "panslate/project/store.h"

#include "project/clip_times.h"
#include "project/entry.h"
#include "project/find_moved.h"

namespace panslate {

namespace {

namespace fs = std::filesystem;

class Measuring {
 public:
  Measuring(Project& project, Store& store) : project_(project), store_(store), moved_(project, store) {
    footage_.clips.resize(project.media.size());
    footage_.contents.resize(project.media.size());
  }

  Result<Footage> run(FootageWorkers& workers, Progress& progress) {
    for (std::size_t i = 0; i < project_.media.size(); ++i) {
      find_file(i);
      if (!take_kept(i)) note_new(i);
    }
    std::vector<fs::path> files;
    files.reserve(new_.size());
    for (const auto& one : new_) files.push_back(project_.media[one.index].file);
    PANSLATE_TRY(auto probed, workers.probe_all(files, progress));
    for (std::size_t i = 0; i < probed.size(); ++i) take_measured(new_[i], std::move(probed[i]));
    footage_.mistakes = settle_clip_times(project_, footage_.clips, footage_.contents);
    return std::move(footage_);
  }

 private:
  struct New {
    std::size_t index;
    std::optional<FileStamp> stamp;  ///< before it was read
  };

  // A clip that was renamed or moved is the clip it was.
  void find_file(std::size_t i) {
    auto& media = project_.media[i];
    std::error_code error;
    if (fs::exists(media.file, error)) return;
    const auto found = moved_.find(media);
    if (!found) return;
    // As the project would write it.
    const auto home = project_.file.parent_path();
    auto name = fs::proximate(*found, home.empty() ? fs::path(".") : home, error);
    if (error) name = *found;
    footage_.moved.push_back({ErrorCode::NotFound,
                              "clip " + in_quotes(media.id) + " is not at " +
                                  in_quotes(media.file.filename().string()) + " any more, and is found as " +
                                  in_quotes(name.generic_string(), 200),
                              media.file_place, "write its new name into the project"});
    media.file = *found;
  }

  bool take_kept(std::size_t i) {
    const auto& file = project_.media[i].file;
    auto key = store_.key_of(file);
    if (!key) return false;
    footage_.clips[i] = store_.facts(*key, file);
    if (!footage_.clips[i]) return false;
    footage_.contents[i] = *std::move(key);
    return true;
  }

  // Not seen under this name, or changed since; its content may be known all the same.
  void note_new(std::size_t i) {
    const auto& file = project_.media[i].file;
    const auto stamp = real_file_system().stamp(file);
    if (stamp) {
      if (auto key = content_key(file)) {
        footage_.contents[i] = *std::move(key);
        if (auto facts = store_.facts(footage_.contents[i], file)) {
          store_.keep(file, *stamp, footage_.contents[i], *facts);
          footage_.clips[i] = *std::move(facts);
          return;
        }
      }
    }
    new_.push_back({i, stamp ? std::optional(*stamp) : std::nullopt});
  }

  void take_measured(const New& one, Result<ClipFacts> facts) {
    const auto& media = project_.media[one.index];
    if (!facts) {
      const auto& why = facts.error();
      footage_.unusable.push_back({why.code,
                                   "clip " + in_quotes(media.id) + " (" + media.file.filename().string() +
                                       ") cannot be used: " + why.message,
                                   media.file_place, why.hint});
      return;
    }
    const auto& key = footage_.contents[one.index];
    if (one.stamp && !key.empty()) store_.keep(media.file, *one.stamp, key, *facts);
    footage_.clips[one.index] = *std::move(facts);
  }

  Project& project_;
  Store& store_;
  MovedClips moved_;
  Footage footage_;
  std::vector<New> new_;
};

}  // namespace

Result<Footage> measure_footage(Project& project, Progress& progress, FootageWorkers& workers, Store& store) {
  return Measuring(project, store).run(workers, progress);
}

Result<Footage> measure_footage(Project& project, Progress& progress, FootageWorkers& workers) {
  Store none;
  return measure_footage(project, progress, workers, none);
}

}  // namespace panslate
