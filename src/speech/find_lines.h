#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "panslate/base/progress.h"
#include "panslate/base/result.h"

#include "speech/script_graph.h"
#include "speech/sound_level.h"

namespace panslate {

/// A word of the script, or one phone of other speech, where it was heard first.
struct FoundWord {
  std::optional<ScriptPlace> place;
  SoundSpan when;
  double score = 0.0;  ///< as HeardWord::score
};

/// Which lines are spoken where: listens through the sound in stretches of half a minute, each from the last
/// pause that the one before was sure of. In the order of time.
[[nodiscard]] Result<std::vector<FoundWord>> find_lines(std::span<const ScriptLine> script,
                                                        std::span<const std::int16_t> samples,
                                                        const SoundLevel& level, Recogniser& recogniser,
                                                        PronouncingDictionary& dictionary,
                                                        Progress& progress);

}  // namespace panslate
