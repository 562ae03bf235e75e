#pragma once

#include "panslate/media/clip_facts.h"

namespace panslate {

/// Whether the browsers of today play a clip, picture and sound, as its container and codecs go. Where some
/// of them fail all the same, the page notices it by itself.
[[nodiscard]] bool plays_in_browsers(const ClipFacts& facts);

}  // namespace panslate
