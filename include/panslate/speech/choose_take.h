#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "panslate/speech/align_script.h"

namespace panslate {

struct TakeChoice {
  std::size_t take = 0;  ///< index into ScriptAlignment::takes
  bool chosen = false;
  std::string why;  ///< in a cook's words; empty where the line has but one take
};

/// The take to use of each line that was spoken: the last whole one (what is said again is said because the
/// first was not good), unless it is much quieter or louder than the rest, distorted, or stumbles where an
/// earlier whole one does not. Where none is whole, the longest. One entry for each take, in their order.
[[nodiscard]] std::vector<TakeChoice> choose_takes(std::span<const ScriptLine> script,
                                                   const ScriptAlignment& alignment,
                                                   std::span<const std::int16_t> samples);

}  // namespace panslate
