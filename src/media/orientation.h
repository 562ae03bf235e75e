#pragma once

#include <cstdint>

struct AVStream;

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

}  // namespace panslate::av
