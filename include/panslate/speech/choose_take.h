#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "panslate/speech/align_script.h"

namespace panslate {

struct ChosenTake {
  std::size_t line = 0;             ///< index into the script
  std::optional<std::size_t> take;  ///< index into ScriptAlignment::takes; none: never said whole
  std::string why;  ///< in a cook's words: "the last whole take"; empty where it is the only one
};

/// For each line that was spoken at all, the take to use: the last whole one, unless it is clipped, much
/// quieter than the voice elsewhere, much slower or faster than the usual one of three or more takes, or
/// stumbles (a pause of a second within it) and an earlier whole one does not. Where all have faults, the
/// last whole take. By line. `samples` are those that were aligned.
[[nodiscard]] std::vector<ChosenTake> choose_takes(const ScriptAlignment& alignment,
                                                   std::span<const std::int16_t> samples);

}  // namespace panslate
