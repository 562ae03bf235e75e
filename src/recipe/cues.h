#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "panslate/kitchen/token.h"

namespace panslate {

/// Doneness and texture cues of a step as written: "until golden", "until a skewer comes out clean", "should
/// be soft". "until needed", "until ready to serve" are none.
void read_cues(const std::vector<Token>& tokens, std::string_view text, std::vector<std::string>& cues);

}  // namespace panslate
