#pragma once

#include <filesystem>
#include <string>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

namespace panslate {

/// One picture of a clip as JPEG bytes: upright, square pixels.
struct Still {
  std::string jpeg;
  int width = 0;
  int height = 0;
  MediaTime time;  ///< of the frame taken, on the clip's clock
};

/// The frame shown at `time` of the clip's clock (found by seeking, then decoding forward), scaled down to at
/// most `longest_side` pixels. A time past the end gives the last frame. Fails with NotMedia where there is
/// no picture or it cannot be decoded.
[[nodiscard]] Result<Still> take_still(const std::filesystem::path& file, MediaTime time, int longest_side);

}  // namespace panslate
