#pragma once

#include <string>
#include <vector>

#include "panslate/speech/transcript.h"

namespace panslate {

/// "c1 00:00:01.000-00:00:02.000 Speaker 'text'"
[[nodiscard]] std::vector<std::string> printed_cues(const Transcript& transcript);

/// "1.000-2.000 ±1.000 word": seconds, to the millisecond.
[[nodiscard]] std::vector<std::string> printed_words(const Transcript& transcript);

/// "12: message"
[[nodiscard]] std::vector<std::string> printed_warnings(const Transcript& transcript);

/// The words alone, with a space between.
[[nodiscard]] std::string spoken_text(const Transcript& transcript);

}  // namespace panslate
