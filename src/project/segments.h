#pragma once

#include <optional>
#include <string>
#include <vector>

#include "panslate/project/project.h"

#include "project/entry.h"

namespace panslate {

/// Reads one entry of "segments"; what is wrong in it is added to the problems. Empty where it cannot be
/// used. Its references are left to be resolved, its place is kept for overlaps.
[[nodiscard]] std::optional<Segment> read_segment(const Entry& entry, const Project& project,
                                                  ProblemList& problems);

/// Adds that no media has this id, with the nearest that one has.
void add_unknown_clip(const Entry& entry, const std::string& id, const Project& project,
                      ProblemList& problems);

/// Two parts of one clip, and two places in the edit (of picture, or of narration), that lie over each other
/// by a stretch: one Error for each such pair of neighbours, at the later one. Segments whose times are
/// pending are passed over.
[[nodiscard]] std::vector<Error> overlaps_of(const Project& project);

}  // namespace panslate
