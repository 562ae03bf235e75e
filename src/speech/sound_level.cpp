#include "speech/sound_level.h"

#include <algorithm>
#include <cmath>

namespace panslate {

namespace {

constexpr double kLeast = -100.0;
constexpr double kFullScale = 32768.0;
// One pole, 3 dB down at 40 Hz: below any voice.
constexpr double kHumPole = 0.9844;

double decibels(double power) {
  return power <= 1e-10 ? kLeast : 10.0 * std::log10(power);
}

// Steps of this share are below; the steps are reordered.
float quantile(std::vector<float>& steps, double share) {
  const auto at = steps.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(steps.size() - 1));
  std::nth_element(steps.begin(), at, steps.end());
  return *at;
}

}  // namespace

SoundLevel::SoundLevel(std::span<const std::int16_t> samples) {
  steps_.reserve(samples.size() / kLevelStep + 1);
  double before = samples.empty() ? 0.0 : samples.front() / kFullScale;
  double high = 0.0;
  for (std::size_t at = 0; at < samples.size(); at += kLevelStep) {
    const auto count = std::min<std::size_t>(kLevelStep, samples.size() - at);
    double power = 0.0;
    for (std::size_t i = at; i < at + count; ++i) {
      const double sample = samples[i] / kFullScale;
      high = kHumPole * (high + sample - before);
      before = sample;
      power += high * high;
    }
    steps_.push_back(static_cast<float>(decibels(power / static_cast<double>(count))));
  }
  if (steps_.empty()) return;
  auto sorted = steps_;
  floor_ = quantile(sorted, 0.03);
  speech_ = quantile(sorted, 0.9);
}

std::int64_t SoundLevel::quietest(SoundSpan span) const {
  const auto first = std::clamp<std::int64_t>(span.begin / kLevelStep, 0, std::ssize(steps_));
  const auto last = std::clamp<std::int64_t>(span.end / kLevelStep, first, std::ssize(steps_));
  const auto step = [this](std::int64_t at) { return steps_[static_cast<std::size_t>(at)]; };
  const double quiet = floor_ + 0.25 * (speech_ - floor_);
  std::int64_t best = (first + last) / 2;
  std::int64_t longest = 0;
  for (std::int64_t at = first, run = 0; at < last; ++at) {
    run = step(at) <= quiet ? run + 1 : 0;
    if (run > longest) {
      longest = run;
      best = at - run / 2;
    }
  }
  constexpr std::int64_t kMoment = 5;
  if (longest >= kMoment || last - first < kMoment) return best * kLevelStep;
  double least = 0.0;
  for (std::int64_t at = first; at + kMoment <= last; ++at) {
    double sum = 0.0;
    for (std::int64_t i = 0; i < kMoment; ++i) sum += step(at + i);
    if (at == first || sum < least) {
      least = sum;
      best = at + kMoment / 2;
    }
  }
  return best * kLevelStep;
}

double SoundLevel::power(SoundSpan span) const {
  const auto first = std::clamp<std::int64_t>(span.begin / kLevelStep, 0, std::ssize(steps_));
  const auto last =
      std::clamp<std::int64_t>((span.end + kLevelStep - 1) / kLevelStep, first, std::ssize(steps_));
  double sum = 0.0;
  for (auto at = first; at < last; ++at) sum += std::pow(10.0, steps_[static_cast<std::size_t>(at)] / 10.0);
  return first == last ? kLeast : decibels(sum / static_cast<double>(last - first));
}

}  // namespace panslate
