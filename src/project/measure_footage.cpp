#include <utility>

#include "panslate/project/project.h"

#include "project/clip_times.h"
#include "project/entry.h"

namespace panslate {

Result<Footage> measure_footage(Project& project, Progress& progress, FootageWorkers& workers) {
  std::vector<std::filesystem::path> files;
  files.reserve(project.media.size());
  for (const auto& media : project.media) files.push_back(media.file);
  PANSLATE_TRY(auto probed, workers.probe_all(files, progress));
  Footage footage;
  for (std::size_t i = 0; i < probed.size(); ++i) {
    const auto& media = project.media[i];
    if (probed[i]) {
      footage.clips.emplace_back(*std::move(probed[i]));
      continue;
    }
    footage.clips.emplace_back();
    const auto& why = probed[i].error();
    footage.unusable.push_back({why.code,
                                "clip " + in_quotes(media.id) + " (" + media.file.filename().string() +
                                    ") cannot be used: " + why.message,
                                media.file_place, why.hint});
  }
  footage.mistakes = settle_clip_times(project, footage.clips);
  return footage;
}

}  // namespace panslate
