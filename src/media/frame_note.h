#pragma once

#include <cstdint>
#include <vector>

#include "panslate/base/media_time.h"

namespace panslate::av {

/// What is kept of each frame of a clip until all of them are known.
struct FrameNote {
  MediaTime time;
  float mean = 0;    ///< of the luma, 0 to 255
  float spread = 0;  ///< its standard deviation
  float cb = 128;    ///< means of the chroma
  float cr = 128;
  float sharpness = 0;  ///< see SmallPicture
  // Against the frame before:
  float still = 0;     ///< still_distance
  float moved = 0;     ///< moved_distance
  float colour = 0;    ///< colour_distance
  float likeness = 1;  ///< likeness_in_place
  float lasting = 0;   ///< the least moved_distance between those shortly before and those shortly after
  float lasting_colour = 0;
  float across = 0;  ///< motion of the whole picture to the right, in widths
  float down = 0;    ///< … and down, in heights
};

/// A stretch in which one picture turns into another: frames from `first`, which is still the old one, to
/// `last`, which is the new one.
struct Blend {
  std::int64_t first = 0;
  std::int64_t last = 0;
  float change = 0;    ///< how far apart its ends are, 0 to 255
  float residual = 0;  ///< of that, what is no mixture of the two
};

}  // namespace panslate::av
