#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "panslate/recipe/flow.h"

#include "recipe/step_words.h"

/// What the times of a method add up to, and which of them run side by side.
namespace panslate {

/// The least time that the method can take, in seconds: what must come after each other, each at its
/// shortest; what is told to go on beside something else, and what is only one way of doing it, not counted.
[[nodiscard]] std::int64_t least_time(const std::vector<StepWords>& words, const Recipe& recipe,
                                      const Flow& flow);

/// The longest single time on the heat, in seconds, at its shortest.
[[nodiscard]] std::int64_t longest_heat(const std::vector<StepWords>& words, const Recipe& recipe);

struct SideBySide {
  struct Timer {
    std::size_t step = 0;
    std::size_t offset = 0;
    std::string name;  ///< proposed: "pastry, chill"
  };
  Timer first, second;
  std::string length;  ///< "30 min"
};

/// Times of one length that run at once, because the method says so ("Meanwhile", "while").
[[nodiscard]] std::vector<SideBySide> waits_side_by_side(const std::vector<StepWords>& words,
                                                         const Recipe& recipe, const Flow& flow);

}  // namespace panslate
