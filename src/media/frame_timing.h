#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "panslate/base/media_time.h"

/// Whether pictures come at a constant rate, told from their time stamps alone.
namespace panslate::av {

struct FrameTiming {
  FrameRate rate;  ///< exact where constant, else the average from first to last picture
  bool variable = false;
};

/// `stamps`: when each picture is shown, in units of num/den seconds, in any order. `declared`: what the
/// header says, which decides between rates that fit equally well. Empty for fewer than two pictures.
///
/// A rate is constant when every gap is within a tenth of the usual one (cameras jitter) or one unit of it
/// (time stamps are rounded to their unit), and no picture is off an even grid by more than half a gap.
[[nodiscard]] std::optional<FrameTiming> measure_timing(std::vector<std::int64_t> stamps, std::int64_t num,
                                                        std::int64_t den,
                                                        const std::vector<FrameRate>& declared);

}  // namespace panslate::av
