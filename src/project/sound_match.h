#pragma once

#include <complex>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/base/media_time.h"

namespace panslate {

/// Finds the same sound in several clips, each pair of them asked for once or more: a tenth of a second at a
/// time over all lags first, then to the hundredth around those that stand out.
class SoundMatch {
 public:
  /// `levels` of each clip as in ClipLog::levels; of a clip longer than an hour, its first hour counts.
  explicit SoundMatch(const std::vector<std::string_view>& levels);

  /// How much later clip `b` begins than clip `a`, where both hold the same sound for at least a few seconds;
  /// empty where they do not.
  [[nodiscard]] std::optional<MediaTime> offset(std::size_t a, std::size_t b);

 private:
  using Complex = std::complex<float>;
  // How the sound of a clip rises and falls.
  struct Movement {
    std::vector<std::int16_t> fine;                        // by the hundredth of a second
    std::vector<float> coarse;                             // by the tenth
    std::map<std::size_t, std::vector<Complex>> spectrum;  // of `coarse`, by the length it was filled up to
  };
  [[nodiscard]] std::optional<MediaTime> find(const Movement& a, const Movement& b,
                                              const std::vector<Complex>& fa,
                                              const std::vector<Complex>& fb) const;
  [[nodiscard]] const std::vector<Complex>& spectrum_of(Movement& movement, std::size_t size,
                                                        std::vector<Complex>& room);

  std::vector<Movement> clips_;
  std::size_t kept_ = 0;  // values in all spectrums
  std::map<std::pair<std::size_t, std::size_t>, std::optional<MediaTime>> found_;
};

}  // namespace panslate
