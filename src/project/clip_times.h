#pragma once

#include <optional>
#include <string>
#include <vector>

#include "panslate/media/clip_facts.h"
#include "panslate/project/project.h"

namespace panslate {

/// Holds the segments against the measured clips (by index of Project::media; empty where a clip could not be
/// measured): timecode and left-out ends become clip times, and an out that lies less than a frame past the
/// clip's end is set to the end. Returns the decisions that the facts contradict, each with its place; what
/// belongs to a clip without facts stays pending and is not judged.
///
/// Of a clip that is another one now than when the decision was made (`contents`, by index of Project::media,
/// beside MediaEntry::content) the length contradicts nothing: what no longer fits goes to
/// Project::to_decide, and the part is cut to what there is.
[[nodiscard]] std::vector<Error> settle_clip_times(Project& project,
                                                   const std::vector<std::optional<ClipFacts>>& clips,
                                                   const std::vector<std::string>& contents = {});

}  // namespace panslate
