#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"

namespace panslate::samples {

/// One drawn scene of the demo footage: what the camera sees, as a filter chain of libavfilter that starts
/// with a source and ends in one picture stream, 640x360.
struct Scene {
  std::string clip;      ///< id in the project
  FrameRate rate;        ///< the camera's
  MediaTime length;      ///< how long the camera ran
  std::string recorded;  ///< when, as the camera notes it
  std::string chain;     ///< without labels
};

/// All scenes of the demo, in the order of the film.
[[nodiscard]] const std::vector<Scene>& demo_scenes();

/// The scene of a clip; null when there is none.
[[nodiscard]] const Scene* find_scene(std::string_view clip);

/// Text drawn over the lower part of the picture between two times; lines are parted by LF.
[[nodiscard]] std::string title_filter(std::string_view text, TimeRange when);

}  // namespace panslate::samples
