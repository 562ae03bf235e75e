#include "media/speech_stretches.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace panslate::av {

namespace {

constexpr std::size_t kWindow = 256;  // 32 ms: two periods of a low voice
constexpr std::size_t kShortestPeriod = VoiceWatch::kRate / 400;
constexpr std::size_t kLongestPeriod = VoiceWatch::kRate / 75;
constexpr float kHighPass = 0.86F;  // 200 Hz at 8 kHz

// In hundredths of a second. Common practice, no source.
constexpr std::size_t kNoiseWindow = 600;
constexpr std::size_t kBridged = 35;  // a pause within a sentence
constexpr std::size_t kShortestSpeech = 18;
constexpr std::size_t kLeastVoiced = 7;
constexpr int kVoiced = 130;  // of 255

}  // namespace

std::uint8_t level_byte(double mean_square) {
  if (mean_square <= 0) return 0;
  return static_cast<std::uint8_t>(std::clamp(2 * (10 * std::log10(mean_square) + 127) + 0.5, 0.0, 255.0));
}

double level_decibels(std::uint8_t level) {
  return level / 2.0 - 127;
}

void VoiceWatch::add(const std::vector<std::int16_t>& samples) {
  for (const auto sample : samples) {
    const float in = static_cast<float>(sample) / 32768.0F;
    high_ = kHighPass * (high_ + in - before_);
    before_ = in;
    band_.push_back(high_);
    if (++fresh_ == kHop) hop();
  }
}

void VoiceWatch::skip_to(std::size_t hundredths) {
  band_.clear();
  fresh_ = 0;
  before_ = 0;
  high_ = 0;
  if (track_.level.size() >= hundredths) return;
  track_.level.resize(hundredths);
  track_.voicing.resize(hundredths);
}

void VoiceWatch::hop() {
  fresh_ = 0;
  double power = 0;
  for (std::size_t i = band_.size() - kHop; i < band_.size(); ++i)
    power += static_cast<double>(band_[i]) * band_[i];
  track_.level.push_back(static_cast<char>(level_byte(power / kHop)));
  // Every second one is enough: voices do not change faster.
  const bool measure = track_.voicing.size() % 2 == 0;
  float best = 0;
  const std::size_t needed = kWindow + kLongestPeriod;
  if (!measure && !track_.voicing.empty()) {
    best = static_cast<float>(static_cast<std::uint8_t>(track_.voicing.back())) / 255;
  } else if (band_.size() >= needed && power > 1e-9) {
    const float* end = band_.data() + band_.size();
    const float* now = end - kWindow;
    float energy = 1e-9F;
    for (std::size_t i = 0; i < kWindow; ++i) energy += now[i] * now[i];
    for (std::size_t period = kShortestPeriod; period <= kLongestPeriod; ++period) {
      const float* then = now - period;
      float product = 0;
      float other = 1e-9F;
      for (std::size_t i = 0; i < kWindow; ++i) {
        product += now[i] * then[i];
        other += then[i] * then[i];
      }
      best = std::max(best, product / std::sqrt(energy * other));
    }
  }
  track_.voicing.push_back(static_cast<char>(static_cast<std::uint8_t>(std::clamp(best, 0.0F, 1.0F) * 255)));
  if (band_.size() > 4 * needed)
    band_.erase(band_.begin(), band_.end() - static_cast<std::ptrdiff_t>(needed));
}

namespace {

int level_at(const VoiceTrack& track, std::size_t i) {
  return static_cast<std::uint8_t>(track.level[i]);
}

int quantile(const std::array<int, 256>& counts, int total, double share) {
  const double wanted = share * total;
  int sum = 0;
  for (int level = 0; level < 256; ++level) {
    sum += counts.at(static_cast<std::size_t>(level));
    if (sum > wanted) return level;
  }
  return 255;
}

// The noise of the room and the loudness of what is loud, around each half second.
struct Surroundings {
  int noise = 0;
  int loud = 0;
};

std::vector<Surroundings> surroundings(const VoiceTrack& track) {
  constexpr std::size_t kStep = 50;
  std::vector<Surroundings> out;
  const auto size = track.level.size();
  for (std::size_t at = 0; at < size; at += kStep) {
    std::array<int, 256> counts{};
    int total = 0;
    for (std::size_t i = at > kNoiseWindow ? at - kNoiseWindow : 0; i < std::min(size, at + kNoiseWindow);
         ++i) {
      const int level = level_at(track, i);
      if (level == 0) continue;  // no sound at all is no room
      ++counts.at(static_cast<std::size_t>(level));
      ++total;
    }
    out.push_back(
        {total == 0 ? 255 : quantile(counts, total, 0.10), total == 0 ? 255 : quantile(counts, total, 0.98)});
  }
  return out;
}

}  // namespace

std::vector<TimeRange> speech_stretches(const VoiceTrack& track) {
  const auto size = std::min(track.level.size(), track.voicing.size());
  const auto around = surroundings(track);
  std::vector<char> active(size);
  std::vector<char> near(size);  // quieter sounds that belong to it
  for (std::size_t i = 0; i < size; ++i) {
    const auto& here = around[i / 50];
    // Half decibels.
    const int above = std::clamp((here.loud - here.noise) / 3, 10, 26);
    // Smoothed over 50 ms.
    int sum = 0;
    int count = 0;
    for (std::size_t k = i > 2 ? i - 2 : 0; k < std::min(size, i + 3); ++k, ++count)
      sum += level_at(track, k);
    const int level = sum / count;
    active[i] = level > here.noise + above ? 1 : 0;
    near[i] = level > here.noise + above * 3 / 5 + 1 ? 1 : 0;
  }
  struct Piece {
    std::size_t begin;
    std::size_t end;
  };
  std::vector<Piece> pieces;
  for (std::size_t i = 0; i < size; ++i) {
    if (active[i] == 0) continue;
    Piece piece{i, i};
    // What is loud is near too.
    while (piece.end < size && near[piece.end] != 0) ++piece.end;
    while (piece.begin > 0 && near[piece.begin - 1] != 0) --piece.begin;
    i = piece.end;
    if (!pieces.empty() && piece.begin <= pieces.back().end + kBridged)
      pieces.back().end = piece.end;
    else
      pieces.push_back(piece);
  }
  std::vector<TimeRange> out;
  for (const auto& piece : pieces) {
    const auto length = piece.end - piece.begin;
    std::size_t voiced = 0;
    for (auto i = piece.begin; i < piece.end; ++i)
      if (active[i] != 0 && static_cast<std::uint8_t>(track.voicing[i]) > kVoiced) ++voiced;
    if (length < kShortestSpeech || voiced < std::max(kLeastVoiced, length / 6)) continue;
    out.push_back({MediaTime::from_ms(static_cast<std::int64_t>(piece.begin) * 10),
                   MediaTime::from_ms(static_cast<std::int64_t>(piece.end) * 10)});
  }
  return out;
}

}  // namespace panslate::av
