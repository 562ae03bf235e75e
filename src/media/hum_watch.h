#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace panslate::av {

/// Listens for the hum of the mains: steady tones at 50 or 60 Hz and their multiples.
class HumWatch {
 public:
  /// 16-bit sound at 8 kHz that follows what came before.
  void add(const std::vector<std::int16_t>& samples);
  /// 50 or 60 where the clip hums at it for most of the time, else 0.
  [[nodiscard]] int found() const;

 private:
  void look();

  std::vector<float> window_;  // at 1 kHz
  float sum_ = 0;
  int summed_ = 0;
  std::size_t windows_ = 0;
  std::size_t at_50_ = 0;
  std::size_t at_60_ = 0;
};

}  // namespace panslate::av
