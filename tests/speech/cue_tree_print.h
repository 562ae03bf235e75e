#pragma once

#include <string>
#include <vector>

#include "panslate/speech/webvtt.h"

namespace panslate {

/// The tree of a cue as the W3C's tests write the document fragment made of it: `| <span>`, `|   class="d"`,
/// `|   "text"`, one a line.
[[nodiscard]] std::string printed_tree(const std::vector<VttNode>& nodes);

}  // namespace panslate
