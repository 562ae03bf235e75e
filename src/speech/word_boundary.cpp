#include "speech/word_boundary.h"

namespace panslate {

void refine(std::vector<PlacedWord>& words, std::span<const std::int16_t> samples) {
  const auto length = std::ssize(samples);
  for (auto& word : words) {
    word.when.begin = std::min(word.when.begin, length);
    word.when.end = std::min(word.when.end, length);
  }
}

}  // namespace panslate
