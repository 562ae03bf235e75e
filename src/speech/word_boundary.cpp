#include "speech/word_boundary.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace panslate {

namespace {

constexpr std::int64_t kStep = kSpeechRate / 500;  // 2 ms
constexpr std::size_t kWindow = 128;               // 8 ms
constexpr std::size_t kBins = 44;                  // of 125 Hz: to 5.5 kHz
constexpr std::size_t kBands = 8;
// Bins in a band, about equally wide to the ear (after Traunmüller's Bark scale, 1990).
constexpr std::array<std::size_t, kBands + 1> kEdges{1, 3, 5, 8, 12, 17, 24, 33, kBins};
constexpr std::int64_t kReach = 15;  // steps on either side in which a boundary is looked for: 30 ms
constexpr std::int64_t kSide = 6;    // steps compared on either side of a boundary: 12 ms
constexpr std::int64_t kSteps = 2 * (kReach + kSide);
constexpr double kGuess = 5.0;   // steps: how far off the recogniser's boundary usually is
constexpr double kFaint = 1e-4;  // of a take's mean power (-40 dB): changes below it are none
constexpr double kPeak = 0.7;    // the middle of what changes this much of the most is the boundary

using Bands = std::array<double, kBands>;

struct Tables {
  std::array<double, kWindow> window{};
  std::array<double, kWindow> cosine{};
  std::array<double, kWindow> sine{};

  Tables() {
    for (std::size_t i = 0; i < kWindow; ++i) {
      const double turn = 2.0 * std::numbers::pi * static_cast<double>(i) / kWindow;
      window[i] = 0.5 - 0.5 * std::cos(turn);
      cosine[i] = std::cos(turn);
      sine[i] = std::sin(turn);
    }
  }
};

// How loud each band is, in nepers, in a window around a sample.
Bands bands_at(std::span<const std::int16_t> samples, std::int64_t middle, double faint) {
  static const Tables tables;
  std::array<double, kWindow> sound{};
  for (std::size_t i = 0; i < kWindow; ++i) {
    const auto at = middle - static_cast<std::int64_t>(kWindow / 2) + static_cast<std::int64_t>(i);
    if (at >= 0 && at < std::ssize(samples))
      sound[i] = tables.window[i] * samples[static_cast<std::size_t>(at)];
  }
  Bands bands{};
  for (std::size_t band = 0; band < kBands; ++band) {
    double power = 0.0;
    for (auto bin = kEdges[band]; bin < kEdges[band + 1]; ++bin) {
      double real = 0.0;
      double imaginary = 0.0;
      for (std::size_t i = 0; i < kWindow; ++i) {
        real += sound[i] * tables.cosine[bin * i % kWindow];
        imaginary += sound[i] * tables.sine[bin * i % kWindow];
      }
      power += real * real + imaginary * imaginary;
    }
    bands[band] = 0.5 * std::log(power + faint);
  }
  return bands;
}

// Where the sound changes most near a sample: the recogniser's boundary counts as a guess that is off by
// kGuess steps or so.
std::int64_t refined(std::int64_t boundary, std::span<const std::int16_t> samples, double faint) {
  std::array<Bands, kSteps + 1> bands;
  for (std::int64_t i = 0; i <= kSteps; ++i)
    bands[static_cast<std::size_t>(i)] = bands_at(samples, boundary + (i - kSteps / 2) * kStep, faint);
  double weight = 0.0;
  double sum = 0.0;
  double most = 0.0;
  std::array<double, 2 * kReach + 1> change{};
  for (std::int64_t t = -kReach; t <= kReach; ++t) {
    double apart = 0.0;
    for (std::size_t band = 0; band < kBands; ++band) {
      double difference = 0.0;
      for (std::int64_t i = 0; i < kSide; ++i)
        difference += bands[static_cast<std::size_t>(t + kSteps / 2 + 1 + i)][band] -
                      bands[static_cast<std::size_t>(t + kSteps / 2 - 1 - i)][band];
      apart += difference * difference;
    }
    change[static_cast<std::size_t>(t + kReach)] =
        std::sqrt(apart) * std::exp(-0.5 * static_cast<double>(t * t) / (kGuess * kGuess));
    most = std::max(most, change[static_cast<std::size_t>(t + kReach)]);
  }
  for (std::int64_t t = -kReach; t <= kReach; ++t) {
    const double c = change[static_cast<std::size_t>(t + kReach)];
    if (c < kPeak * most) continue;
    weight += c;
    sum += c * static_cast<double>(t);
  }
  return weight == 0.0 ? boundary : boundary + std::llround(sum / weight * static_cast<double>(kStep));
}

}  // namespace

void refine(std::vector<PlacedWord>& words, std::span<const std::int16_t> samples) {
  if (words.empty()) return;
  const auto length = std::ssize(samples);
  const auto first = std::clamp<std::int64_t>(words.front().when.begin, 0, length);
  const auto last = std::clamp<std::int64_t>(words.back().when.end, first, length);
  double power = 1.0;
  for (const auto sample :
       samples.subspan(static_cast<std::size_t>(first), static_cast<std::size_t>(last - first)))
    power += double{1} * sample * sample / static_cast<double>(last - first);
  const double faint = power * kWindow * kFaint;
  for (std::size_t i = 0; i < words.size(); ++i) {
    auto& word = words[i];
    const bool touches = i > 0 && words[i - 1].when.end == word.when.begin;
    // No word begins before the one before it, nor ends after the next one begins.
    const auto least = i > 0 ? words[i - 1].when.begin + 1 : 0;
    word.when.begin =
        std::clamp(refined(word.when.begin, samples, faint), least, std::max(least, word.when.end - 1));
    word.when.end = std::max(word.when.end, word.when.begin + 1);
    if (i > 0)
      words[i - 1].when.end = touches ? word.when.begin : std::min(words[i - 1].when.end, word.when.begin);
  }
}

}  // namespace panslate
