#pragma once

#include <string_view>
#include <vector>

#include "panslate/speech/webvtt.h"

namespace panslate {

/// "Parse the WebVTT cue settings" (section 6.3): what is not understood is passed over.
void parse_vtt_cue_settings(std::string_view input, const std::vector<VttRegion>& regions, VttCue& cue);

/// "Collect WebVTT region settings" (section 6.2).
[[nodiscard]] VttRegion parse_vtt_region(std::string_view input);

}  // namespace panslate
