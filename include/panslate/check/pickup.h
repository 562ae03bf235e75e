#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "panslate/check/check.h"
#include "panslate/check/report.h"

namespace panslate {

/// One line to say again or one shot to film, so that the video agrees with the written recipe.
struct Pickup {
  enum class Kind : std::uint8_t { SayAgain, Film, CorrectText, Listen };
  Kind kind = Kind::SayAgain;
  std::size_t requirement = 0;  ///< index into CheckReport::requirements
  std::string
      what;  ///< the sentence to say, the shot to film, the text to put right, with the amount as written
  std::optional<MediaTime> at;  ///< where in the film it is wrong or would belong
  std::string media;            ///< whose clock `at` is on
  std::string line =
      {};  ///< SayAgain: the sentence alone, amounts as written; CorrectText: the text; else empty
  std::string instead_of = {};  ///< the sentence she said; empty where the line stands in a pause
  /// How long the film has for the line: the sentence it replaces, or the pause at `at`; empty where neither
  /// is known.
  std::optional<MediaTime> room = {};
  std::optional<MediaTime> takes = {};  ///< about how long she takes to say `line`, at her own pace
};

/// What to do about everything that needs attention, amounts as written, in an order to do it in: what to
/// listen to, the lines to say in the order of the film, the shots in the order of the recipe, the text to
/// put right. `said` are the captions of the check, for her own words and her pace; without them the lines
/// are the recipe's. Cost grows linearly with lines and words (times the logarithm of the words).
[[nodiscard]] std::vector<Pickup> pickups_of(const CheckReport& report, const Recipe& recipe,
                                             const std::vector<TimedText>& said = {});

}  // namespace panslate
