#include "speech/sphinx_sound.h"

#include <algorithm>
#include <cmath>
#include <mutex>

#include <sphinxbase/err.h>

namespace panslate {

namespace {

constexpr double kFaint = 0.0056;  // -45 dB

}  // namespace

std::vector<std::int16_t> with_faint_noise(std::span<const std::int16_t> samples) {
  double power = 0.0;
  for (const auto sample : samples) power += double{1} * sample * sample;
  const double level = std::sqrt(power / static_cast<double>(samples.size()));
  const double width = std::max(level * kFaint, 1.0) * std::sqrt(12.0);
  std::uint32_t state = 1;
  std::vector<std::int16_t> out;
  out.reserve(samples.size());
  for (const auto sample : samples) {
    state = state * 1664525U + 1013904223U;  // Numerical Recipes' generator
    const double noise = width * (state / 4294967296.0 - 0.5);
    out.push_back(static_cast<std::int16_t>(std::clamp(std::lround(sample + noise), -32768L, 32767L)));
  }
  return out;
}

void silence_the_log() {
  static std::once_flag once;
  std::call_once(once, [] { err_set_logfp(nullptr); });
}

}  // namespace panslate
