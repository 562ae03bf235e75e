#pragma once

#include <vector>

#include "panslate/media/clip_log.h"

#include "media/frame_note.h"

namespace panslate::av {

/// What is wrong with the picture, and where: black, frozen, blurred, shaky, too dark, too bright stretches,
/// and gaps between frames. `end`: of the last frame.
[[nodiscard]] std::vector<ClipFault> picture_faults(const std::vector<FrameNote>& notes, MediaTime end);

}  // namespace panslate::av
