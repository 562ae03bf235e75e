#include "app/footage_to_log.h"

#include <algorithm>
#include <set>
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

Checked<FootageToLog> of_project(const fs::path& file, Context& context) {
  auto project = load_project(context.disk, file);
  if (!project) return tl::unexpected(std::move(project).error());
  FootageToLog found;
  found.store = Store(context.disk, file);
  // Clips that were renamed are found, and what is kept of the others stays in use.
  auto footage = measure_footage(*project, context.progress, context.footage, found.store);
  if (!footage) return tl::unexpected(Errors{footage.error()});
  for (const auto& moved : footage->moved) context.tell(moved);
  for (const auto& media : project->media) found.files.push_back(media.file);
  found.project = *std::move(project);
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
  std::set<fs::path> seen;
  for (const auto& name : named) {
    const fs::path file(name);
    if (is_project(file))
      return tl::unexpected(Errors{{ErrorCode::Usage, "a project is read by itself", Place{file},
                                    "name either one project, or clips and folders"}});
    if (!context.disk.is_directory(file)) {
      if (seen.insert(file).second) found.files.push_back(file);
      continue;
    }
    auto clips = clips_in_folder(context.disk, file);
    if (!clips) return tl::unexpected(Errors{clips.error()});
    for (auto& clip : *clips)
      if (seen.insert(clip).second) found.files.push_back(std::move(clip));
  }
  found.store = Store(context.disk, found.files.front());
  return found;
}

}  // namespace panslate::app
