#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "speech/script_takes.h"

namespace panslate {

/// Moves the beginnings of words from the recogniser's 10 ms to where the sound changes most around them:
/// eight bands of 8 ms windows, every 2 ms, 12 ms on one side against 12 ms on the other. Nearer is likelier:
/// the recogniser is usually off by some 10 ms. An end that touches the next word moves with it.
void refine(std::vector<PlacedWord>& words, std::span<const std::int16_t> samples);

}  // namespace panslate
