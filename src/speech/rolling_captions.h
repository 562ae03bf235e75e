#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"

/// Captions that roll, as automatic ones do: each cue shows the last line of the one before again, and adds
/// to it. The repeated words were spoken once.
namespace panslate {

struct RollingWord {
  std::string_view text;
  bool starts_line = false;
  bool timed = false;  ///< at or after the first time tag of the cue, on the same line or later: newly spoken
};

struct RollingCue {
  TimeRange when;
  std::vector<RollingWord> words;
};

struct RolledCue {
  std::size_t repeated = 0;  ///< so many leading words were already spoken in an earlier cue
  bool rolls = false;        ///< part of a run of rolling captions
};

/// For each cue, how many of its first words repeat the cue before. Words count as repeated only when
/// - they equal the last words of the cue before exactly, and are whole lines in both, or all of the cue
///   before, or at least three words; words that the cue itself gives times to are never repeats;
/// - the cue begins at most half a second after the end of the one before (ten seconds where most of the
///   file rolls);
/// - it goes on: in a run of such cues at least two add new words. Someone who says "Stir it." in two cues
///   has said it twice.
[[nodiscard]] std::vector<RolledCue> find_rolling(const std::vector<RollingCue>& cues);

}  // namespace panslate
