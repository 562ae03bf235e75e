#pragma once

#include <string_view>

#include "speech/draft_cue.h"

namespace panslate {

/// Reads plain text with times before what is said from then on: `[1:05]`, `(1:05)`, `[1:05 - 1:09]`
/// anywhere, `1:05` or `1:05 -` at the start of a line. Speech runs to the next mark, the last as long as its
/// words take. Without a mark there is no cue.
[[nodiscard]] DraftTranscript read_marked_text(std::string_view text);

}  // namespace panslate
