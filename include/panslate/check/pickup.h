#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

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
};

/// What to do about everything that needs attention, in the order of the recipe; amounts as written.
[[nodiscard]] std::vector<Pickup> pickups_of(const CheckReport& report, const Recipe& recipe);

}  // namespace panslate
