#include "media/hum_watch.h"

#include <array>
#include <cmath>
#include <numbers>

namespace panslate::av {

namespace {

constexpr int kFewer = 8;  // 8 kHz to 1 kHz
constexpr double kRate = 1000;
constexpr std::size_t kWindow = 2000;
// Common practice, no source: a tone stands out by so much of what is beside it, and is loud enough to hear.
constexpr double kStandsOut = 25;  // 14 dB
constexpr double kAudible = 1e-7;  // -70 dBFS
constexpr int kMultiples = 5;
constexpr int kLeastMultiples = 2;

// Power of one frequency (Goertzel's algorithm), under a window that falls off to both ends.
double power_at(const std::vector<float>& samples, double frequency) {
  const double turn = 2 * std::numbers::pi * frequency / kRate;
  const double factor = 2 * std::cos(turn);
  double before = 0;
  double last = 0;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const double fall = 0.5 - 0.5 * std::cos(2 * std::numbers::pi * static_cast<double>(i) /
                                             static_cast<double>(samples.size()));
    const double now = fall * samples[i] + factor * last - before;
    before = last;
    last = now;
  }
  const double power = last * last + before * before - factor * last * before;
  const auto size = static_cast<double>(samples.size());
  return power * 8 / (size * size);
}

bool hums_at(const std::vector<float>& samples, double mains) {
  int multiples = 0;
  for (int k = 1; k <= kMultiples; ++k) {
    const double frequency = mains * k;
    const double here = power_at(samples, frequency);
    if (here < kAudible) continue;
    double beside = 1e-12;
    for (const double off : {-9.0, -7.0, -5.0, 5.0, 7.0, 9.0})
      beside += power_at(samples, frequency + off) / 6;
    if (here > kStandsOut * beside) ++multiples;
  }
  return multiples >= kLeastMultiples;
}

}  // namespace

void HumWatch::add(const std::vector<std::int16_t>& samples) {
  for (const auto sample : samples) {
    sum_ += static_cast<float>(sample) / 32768.0F;
    if (++summed_ < kFewer) continue;
    window_.push_back(sum_ / kFewer);
    sum_ = 0;
    summed_ = 0;
    if (window_.size() < kWindow) continue;
    look();
    window_.clear();
  }
}

void HumWatch::look() {
  ++windows_;
  if (hums_at(window_, 50)) ++at_50_;
  if (hums_at(window_, 60)) ++at_60_;
}

int HumWatch::found() const {
  if (windows_ < 2) return 0;
  if (at_50_ * 3 > windows_ * 2) return 50;
  return at_60_ * 3 > windows_ * 2 ? 60 : 0;
}

}  // namespace panslate::av
