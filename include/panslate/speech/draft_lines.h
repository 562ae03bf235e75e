#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "panslate/base/progress.h"
#include "panslate/base/result.h"
#include "panslate/speech/transcriber.h"

namespace panslate {

/// What is said in a sound of any length, in lines as people read captions: a line ends where the voice
/// pauses, and has at most 12 words. Times are samples of `samples` (16 kHz mono). Memory is that of the
/// samples and of half a minute. Fails as Transcriber::transcribe does, and Cancelled.
[[nodiscard]] Result<std::vector<std::vector<DraftWord>>> draft_lines(std::span<const std::int16_t> samples,
                                                                      Transcriber& transcriber,
                                                                      Progress& progress);

}  // namespace panslate
