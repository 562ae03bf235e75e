#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/kitchen/amount.h"

/// When are two amounts the same to a cook? The rules of the check report: same unit exactly (a range holds
/// any value inside it), other units of a kind within 5 %, mass against volume through the food's density
/// within 15 %.
namespace panslate {

enum class Sameness : std::uint8_t {
  Same,
  SameLoosely,          ///< through a density, beyond the row's own tolerance but within 15 %
  SameInOtherMeasures,  ///< only with another country's cup or spoon
  CannotTell,           ///< no density, or drained against tin weight
  Different,
};

struct Comparison {
  Sameness sameness = Sameness::Different;
  std::string how;  ///< one clause for a cook when anything was converted: "1 cup of flour is about 125 g
                    ///< (USDA …)"; else empty
};

/// Compares an amount said with the amount written, both for `food` (its name; "" where it does not matter).
/// Neither has alternates here; the caller tries each. Temperatures: same scale exactly, other scale within 5
/// °C, gas marks through the window of their row; fan is not judged here. Durations: exact, or inside the
/// written range. A written amount without a number, or a little, equals anything without a number.
[[nodiscard]] Comparison compare(const Amount& said, const Amount& written, Measures measures,
                                 std::string_view food);

/// How far two measures of one food are apart.
struct AmountDistance {
  double off = 0;              ///< as a share of the second; 0 where their ranges meet
  double would_be = 0;         ///< what the first is in the second's unit
  std::string density_source;  ///< where a density was needed: whose it is
  double grams_per_ml = 0;     ///< … and what it is
  int tolerance_percent = 0;   ///< … and what home measuring may be off by
};

/// Distance of two masses, volumes, packages or sticks of butter of a food; empty where they cannot be
/// compared (a count, no density). Cups and spoons are those of `measures`.
[[nodiscard]] std::optional<AmountDistance> distance_between(const Amount& first, const Amount& second,
                                                             Measures measures, std::string_view food);

}  // namespace panslate
