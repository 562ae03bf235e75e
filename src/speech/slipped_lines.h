#pragma once

#include <cstdint>
#include <span>

#include "panslate/base/progress.h"

#include "speech/script_takes.h"

namespace panslate {

/// Lines in which another amount is said than the script has may not be known as themselves: the longer the
/// amount, the more the line sounds like something else. Where something is said between lines that are
/// known, it is listened for those that are missing there, whatever is said for their amounts.
[[nodiscard]] Status find_slipped_lines(FoundTakes& found, std::span<const ScriptLine> script,
                                        std::span<const std::int16_t> samples, Recogniser& recogniser,
                                        PronouncingDictionary& dictionary, Progress& progress);

}  // namespace panslate
