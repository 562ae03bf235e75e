// The media floor as the program has it: the FFmpeg libraries come with 160 others, whose loading takes
// longer than reading a recipe and checking it. So they are loaded when the first clip is opened.
#include "panslate/base/loaded_module.h"

#include "media/late/functions.h"

namespace panslate {
namespace {

const Result<const MediaFunctions*>& functions() {
  static const Result<const MediaFunctions*> loaded =
      load_module<MediaFunctions>(PANSLATE_MODULE_FILE, PANSLATE_MODULE_ENTRY, "reads footage");
  return loaded;
}

}  // namespace

Result<ClipFacts> probe_clip(const std::filesystem::path& file) {
  return functions().and_then([&](const MediaFunctions* media) { return media->probe_clip(file); });
}

Result<Still> take_still(const std::filesystem::path& file, MediaTime time, int longest_side) {
  return functions().and_then(
      [&](const MediaFunctions* media) { return media->take_still(file, time, longest_side); });
}

Status take_stills(const std::filesystem::path& file, std::span<const MediaTime> times, int longest_side,
                   const StillTaken& taken) {
  return functions().and_then(
      [&](const MediaFunctions* media) { return media->take_stills(file, times, longest_side, taken); });
}

Status take_sound(const std::filesystem::path& file, std::span<const MediaTime> times, MediaTime length,
                  const SoundTaken& taken) {
  return functions().and_then(
      [&](const MediaFunctions* media) { return media->take_sound(file, times, length, taken); });
}

Status render_film(const RenderSpec& spec, const std::filesystem::path& out, Progress& progress) {
  return functions().and_then(
      [&](const MediaFunctions* media) { return media->render_film(spec, out, progress); });
}

Result<ClipLog> log_clip(const std::filesystem::path& file, const LogSetup& setup,
                         const LogWatcher& watcher) {
  return functions().and_then(
      [&](const MediaFunctions* media) { return media->log_clip(file, setup, watcher); });
}

Status make_proxy(const std::filesystem::path& clip, const std::filesystem::path& out, Progress& progress) {
  return functions().and_then(
      [&](const MediaFunctions* media) { return media->make_proxy(clip, out, progress); });
}

}  // namespace panslate
