#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"

namespace panslate::samples {

/// One drawn scene of the demo footage: what the camera sees, as filters of libavfilter, 640x360.
struct Scene {
  std::string clip;      ///< id in the project
  FrameRate rate;        ///< the camera's
  MediaTime length;      ///< how long the camera ran
  std::string recorded;  ///< when, as the camera notes it
  std::string still;     ///< a source and what does not move, from the back to the front
  std::string moving;    ///< what is drawn over it, begins with a comma
};

/// All scenes of the demo, in the order of the film.
[[nodiscard]] const std::vector<Scene>& demo_scenes();

/// The scene of a clip; null when there is none.
[[nodiscard]] const Scene* find_scene(std::string_view clip);

/// A time as libavfilter reads it: seconds with six decimals, rounded to the nearest microsecond.
[[nodiscard]] std::string filter_seconds(MediaTime time);

/// The filter chain that draws a scene without end, or a stretch of it on the scene's own clock; it starts
/// with a source, ends in one picture stream and has no labels. What does not move is drawn once, and nothing
/// outside the stretch.
[[nodiscard]] std::string scene_chain(const Scene& scene);
[[nodiscard]] std::string scene_chain(const Scene& scene, TimeRange stretch);

/// Text drawn over the lower part of the picture between two times; lines are parted by LF.
[[nodiscard]] std::string title_filter(std::string_view text, TimeRange when);

}  // namespace panslate::samples
