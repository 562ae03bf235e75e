#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "panslate/base/progress.h"
#include "panslate/base/result.h"
#include "panslate/media/clip_facts.h"

namespace panslate {

/// Probes files two at a time; results stand in the order of `files`, whichever was ready first. Cancelled
/// where the user stopped it. `progress` is told of each file, from one thread at a time.
[[nodiscard]] Result<std::vector<Result<ClipFacts>>> probe_all(
    const std::vector<std::filesystem::path>& files, Progress& progress);

}  // namespace panslate
