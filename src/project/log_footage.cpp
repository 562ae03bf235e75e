#include "panslate/project/log_footage.h"

#include <utility>

#include "panslate/media/content_key.h"

#include "project/footage_guess.h"

namespace panslate {

namespace {

namespace fs = std::filesystem;

// A clip that has to be read.
struct ToRead {
  std::size_t index = 0;
  std::optional<FileStamp> stamp;  ///< before it was read
};

}  // namespace

Result<std::vector<LoggedClip>> log_footage(std::span<const fs::path> files, FootageWorkers& workers,
                                            Store& store, Progress& progress) {
  std::vector<LoggedClip> clips(files.size());
  std::vector<ToRead> rest;
  std::vector<fs::path> rest_files;
  for (std::size_t i = 0; i < files.size(); ++i) {
    auto& clip = clips[i];
    clip.file = files[i];
    const auto stamp = store.stamp_of(files[i]);
    auto key = store.key_of(files[i]);
    const bool is_new = !key;
    if (!key) {
      auto found = content_key(files[i]);
      if (found) key = *std::move(found);
    }
    clip.content = key.value_or("");
    if (key) clip.log = store.logged(*key, files[i]);
    if (!clip.log) {
      rest.push_back({i, stamp});
      rest_files.push_back(files[i]);
    } else if (is_new && stamp) {
      store.keep(files[i], *stamp, *key, clip.log->facts);
    }
  }
  if (rest.empty()) return clips;
  const auto keep = [&](std::size_t i, const Result<ClipLog>& log) {
    auto& clip = clips[rest[i].index];
    if (!log) {
      clip.why = log.error();
      return;
    }
    clip.log = *log;
    if (clip.content.empty() || !rest[i].stamp) return;
    store.keep(clip.file, *rest[i].stamp, clip.content, log->facts);
    store.keep_logged(clip.content, *log);
  };
  PANSLATE_TRY(const auto logged, workers.log_all(rest_files, progress, keep));
  return clips;
}

Result<std::vector<fs::path>> clips_in_folder(const FileSystem& disk, const fs::path& folder) {
  PANSLATE_TRY(auto files, disk.list(folder));
  std::erase_if(files, [](const fs::path& file) {
    return kind_of(file) != FileKind::Media || file.filename().native().front() == '.';
  });
  if (files.empty())
    return fail(ErrorCode::NotMedia, "there are no clips in this folder", Place{folder},
                "name the folder that the clips lie in");
  return files;
}

}  // namespace panslate
