#pragma once

#include <cstdint>

struct AVStream;
struct AVRational;

namespace panslate::av {

/// How a stored picture is brought upright: turned clockwise, then mirrored left to right.
struct Orientation {
  int rotation = 0;  ///< 0, 90, 180, 270
  bool mirrored = false;
  bool odd = false;  ///< the file asks for a turn that is no quarter turn; the nearest is taken
};

/// From the nine numbers of a display matrix (16.16 fixed point, the last column 2.30).
[[nodiscard]] Orientation orientation_of(const std::int32_t (&matrix)[9]);

/// What a stream says about itself; upright as stored when it says nothing or nonsense.
[[nodiscard]] Orientation orientation_of(const AVStream& stream);

/// A picture's size as a viewer sees it, in square pixels.
struct ShownSize {
  int width = 0;
  int height = 0;
  bool odd_pixel = false;  ///< the file gives its pixels an impossible shape; they are taken as square
};

/// `pixel`: width over height of one stored pixel; 0/1 is unknown, taken as square. The height stays, as
/// usual.
[[nodiscard]] ShownSize shown_size(int width, int height, const AVRational& pixel, int rotation);

}  // namespace panslate::av
