#pragma once

#include <cstddef>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/speech/transcript.h"

/// What the three readers of captions hand on: cues whose words have no times yet.
namespace panslate {

/// From this byte of the cue's text on, words are spoken at `time`.
struct TimeTag {
  std::size_t offset = 0;
  MediaTime time;
};

struct DraftCue {
  Cue cue;  ///< its id is empty where the file has none
  std::vector<TimeTag> tags;
};

struct DraftTranscript {
  std::vector<DraftCue> cues;
  std::vector<CaptionWarning> warnings;
};

/// Length of speech where the file does not tell when it ends: common practice, no source (150 words a
/// minute).
inline constexpr MediaTime kWordLength = MediaTime::from_ms(400);

}  // namespace panslate
