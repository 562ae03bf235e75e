#pragma once

#include <string>

#include "panslate/check/listening.h"

namespace panslate {

/// The draft of what is said in a clip, as WebVTT for her to put right: a note says what it is and what to do
/// (kDraftMark), each line is a cue, and word-time tags keep when each word is spoken.
[[nodiscard]] std::string draft_captions(const Listening& draft);

}  // namespace panslate
