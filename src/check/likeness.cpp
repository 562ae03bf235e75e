#include "check/likeness.h"

#include <algorithm>
#include <array>

namespace panslate {

namespace {

/// How far a stretch may be, by its sounds: up to 3, 4 or 5, 6 or 7, 8 and more.
using Reach = std::array<double, 4>;
constexpr double kNever = -1;

// Set by tests/data/misheard_foods.txt and tests/data/kitchen_talk.txt.
constexpr Reach kUnknownAlone{kNever, 0.03, 0.05, 0.08};
constexpr Reach kUnknownBeside{0.05, 0.11, 0.20, 0.22};
constexpr Reach kUnknownMeasured{0.08, 0.11, 0.25, 0.28};
constexpr Reach kSeveralAlone{kNever, 0.02, 0.05, 0.05};
constexpr Reach kSeveralBeside{0.05, 0.10, 0.14, 0.16};
constexpr Reach kSeveralMeasured{0.06, 0.13, 0.18, 0.19};
constexpr Reach kSingleBeside{0.04, 0.04, 0.04, 0.08};
constexpr Reach kSingleMeasured{0.05, 0.05, 0.10, 0.14};
constexpr Reach kSingleOf{0.06, 0.10, 0.13, 0.16};
constexpr Reach kInContext{0.05, 0.10, 0.15, 0.18};
constexpr Reach kInContextBeside{0.15, 0.18, 0.19, 0.20};
constexpr double kDoubt = 0.04;

std::size_t size_class(std::size_t sounds) {
  return sounds <= 3 ? 0 : sounds <= 5 ? 1 : sounds <= 7 ? 2 : 3;
}

double reach_of(const LikenessInput& input) {
  // "at a time" names no atta.
  if (input.all_silent && input.words > 1 && !input.in_context && input.support < FoodSupport::AmountOf)
    return kNever;
  if (input.all_plain && !input.in_context) {
    // "and a", "so that's": nothing but an amount makes a food of them; of one word ("time") the foods beside
    // it do.
    const auto least = input.words == 1 ? FoodSupport::Deed : FoodSupport::Amount;
    if (input.support < least) return kNever;
    return input.words == 1 ? kHomophone : kSame;
  }
  const auto size = size_class(input.sounds);
  const bool measured = input.support >= FoodSupport::Amount;
  const bool beside = input.support != FoodSupport::None;
  double reach = kNever;
  if (input.unknown_word)
    reach = (measured ? kUnknownMeasured : beside ? kUnknownBeside : kUnknownAlone)[size];
  else if (input.words > 1)
    reach = (measured ? kSeveralMeasured : beside ? kSeveralBeside : kSeveralAlone)[size];
  else if (beside)
    reach = (input.support == FoodSupport::AmountOf ? kSingleOf
             : measured                             ? kSingleMeasured
                                                    : kSingleBeside)[size];
  if (input.misspelt) reach = kFarthest;
  if (input.in_context) reach = std::max(reach, (beside ? kInContextBeside : kInContext)[size]);
  if (input.all_silent) return std::min(reach, kSame);
  if (!input.half_plain) return reach;
  // "fried in oil" is no frying oil.
  if (input.in_context && input.words > 1) return std::min(reach, kSame);
  if (measured || input.in_context) return 0.6 * reach;
  return std::min(reach, beside ? kSame : kHomophone);
}

}  // namespace

Likeness likeness_of(const LikenessInput& input) {
  const double reach = reach_of(input);
  if (reach < 0) return Likeness::None;
  if (input.distance <= reach) return Likeness::Good;
  const bool single = input.words == 1 && !input.unknown_word;
  const bool has_reason =
      input.in_context || input.support >= (single ? FoodSupport::AmountOf : FoodSupport::Amount);
  return has_reason && !input.half_plain && input.distance <= reach + kDoubt ? Likeness::Doubtful
                                                                             : Likeness::None;
}

}  // namespace panslate
