#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "panslate/base/ratio.h"

namespace panslate {

/// How heavy a food is for its volume, from the compiled-in table (densities.csv).
struct Density {
  std::string_view food;  ///< the row's own name
  Ratio grams_per_ml;
  std::optional<Ratio> grams_per_us_tbsp,
      grams_per_us_tsp;        ///< spoons measured apart differ from the cup: use them for spoons
  int tolerance_percent = 15;  ///< what home measuring may be off by
  std::string_view source;
};

/// The row for a food's name as a cook writes it ("plain flour", "white long-grain rice"), by name, alias or
/// the longest row name that the name ends with; empty where no row fits for certain: a wrong density is
/// worse than none.
[[nodiscard]] std::optional<Density> density_of(std::string_view food);

}  // namespace panslate
