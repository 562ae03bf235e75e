#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>

#include "panslate/speech/webvtt.h"

namespace panslate {

/// Where the last region of each id stands in VttFile::regions.
using VttRegionIndex = std::unordered_map<std::string, std::size_t>;

/// "Parse the WebVTT cue settings" (section 6.3): what is not understood is passed over.
void parse_vtt_cue_settings(std::string_view input, const VttRegionIndex& regions, VttCue& cue);

/// "Collect WebVTT region settings" (section 6.2).
[[nodiscard]] VttRegion parse_vtt_region(std::string_view input);

}  // namespace panslate
