#include "media/picture_motion.h"

#include <cmath>
#include <cstddef>
#include <vector>

namespace panslate::av {

namespace {

// Mean difference of two profiles, each less its own mean, one of them moved.
template <std::size_t Count>
float difference_at(const std::array<float, Count>& a, const std::array<float, Count>& b, float offset,
                    int shift) {
  const auto bins = static_cast<int>(Count);
  const int from = std::max(0, shift);
  const int to = std::min(bins, bins + shift);
  float sum = 0;
  for (int i = from; i < to; ++i)
    sum += std::abs(b[static_cast<std::size_t>(i)] - a[static_cast<std::size_t>(i - shift)] - offset);
  return sum / static_cast<float>(to - from);
}

template <std::size_t Count>
float shift_between(const std::array<float, Count>& a, const std::array<float, Count>& b, int reach) {
  float mean_a = 0;
  float mean_b = 0;
  for (std::size_t i = 0; i < Count; ++i) {
    mean_a += a[i] / static_cast<float>(Count);
    mean_b += b[i] / static_cast<float>(Count);
  }
  const float offset = mean_b - mean_a;
  const int shifts = 2 * reach + 1;
  std::vector<float> found(static_cast<std::size_t>(shifts));
  std::size_t best = static_cast<std::size_t>(reach);
  for (int shift = -reach; shift <= reach; ++shift) {
    const int index = shift + reach;
    const auto i = static_cast<std::size_t>(index);
    found[i] = difference_at(a, b, offset, shift);
    if (found[i] < found[best] * 0.999F) best = i;
  }
  // A profile without features fits anywhere.
  float usual = 0;
  for (const float one : found) usual += one / static_cast<float>(found.size());
  if (usual < 0.5F || found[best] > 0.7F * usual || best == 0 || best + 1 == found.size()) return 0;
  const float left = found[best - 1];
  const float right = found[best + 1];
  const float bend = left + right - 2 * found[best];
  const float fine = bend > 0 ? 0.5F * (left - right) / bend : 0;
  return (static_cast<float>(best) - static_cast<float>(reach) + fine) / static_cast<float>(Count);
}

}  // namespace

PictureMotion motion_between(const SmallPicture& a, const SmallPicture& b) {
  return {shift_between(a.columns, b.columns, 60), shift_between(a.rows, b.rows, 24)};
}

}  // namespace panslate::av
