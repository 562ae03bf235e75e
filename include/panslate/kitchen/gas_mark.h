#pragma once

#include <optional>
#include <string_view>

#include "panslate/base/ratio.h"

namespace panslate {

/// One row of the gas-mark table (gasmarks.csv). Published tables differ in their Celsius column, so a
/// temperature agrees with a mark inside the window, not at a point.
struct GasMark {
  Ratio mark;
  Ratio fahrenheit;                   ///< exact: 25 °F a mark
  Ratio celsius;                      ///< as recipes print it
  Ratio celsius_least, celsius_most;  ///< what recipes print for it, both ends included
  Ratio fan_celsius;
  std::string_view source;
};

/// The row of a mark (¼, ½, 1 … 10); empty for any other number.
[[nodiscard]] std::optional<GasMark> gas_mark(const Ratio& mark);

}  // namespace panslate
