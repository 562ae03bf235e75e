#pragma once

#include <cstddef>
#include <cstdint>

#include "check/sound_support.h"

namespace panslate {

/// Whether a stretch is near enough to the name of a food to be taken for it.
enum class Likeness : std::uint8_t { None, Doubtful, Good };

struct LikenessInput {
  double distance = 1.0;      ///< of sound_distance, of the words that do not agree anyway
  std::size_t sounds = 0;     ///< of the shorter of the two
  std::size_t words = 1;      ///< heard that do not agree
  bool unknown_word = false;  ///< one of them is no English word
  bool misspelt = false;      ///< it is a few letters away from the name as well: a slip of the keys
  bool all_plain = false;     ///< they are words that say nothing, or that are understood as they stand
  bool all_silent = false;    ///< they are fillers and descriptions: "some", "of the", "fresh"
  bool half_plain = false;    ///< half of them or more are
  bool in_context = false;    ///< the name's other words stand beside them: "carry powder"
  FoodSupport support = FoodSupport::None;
};

/// Beyond this nothing is taken for anything.
inline constexpr double kFarthest = 0.36;
/// So near are only words that sound the same.
inline constexpr double kHomophone = 0.02;
/// So near are different spellings of the same sounds.
inline constexpr double kSame = 0.05;
/// So near that words understood otherwise are given up for it.
inline constexpr double kAlmostSame = 0.08;
/// Two foods whose distances differ by less cannot be told apart.
inline constexpr double kAboutAsNear = 0.06;

/// The more sounds agree, and the better the reason to expect a food, the farther it may be. A single word of
/// the language is never taken for a food without a reason.
[[nodiscard]] Likeness likeness_of(const LikenessInput& input);

}  // namespace panslate
