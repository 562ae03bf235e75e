#pragma once

#include "panslate/base/media_time.h"

namespace panslate {

/// A moment as the page has it: seconds, to the millisecond.
[[nodiscard]] inline double clip_seconds(MediaTime time) {
  return static_cast<double>(time.to_ms(Round::Nearest)) / 1000.0;
}

}  // namespace panslate
