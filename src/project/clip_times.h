#pragma once

#include <optional>
#include <vector>

#include "panslate/media/clip_facts.h"
#include "panslate/project/project.h"

namespace panslate {

/// Holds the segments against the measured clips (by index of Project::media; empty where a clip could not be
/// measured): timecode and left-out ends become clip times, and an out that lies less than a frame past the
/// clip's end is set to the end. Returns the decisions that the facts contradict, each with its place; what
/// belongs to a clip without facts stays pending and is not judged.
[[nodiscard]] std::vector<Error> settle_clip_times(Project& project,
                                                   const std::vector<std::optional<ClipFacts>>& clips);

}  // namespace panslate
