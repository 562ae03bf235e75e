#include "media/orientation.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <numbers>
#include <utility>

#include "media/av.h"

namespace panslate::av {

namespace {
// A pixel more than this many times wider than high is a damaged header.
constexpr std::int64_t kOddestPixel = 8;
}  // namespace

Orientation orientation_of(const std::int32_t (&matrix)[9]) {
  // A stored point (x, y), y downwards, is shown at (a·x + c·y, b·x + d·y).
  const double a = matrix[0];
  const double b = matrix[1];
  const double c = matrix[3];
  const double d = matrix[4];
  const double determinant = a * d - b * c;
  if (determinant == 0) return {};
  Orientation found;
  found.mirrored = determinant < 0;
  // Mirrored pictures are turned first: undo the flip of x before reading the angle.
  const double angle = std::atan2(b, found.mirrored ? -a : a) * 180 / std::numbers::pi;
  const double quarters = std::round(angle / 90);
  found.odd = std::abs(angle - quarters * 90) > 1;
  found.rotation = ((static_cast<int>(quarters) % 4 + 4) % 4) * 90;
  return found;
}

Orientation orientation_of(const AVStream& stream) {
  std::size_t size = 0;
  const std::uint8_t* data = av_stream_get_side_data(&stream, AV_PKT_DATA_DISPLAYMATRIX, &size);
  std::int32_t matrix[9] = {};
  if (data == nullptr || size < sizeof matrix) return {};
  std::memcpy(matrix, data, sizeof matrix);
  return orientation_of(matrix);
}

ShownSize shown_size(int width, int height, const AVRational& pixel, int rotation) {
  ShownSize size{width, height, false};
  if (pixel.num > 0 && pixel.den > 0) {
    const std::int64_t num = pixel.num;
    const std::int64_t den = pixel.den;
    size.odd_pixel = num > den * kOddestPixel || den > num * kOddestPixel;
    if (!size.odd_pixel)
      size.width = static_cast<int>(std::max<std::int64_t>(1, av_rescale(width, num, den)));
  }
  if (rotation % 180 != 0) std::swap(size.width, size.height);
  return size;
}

}  // namespace panslate::av
