#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

/// How loud sound is over time, and where it pauses. Sound as in recogniser.h.
namespace panslate {

inline constexpr std::int64_t kLevelStep = 160;  ///< samples: 10 ms

/// Samples of a sound, half-open.
struct SoundSpan {
  std::int64_t begin = 0;
  std::int64_t end = 0;

  [[nodiscard]] std::int64_t length() const { return end - begin; }
};

class SoundLevel {
 public:
  explicit SoundLevel(std::span<const std::int16_t> samples);

  /// Mean power of each 10 ms in dB below full scale, without rumble (below 40 Hz); -100 at the least.
  [[nodiscard]] const std::vector<float>& steps() const { return steps_; }
  [[nodiscard]] double floor() const { return floor_; }    ///< dB: how loud pauses are
  [[nodiscard]] double speech() const { return speech_; }  ///< dB: how loud the loud parts are

  /// The quietest moment (a sample) in a span: the middle of the longest run of steps near the floor, else
  /// the quietest 50 ms.
  [[nodiscard]] std::int64_t quietest(SoundSpan span) const;

  /// Mean power of a span in dB; -100 when it is empty.
  [[nodiscard]] double power(SoundSpan span) const;

 private:
  std::vector<float> steps_;
  double floor_ = -100.0;
  double speech_ = -100.0;
};

}  // namespace panslate
