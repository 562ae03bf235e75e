#include "speech/word_boundary.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace panslate {

namespace {

constexpr std::int64_t kStep = 16;   // 1 ms
constexpr std::int64_t kReach = 8;   // steps to either side: a frame's worth
constexpr std::int64_t kWindow = 5;  // steps compared before and after
constexpr double kClearChange = 9;   // dB: a stop, a breath, silence

// The steepest change of loudness near a boundary, where there is a clear one.
std::int64_t nearest_change(std::span<const std::int16_t> samples, std::int64_t at) {
  const auto size = static_cast<std::int64_t>(samples.size());
  const auto first = at - (kReach + kWindow) * kStep;
  constexpr std::size_t kSteps = static_cast<std::size_t>(2 * (kReach + kWindow));
  if (first < 0 || first + static_cast<std::int64_t>(kSteps) * kStep > size) return at;
  std::array<double, kSteps> power{};
  for (std::size_t s = 0; s < kSteps; ++s) {
    double sum = 1;
    for (std::int64_t i = 0; i < kStep; ++i) {
      const double sample =
          samples[static_cast<std::size_t>(first + static_cast<std::int64_t>(s) * kStep + i)];
      sum += sample * sample;
    }
    power[s] = sum;
  }
  double best = 0;
  std::int64_t where = 0;
  for (std::int64_t d = -kReach; d <= kReach; ++d) {
    double before = 0;
    double after = 0;
    for (std::int64_t w = 0; w < kWindow; ++w) {
      before += power[static_cast<std::size_t>(kReach + kWindow + d - 1 - w)];
      after += power[static_cast<std::size_t>(kReach + kWindow + d + w)];
    }
    const double change = std::abs(10 * std::log10(after / before)) - 0.3 * std::abs(static_cast<double>(d));
    if (change > best) {
      best = change;
      where = d;
    }
  }
  return best >= kClearChange ? at + where * kStep : at;
}

}  // namespace

void refine(std::vector<PlacedWord>& words, std::span<const std::int16_t> samples) {
  const auto length = std::ssize(samples);
  std::vector<std::int64_t> ends;
  ends.reserve(words.size());
  for (const auto& word : words) ends.push_back(word.when.end);
  for (std::size_t i = 0; i < words.size(); ++i) {
    auto& when = words[i].when;
    const bool joined = i > 0 && ends[i - 1] == when.begin;
    const SoundSpan moved{nearest_change(samples, std::min(when.begin, length)),
                          nearest_change(samples, std::min(when.end, length))};
    if (moved.begin >= moved.end) continue;
    when = moved;
    // Words that touch go on touching.
    if (joined || (i > 0 && words[i - 1].when.end > when.begin)) words[i - 1].when.end = when.begin;
  }
}

}  // namespace panslate
