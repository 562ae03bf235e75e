#include "panslate/project/log_footage.h"

#include <map>
#include <utility>

#include "panslate/media/content_key.h"

#include "project/footage_guess.h"

namespace panslate {

namespace {

namespace fs = std::filesystem;

struct Copy {
  std::size_t clip = 0;
  std::optional<FileStamp> stamp;  ///< before it was read
};

// Clips that have to be read, once for all that have one content.
struct ToRead {
  std::vector<fs::path> files;
  std::vector<std::vector<Copy>> copies;  // of each file, itself first
  std::map<std::string, std::size_t> by_content;

  void add(const fs::path& file, const std::string& content, Copy copy) {
    const auto next = files.size();
    // Without a key nothing is known of what is in it.
    const auto place = content.empty() ? next : by_content.try_emplace(content, next).first->second;
    if (place == next) {
      files.push_back(file);
      copies.emplace_back();
    }
    copies[place].push_back(copy);
  }
};

}  // namespace

Result<std::vector<LoggedClip>> log_footage(std::span<const fs::path> files, FootageWorkers& workers,
                                            Store& store, Progress& progress) {
  std::vector<LoggedClip> clips(files.size());
  ToRead rest;
  for (std::size_t i = 0; i < files.size(); ++i) {
    if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped while reading the footage");
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
    if (!clip.log)
      rest.add(files[i], clip.content, {i, stamp});
    else if (is_new && stamp)
      store.keep(files[i], *stamp, *key, clip.log->facts);
  }
  if (rest.files.empty()) return clips;
  const auto keep = [&](std::size_t i, const Result<ClipLog>& log) {
    for (const auto& copy : rest.copies[i]) {
      auto& clip = clips[copy.clip];
      if (!log) {
        clip.why = log.error();
        if (clip.why->place) clip.why->place->file = clip.file;
        continue;
      }
      clip.log = *log;
      clip.log->facts.file = clip.file;
      if (!clip.content.empty() && copy.stamp)
        store.keep(clip.file, *copy.stamp, clip.content, clip.log->facts);
    }
    const auto& first = rest.copies[i].front();
    if (log && first.stamp && !clips[first.clip].content.empty())
      store.keep_logged(clips[first.clip].content, *log);
  };
  PANSLATE_TRY(const auto logged, workers.log_all(rest.files, progress, keep));
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
