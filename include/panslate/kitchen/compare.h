#pragma once

#include <cstdint>
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

}  // namespace panslate
