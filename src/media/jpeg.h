#pragma once

#include <string>

#include "panslate/media/still.h"

#include "media/av.h"
#include "media/orientation.h"

namespace panslate::av {

/// How a decoded frame becomes a picture to look at.
struct Development {
  Orientation orientation;
  AVRational pixel{1, 1};  ///< width over height of one stored pixel
  int longest_side = 640;
};

/// Turned upright, square pixels, scaled down, toned down from high dynamic range, and coded as JPEG. `time`
/// stays zero. The place of an error is `file`.
[[nodiscard]] Result<Still> develop(AVFrame& frame, const Development& how,
                                    const std::filesystem::path& file);

}  // namespace panslate::av
