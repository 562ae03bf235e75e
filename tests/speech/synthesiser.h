#pragma once

#include <string>
#include <vector>

#include "speech/narration.h"

/// One utterance through flite or espeak-ng: the only place that knows their voices.
namespace panslate::testing {

struct SynthesisedWord {
  std::size_t begin = 0;  ///< in samples
  std::size_t end = 0;
  bool time_known = true;
};

struct Synthesised {
  std::vector<std::int16_t> samples;   ///< at kSampleRate
  std::vector<SynthesisedWord> words;  ///< one a word of the text, as white space parts them
};

/// Throws std::runtime_error.
[[nodiscard]] Synthesised synthesise(const std::string& text, Voice voice);

}  // namespace panslate::testing
