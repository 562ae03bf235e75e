#include "app/footage_to_log.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <system_error>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/project/log_footage.h"

namespace panslate::app {

namespace {

namespace fs = std::filesystem;
using Errors = std::vector<Error>;

bool is_project(const fs::path& file) {
  return fold_case(to_utf8(file.extension().string())) == ".json";
}

// The files that were named, each once however it was named: a clip that is told to be there twice may be
// deleted.
class NamedFiles {
 public:
  explicit NamedFiles(const FileSystem& disk) : disk_(&disk) {}
  // Its index among the files.
  std::size_t add(const fs::path& file) {
    std::error_code error;
    const auto canonical = fs::weakly_canonical(file, error);
    const auto [place, is_new] = places_.emplace(error ? file.lexically_normal() : canonical, files_.size());
    if (!is_new) return place->second;
    // Another name of the same file, as links make them. Two disks may give one number.
    if (const auto stamp = disk_->stamp(file)) {
      auto& same = by_node_[stamp->node];
      const auto known = std::find_if(same.begin(), same.end(), [&](std::size_t other) {
        return fs::equivalent(file, files_[other], error);
      });
      if (known != same.end()) return place->second = *known;
      same.push_back(files_.size());
    }
    files_.push_back(file);
    return place->second;
  }
  [[nodiscard]] std::vector<fs::path> take() && { return std::move(files_); }

 private:
  const FileSystem* disk_;
  std::vector<fs::path> files_;
  std::map<fs::path, std::size_t> places_;
  std::map<std::uint64_t, std::vector<std::size_t>> by_node_;
};

Checked<FootageToLog> of_project(const fs::path& file, Context& context) {
  auto project = load_project(context.disk, file);
  if (!project) return tl::unexpected(std::move(project).error());
  FootageToLog found;
  found.store = Store(context.disk, file);
  // Clips that were renamed are found, and what is kept of the others stays in use.
  auto footage = measure_footage(*project, context.progress, context.footage, found.store);
  if (!footage) return tl::unexpected(Errors{footage.error()});
  for (const auto& moved : footage->moved) context.tell(moved);
  NamedFiles files(context.disk);
  for (const auto& media : project->media) found.file_of_media.push_back(files.add(media.file));
  found.files = std::move(files).take();
  found.project = *std::move(project);
  found.footage = *std::move(footage);
  if (found.files.empty())
    return tl::unexpected(
        Errors{{ErrorCode::Usage, "the project has no clips", Place{file}, "add them to \"media\" in it"}});
  return found;
}

}  // namespace

Checked<FootageToLog> footage_to_log(const std::vector<std::string>& named, Context& context) {
  if (named.empty())
    return tl::unexpected(Errors{{ErrorCode::Usage, "nothing to read was named", std::nullopt,
                                  "give a project file, a folder with clips, or clips"}});
  if (named.size() == 1 && is_project(named.front())) return of_project(named.front(), context);
  FootageToLog found;
  NamedFiles files(context.disk);
  for (const auto& name : named) {
    const fs::path file(name);
    if (is_project(file))
      return tl::unexpected(Errors{{ErrorCode::Usage, "a project is read by itself", Place{file},
                                    "name either one project, or clips and folders"}});
    if (!context.disk.is_directory(file)) {
      files.add(file);
      continue;
    }
    auto clips = clips_in_folder(context.disk, file);
    if (!clips) return tl::unexpected(Errors{clips.error()});
    for (const auto& clip : *clips) files.add(clip);
  }
  found.files = std::move(files).take();
  found.store = Store(context.disk, found.files.front());
  return found;
}

}  // namespace panslate::app
