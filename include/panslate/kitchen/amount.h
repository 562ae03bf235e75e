#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "panslate/base/ratio.h"
#include "panslate/kitchen/unit.h"

namespace panslate {

enum class SpoonSize : std::uint8_t { Level, Heaped, Scant };

/// The size of one package: the 400 g of "2 × 400 g tins".
struct Package {
  Ratio value;
  Unit unit = Unit::Gram;
  friend bool operator==(const Package&, const Package&) = default;
};

/// An amount as written or said: exact, perhaps a range, perhaps without a number ("salt, to taste": no
/// value). "1 lb 5 oz" is one amount in its first unit (21/16 lb). Temperatures and durations are amounts
/// too.
struct Amount {
  std::optional<Ratio> value;
  std::optional<Ratio> to;  ///< the other end of a range; then value <= to
  Unit unit = Unit::Piece;
  std::string noun;  ///< for Unit::Other: the noun as written ("pasties"); else empty
  std::optional<SpoonSize> size;
  bool about = false;  ///< "about", "roughly", "or so"
  bool fan = false;    ///< the oven's fan setting was meant
  std::optional<Package> each;

  friend bool operator==(const Amount&, const Amount&) = default;
};

/// As a cook writes it: "180 g", "1¼ cups", "2 × 400 g cans", "25–30 min", "180 °C fan", "gas 4", "about 2
/// tbsp"; vulgar fractions for halves to eighths, else up to three decimals. Empty when there is neither
/// number nor a word for a little.
[[nodiscard]] std::string to_text(const Amount& amount);

}  // namespace panslate
