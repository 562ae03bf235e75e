#pragma once

#include <string_view>

#include "speech/draft_cue.h"

namespace panslate {

/// The cues of a decoded WebVTT text as plain text; reading aids (rt) are left out, since they say the same
/// words again.
[[nodiscard]] DraftTranscript read_webvtt(std::string_view text);

}  // namespace panslate
