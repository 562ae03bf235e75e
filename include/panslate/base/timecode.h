#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

/// SMPTE ST 12-1 timecode: labels of frames. Drop-frame skips labels, never frames: at 30000/1001 the labels
/// ;00 and ;01 (at 60000/1001: ;00 to ;03) do not exist at the start of a minute, except every tenth.
/// `HH:MM:SS:FF` is non-drop, `HH:MM:SS;FF` drop-frame.
namespace panslate {

enum class TimecodeMode { NonDrop, Drop };

/// True where drop-frame exists: 30000/1001 and 60000/1001.
[[nodiscard]] bool has_drop_frame(FrameRate rate);

/// Label of a frame counted from label 00:00:00:00; wraps after 24 hours. Drop mode at a rate without it is
/// non-drop.
[[nodiscard]] std::string to_timecode(std::int64_t frame, FrameRate rate, TimecodeMode mode);

/// A label read back.
struct TimecodeLabel {
  std::int64_t frame = 0;  ///< frames since 00:00:00:00
  TimecodeMode mode = TimecodeMode::NonDrop;
};

/// Reads a label; the separator before the frames tells the mode. Fails (Malformed) on a wrong form, a frame
/// number the rate does not have, and labels that drop-frame skips; the message names the nearest valid
/// label.
[[nodiscard]] Result<TimecodeLabel> parse_timecode(std::string_view label, FrameRate rate);

}  // namespace panslate
