#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace panslate {

/// Loudness drawn as one shape for an SVG path: mirrored about the middle of a box `width` wide and 100 high.
/// `peaks` (0 to 255) stand side by side; a quiet room is a thin line, never nothing.
[[nodiscard]] std::string wave_path(std::span<const std::uint8_t> peaks, double width);

}  // namespace panslate
