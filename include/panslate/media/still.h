#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <span>
#include <string>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

namespace panslate {

/// One picture of a clip as JPEG bytes: upright, square pixels.
struct Still {
  std::string jpeg;
  int width = 0;
  int height = 0;
  MediaTime time;  ///< of the frame taken, on the clip's clock
};

/// The frame shown at `time` of the clip's clock (found by seeking, then decoding forward), scaled down to at
/// most `longest_side` pixels. A time past the end gives the last frame. Fails with NotMedia where there is
/// no picture or it cannot be decoded.
[[nodiscard]] Result<Still> take_still(const std::filesystem::path& file, MediaTime time, int longest_side);

/// A still is never asked for smaller than this on its longest side, in pixels; smaller wishes count as this.
inline constexpr int kSmallestStill = 16;
/// Nor larger than this, which is the largest side that is decoded.
inline constexpr int kLargestStill = 16384;

/// Told of each still as soon as it is there, by its index in the times asked for; returns whether to go on.
using StillTaken = std::function<bool(std::size_t index, Result<Still> still)>;

/// Stills at many times of one clip, which is opened once and read in the order of time, whatever the order
/// of `times`; what lies between two times is decoded only where no picture to start from lies nearer. Each
/// is what take_still gives. Fails where the clip cannot be opened or has no picture; then nothing was told.
[[nodiscard]] Status take_stills(const std::filesystem::path& file, std::span<const MediaTime> times,
                                 int longest_side, const StillTaken& taken);

}  // namespace panslate
