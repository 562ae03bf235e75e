#pragma once

#include <vector>

#include "media/frame_note.h"

namespace panslate::av {

/// Stretches in which one picture turns into another however much moves in both of them: the means of their
/// colours go steadily from the one to the other, and on the way there is less contrast than in either, as
/// where two pictures lie over each other. In the order of time, none within another.
[[nodiscard]] std::vector<Blend> mixed_means(const std::vector<FrameNote>& notes);

}  // namespace panslate::av
