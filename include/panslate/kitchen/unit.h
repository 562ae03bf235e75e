#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "panslate/base/ratio.h"

/// Units a cook writes and says. Sizes come from the compiled-in table (units.csv), each with its source.
namespace panslate {

enum class Unit : std::uint8_t {
  // mass
  Gram,
  Kilogram,
  Milligram,
  Ounce,
  Pound,
  // volume; centilitres, decilitres and dessertspoons are read as ml and teaspoons
  Milliliter,
  Liter,
  Teaspoon,
  Tablespoon,
  Cup,
  FluidOunce,
  Pint,
  Quart,
  Gallon,
  // counts and containers
  Piece,
  Pinch,
  Dash,
  Handful,
  Knob,
  Drop,
  Splash,
  Squeeze,
  Drizzle,
  Glug,
  Clove,
  Sprig,
  Slice,
  Rasher,
  Fillet,
  Stick,
  Block,
  Ball,
  Can,
  Jar,
  Packet,
  Bunch,
  Head,
  Stalk,
  Leaf,
  Sheet,
  // time
  Second,
  Minute,
  Hour,
  Day,
  Week,
  Month,
  // temperature
  Celsius,
  Fahrenheit,
  GasMark,
  // length: never an amount of a food on its own ("a 2 cm piece of ginger")
  Centimeter,
  Inch,
  // yields; for another noun the amount carries it
  Serving,
  Other,
};

enum class Dimension : std::uint8_t { Mass, Volume, Count, Little, Time, Temperature, Length, Yield };

/// Whose cups and spoons: decided by the user, or guessed from the recipe and told.
enum class Measures : std::uint8_t { Us, Metric, Au, Uk };

/// What kind of thing the unit measures. Little: pinch, dash, handful, knob, drop, splash, squeeze, drizzle,
/// glug: words for a little that no check treats as a number.
[[nodiscard]] Dimension dimension_of(Unit unit);

/// The spelling of the reports: "g", "tbsp", "fl_oz", "piece", "C", "gas", "min".
[[nodiscard]] std::string_view spelling_of(Unit unit);
[[nodiscard]] std::optional<Unit> unit_from_spelling(std::string_view spelling);

/// What a cook reads after a number: "g", "tbsp", "cup"/"cups", "°C", "clove"/"cloves"; empty for pieces.
/// `plural` picks the form.
[[nodiscard]] std::string_view label_of(Unit unit, bool plural);

[[nodiscard]] std::string_view spelling_of(Measures measures);  ///< "us", "metric", "au", "uk"
[[nodiscard]] std::optional<Measures> measures_from_spelling(std::string_view spelling);

/// A unit's size in its dimension's base (g, ml, s, piece) and where the figure comes from.
struct UnitSize {
  Ratio size;
  std::string_view source;
};

/// Empty for units without a size (little, containers, temperatures). Cups, spoons, fluid ounces, pints,
/// quarts and gallons differ by `measures`: Us = customary (NIST HB 44); Metric = 250/15/5 ml; Au = 250/20/5
/// ml; Uk = imperial pints, 250 ml cup (the half-pint cup is out of use), 15/5 ml spoons. Metric and Au take
/// the imperial fluid ounce, pint, quart and gallon.
[[nodiscard]] std::optional<UnitSize> size_of(Unit unit, Measures measures);

/// The stick that butter is sold in, in grams: the one stick with a size.
[[nodiscard]] UnitSize butter_stick();

/// True where size_of depends on `measures`.
[[nodiscard]] bool varies_by_measures(Unit unit);

}  // namespace panslate
