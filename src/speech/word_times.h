#pragma once

#include "panslate/speech/transcript.h"

#include "speech/draft_cue.h"

namespace panslate {

/// Finds the spoken words of cues (in the order of their times) and gives them times: from time tags good to
/// 50 ms where there is one a word, else spread over their stretch in proportion to their characters and
/// good to its length. Also fills Cue::speaker where a caption names one in capitals.
[[nodiscard]] std::vector<Word> time_words(std::vector<DraftCue>& cues);

}  // namespace panslate
