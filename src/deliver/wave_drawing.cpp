#include "deliver/wave_drawing.h"

#include <algorithm>
#include <cmath>

namespace panslate {

namespace {

// Louder than a usual narration and it fills the box; soft speech is still seen.
int height_of(int peak) {
  return std::max(1, static_cast<int>(std::lround(48 * std::sqrt(static_cast<double>(peak) / 255))));
}

void append_point(std::string& path, char command, double x, int y) {
  path += command;
  path += std::to_string(std::lround(x));
  path += ' ';
  path += std::to_string(y);
}

}  // namespace

std::string wave_path(std::span<const std::uint8_t> peaks, double width) {
  if (peaks.empty()) return {};
  std::string path;
  const double step = width / static_cast<double>(peaks.size());
  for (std::size_t i = 0; i < peaks.size(); ++i)
    append_point(path, i == 0 ? 'M' : 'L', (static_cast<double>(i) + 0.5) * step, 50 - height_of(peaks[i]));
  for (std::size_t i = peaks.size(); i > 0; --i)
    append_point(path, 'L', (static_cast<double>(i) - 0.5) * step, 50 + height_of(peaks[i - 1]));
  return path + "Z";
}

}  // namespace panslate
