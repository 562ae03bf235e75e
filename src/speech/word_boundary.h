#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "speech/script_takes.h"

namespace panslate {

/// Moves the boundaries of words from the recogniser's 10 ms to where the sound changes most around them.
void refine(std::vector<PlacedWord>& words, std::span<const std::int16_t> samples);

}  // namespace panslate
