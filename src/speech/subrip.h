#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/base/media_time.h"

#include "speech/draft_cue.h"

/// SubRip, as players read it: there is no standard, only what is found in files.
namespace panslate {

/// `00:00:01,000 --> 00:00:04,000`, with what may follow (coordinates); a full stop for the comma, one to
/// three digits a place, hours left out, `->` for the arrow.
[[nodiscard]] std::optional<TimeRange> parse_subrip_times(std::string_view line);

/// Reads a decoded text. Cues are what follows a line with times; their counters become ids ("c12").
[[nodiscard]] DraftTranscript read_subrip(std::string_view text);

/// Text of a cue without tags (`<i>`, `<font …>`), position codes (`{\an8}`) and escapes; time tags are kept
/// as such.
[[nodiscard]] DraftCue strip_subrip_tags(std::string_view raw);

}  // namespace panslate
