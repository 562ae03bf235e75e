#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "panslate/base/media_time.h"

/// Where somebody speaks, told from the sound alone.
namespace panslate::av {

/// What is kept of the sound for this, one entry for each hundredth of a second.
struct VoiceTrack {
  std::string level;    ///< of the voice's band (200 to 3800 Hz): half decibels up from -127, as levels
  std::string voicing;  ///< how much it repeats itself at the pitch of a voice, 0 to 255
};

/// Listens to 16-bit sound at 8 kHz.
class VoiceWatch {
 public:
  static constexpr int kRate = 8000;
  /// Samples that follow those before.
  void add(const std::vector<std::int16_t>& samples);
  /// Nothing until `hundredths` of a second are full.
  void skip_to(std::size_t hundredths);
  [[nodiscard]] const VoiceTrack& track() const { return track_; }

 private:
  static constexpr std::size_t kHop = kRate / 100;
  void hop();

  std::vector<float> band_;  // filtered, the last stretch of it
  std::size_t fresh_ = 0;    // samples since the last hop
  float before_ = 0;         // of the high pass
  float high_ = 0;
  VoiceTrack track_;
};

[[nodiscard]] std::vector<TimeRange> speech_stretches(const VoiceTrack& track);

/// Half decibels up from -127 dBFS as levels are kept; 0 for nothing.
[[nodiscard]] std::uint8_t level_byte(double mean_square);
[[nodiscard]] double level_decibels(std::uint8_t level);

}  // namespace panslate::av
