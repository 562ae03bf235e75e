#pragma once

#include "media/small_picture.h"

/// How unlike two pictures are, whatever moved between them and however the exposure changed.
namespace panslate::av {

/// Mean difference of the luma grids, place by place, 0 to 255.
[[nodiscard]] float still_distance(const SmallPicture& a, const SmallPicture& b);

/// What of `b` is not in `a`, up to the whole picture moving by a fifth of its width, parts of it moving
/// apart, and a change of exposure: 0 for the same view, about 1 for pictures with nothing in common.
[[nodiscard]] float moved_distance(const SmallPicture& a, const SmallPicture& b);

/// Difference of their colours and greys, wherever those stand in the picture: 0 to 1.
[[nodiscard]] float colour_distance(const SmallPicture& a, const SmallPicture& b);

/// Correlation of the luma grids, -1 to 1; 0 where one of them is flat.
[[nodiscard]] float likeness_in_place(const SmallPicture& a, const SmallPicture& b);

}  // namespace panslate::av
