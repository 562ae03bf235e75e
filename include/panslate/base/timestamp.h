#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "panslate/base/media_time.h"

/// Times as people and files write them. There is one writer and one reader; the formats differ in a
/// separator.
namespace panslate {

enum class TimestampStyle {
  Clock,   ///< 00:01:02.345  WebVTT and the project file
  Comma,   ///< 00:01:02,345  SubRip
  Centi,   ///< 0:01:02.34    ASS
  Spoken,  ///< 1:02 or 1:01:02, whole seconds rounded down: what people read
};

/// Negative times are written as zero: no file format here has them. `round` is how the last place is
/// reached.
[[nodiscard]] std::string format_timestamp(MediaTime time, TimestampStyle style,
                                           Round round = Round::Nearest);

/// Reads [h…:]m…:ss[.fff] or [h…:]m…:ss[,fff] with 1 to 9 decimals, the whole of `text`; minutes and seconds
/// up to 59 where a larger unit stands before them. Empty when it is anything else.
[[nodiscard]] std::optional<MediaTime> parse_timestamp(std::string_view text);

}  // namespace panslate
