#pragma once

#include "media/small_picture.h"

namespace panslate::av {

struct PictureMotion {
  float across = 0;  ///< to the right, in widths of the picture
  float down = 0;    ///< in heights
};

/// How far the whole picture moved, told from the means of its columns and rows, finer than one of these;
/// none where they do not tell.
[[nodiscard]] PictureMotion motion_between(const SmallPicture& a, const SmallPicture& b);

}  // namespace panslate::av
