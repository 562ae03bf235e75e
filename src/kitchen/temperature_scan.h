#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "panslate/kitchen/amount_scan.h"

/// Oven and kitchen temperatures: "180C", "350 degrees", "gas mark four", "one eighty fan", "minus eighteen".
namespace panslate {

struct ScannedTemperature {
  Amount amount;
  std::size_t end = 0;
  bool scale_inferred = false;
};

/// Where a temperature may be read from a number that stands alone.
enum class BareTemperature { No, Yes };

/// The temperature at `at`. With BareTemperature::Yes ("180/160 fan": the neighbours are temperatures) a bare
/// number of an oven's range will do; else it needs a degree sign or word, a scale, "fan", "gas", or an oven
/// before it ("bake at 180").
[[nodiscard]] std::optional<ScannedTemperature> temperature_at(std::span<const Token> tokens, std::size_t at,
                                                               BareTemperature bare);

}  // namespace panslate
