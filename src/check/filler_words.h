#pragma once

#include <string>

namespace panslate {

/// Words that say nothing about what is cooked ("the", "going", "really").
[[nodiscard]] bool is_filler(const std::string& folded_word);

}  // namespace panslate
