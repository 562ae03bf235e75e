#include "panslate/kitchen/unit.h"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "panslate/base/csv.h"

#include "embedded/units_csv.h"

namespace panslate {

namespace {

struct UnitInfo {
  Unit unit;
  Dimension dimension;
  std::string_view spelling, one, many;
  // Row of units.csv by Measures (us, metric, au, uk); one row where all agree.
  std::array<std::string_view, 4> rows = {};
};

constexpr std::array<std::string_view, 4> all(std::string_view row) {
  return {row, row, row, row};
}

constexpr std::array kUnits = {
    UnitInfo{Unit::Gram, Dimension::Mass, "g", "g", "g", all("g")},
    UnitInfo{Unit::Kilogram, Dimension::Mass, "kg", "kg", "kg", all("kg")},
    UnitInfo{Unit::Milligram, Dimension::Mass, "mg", "mg", "mg", all("mg")},
    UnitInfo{Unit::Ounce, Dimension::Mass, "oz", "oz", "oz", all("oz")},
    UnitInfo{Unit::Pound, Dimension::Mass, "lb", "lb", "lb", all("lb")},
    UnitInfo{Unit::Milliliter, Dimension::Volume, "ml", "ml", "ml", all("ml")},
    UnitInfo{Unit::Liter, Dimension::Volume, "l", "l", "l", all("l")},
    UnitInfo{Unit::Teaspoon,
             Dimension::Volume,
             "tsp",
             "tsp",
             "tsp",
             {"us_tsp", "metric_tsp", "metric_tsp", "metric_tsp"}},
    UnitInfo{Unit::Tablespoon,
             Dimension::Volume,
             "tbsp",
             "tbsp",
             "tbsp",
             {"us_tbsp", "metric_tbsp", "au_tbsp", "metric_tbsp"}},
    UnitInfo{Unit::Cup,
             Dimension::Volume,
             "cup",
             "cup",
             "cups",
             {"us_cup", "metric_cup", "metric_cup", "metric_cup"}},
    UnitInfo{Unit::FluidOunce,
             Dimension::Volume,
             "fl_oz",
             "fl oz",
             "fl oz",
             {"us_floz", "imp_floz", "imp_floz", "imp_floz"}},
    UnitInfo{Unit::Pint,
             Dimension::Volume,
             "pint",
             "pint",
             "pints",
             {"us_pint", "imp_pint", "imp_pint", "imp_pint"}},
    UnitInfo{Unit::Quart,
             Dimension::Volume,
             "quart",
             "quart",
             "quarts",
             {"us_quart", "imp_quart", "imp_quart", "imp_quart"}},
    UnitInfo{Unit::Gallon,
             Dimension::Volume,
             "gallon",
             "gallon",
             "gallons",
             {"us_gallon", "imp_gallon", "imp_gallon", "imp_gallon"}},
    UnitInfo{Unit::Piece, Dimension::Count, "piece", "", ""},
    UnitInfo{Unit::Pinch, Dimension::Little, "pinch", "pinch", "pinches"},
    UnitInfo{Unit::Dash, Dimension::Little, "dash", "dash", "dashes"},
    UnitInfo{Unit::Handful, Dimension::Little, "handful", "handful", "handfuls"},
    UnitInfo{Unit::Knob, Dimension::Little, "knob", "knob", "knobs"},
    UnitInfo{Unit::Drop, Dimension::Little, "drop", "drop", "drops"},
    UnitInfo{Unit::Splash, Dimension::Little, "splash", "splash", "splashes"},
    UnitInfo{Unit::Squeeze, Dimension::Little, "squeeze", "squeeze", "squeezes"},
    UnitInfo{Unit::Drizzle, Dimension::Little, "drizzle", "drizzle", "drizzles"},
    UnitInfo{Unit::Glug, Dimension::Little, "glug", "glug", "glugs"},
    UnitInfo{Unit::Clove, Dimension::Count, "clove", "clove", "cloves"},
    UnitInfo{Unit::Sprig, Dimension::Count, "sprig", "sprig", "sprigs"},
    UnitInfo{Unit::Slice, Dimension::Count, "slice", "slice", "slices"},
    UnitInfo{Unit::Rasher, Dimension::Count, "rasher", "rasher", "rashers"},
    UnitInfo{Unit::Fillet, Dimension::Count, "fillet", "fillet", "fillets"},
    UnitInfo{Unit::Stick, Dimension::Count, "stick", "stick", "sticks"},
    UnitInfo{Unit::Block, Dimension::Count, "block", "block", "blocks"},
    UnitInfo{Unit::Ball, Dimension::Count, "ball", "ball", "balls"},
    UnitInfo{Unit::Can, Dimension::Count, "can", "can", "cans"},
    UnitInfo{Unit::Jar, Dimension::Count, "jar", "jar", "jars"},
    UnitInfo{Unit::Packet, Dimension::Count, "packet", "packet", "packets"},
    UnitInfo{Unit::Bunch, Dimension::Count, "bunch", "bunch", "bunches"},
    UnitInfo{Unit::Head, Dimension::Count, "head", "head", "heads"},
    UnitInfo{Unit::Stalk, Dimension::Count, "stalk", "stalk", "stalks"},
    UnitInfo{Unit::Leaf, Dimension::Count, "leaf", "leaf", "leaves"},
    UnitInfo{Unit::Sheet, Dimension::Count, "sheet", "sheet", "sheets"},
    UnitInfo{Unit::Second, Dimension::Time, "s", "s", "s", all("s")},
    UnitInfo{Unit::Minute, Dimension::Time, "min", "min", "min", all("min")},
    UnitInfo{Unit::Hour, Dimension::Time, "h", "h", "h", all("h")},
    UnitInfo{Unit::Day, Dimension::Time, "day", "day", "days", all("day")},
    UnitInfo{Unit::Week, Dimension::Time, "week", "week", "weeks", all("week")},
    UnitInfo{Unit::Month, Dimension::Time, "month", "month", "months", all("month")},
    UnitInfo{Unit::Celsius, Dimension::Temperature, "C", "°C", "°C"},
    UnitInfo{Unit::Fahrenheit, Dimension::Temperature, "F", "°F", "°F"},
    UnitInfo{Unit::GasMark, Dimension::Temperature, "gas", "gas", "gas"},
    UnitInfo{Unit::Centimeter, Dimension::Length, "cm", "cm", "cm", all("cm")},
    UnitInfo{Unit::Inch, Dimension::Length, "inch", "inch", "inches", all("inch")},
    UnitInfo{Unit::Serving, Dimension::Yield, "serving", "serving", "servings"},
    UnitInfo{Unit::Other, Dimension::Yield, "other", "", ""},
};

static_assert(kUnits.size() == static_cast<std::size_t>(Unit::Other) + 1);
static_assert(
    [] {
      for (std::size_t i = 0; i < kUnits.size(); ++i)
        if (static_cast<std::size_t>(kUnits[i].unit) != i) return false;
      return true;
    }(),
    "kUnits is in the order of Unit");

constexpr std::array<std::string_view, 4> kMeasures = {"us", "metric", "au", "uk"};

const UnitInfo& info(Unit unit) {
  return kUnits[static_cast<std::size_t>(unit)];
}

struct SizeRow {
  std::string id;
  Ratio size;
  std::string source;
};

const std::vector<SizeRow>& size_rows() {
  static const auto kRows = [] {
    std::vector<SizeRow> rows;
    const auto table = CsvTable::read(embedded::units_csv);
    for (std::size_t i = 0; i < table.row_count(); ++i)
      if (const auto size = Ratio::parse(table.field(i, "value")))
        rows.push_back({table.field(i, "id"), *size, table.field(i, "source")});
    return rows;
  }();
  return kRows;
}

// Sizes by unit and measures, so that looking one up is no search.
using Sizes = std::array<std::array<const SizeRow*, kMeasures.size()>, kUnits.size()>;

const Sizes& sizes() {
  static const auto kSizes = [] {
    Sizes found = {};
    for (std::size_t u = 0; u < kUnits.size(); ++u)
      for (std::size_t m = 0; m < kMeasures.size(); ++m)
        for (const auto& row : size_rows())
          if (row.id == kUnits[u].rows[m]) found[u][m] = &row;
    return found;
  }();
  return kSizes;
}

}  // namespace

Dimension dimension_of(Unit unit) {
  return info(unit).dimension;
}

std::string_view spelling_of(Unit unit) {
  return info(unit).spelling;
}

std::optional<Unit> unit_from_spelling(std::string_view spelling) {
  for (const auto& unit : kUnits)
    if (unit.spelling == spelling && unit.unit != Unit::Other) return unit.unit;
  return std::nullopt;
}

std::string_view label_of(Unit unit, bool plural) {
  return plural ? info(unit).many : info(unit).one;
}

std::string_view spelling_of(Measures measures) {
  return kMeasures[static_cast<std::size_t>(measures)];
}

std::optional<Measures> measures_from_spelling(std::string_view spelling) {
  for (std::size_t i = 0; i < kMeasures.size(); ++i)
    if (kMeasures[i] == spelling) return static_cast<Measures>(i);
  return std::nullopt;
}

std::optional<UnitSize> size_of(Unit unit, Measures measures) {
  const auto* row = sizes()[static_cast<std::size_t>(unit)][static_cast<std::size_t>(measures)];
  if (row == nullptr) return std::nullopt;
  return UnitSize{row->size, row->source};
}

UnitSize butter_stick() {
  for (const auto& row : size_rows())
    if (row.id == "stick_butter") return {row.size, row.source};
  return {};
}

bool varies_by_measures(Unit unit) {
  const auto& rows = info(unit).rows;
  return !(rows[0] == rows[1] && rows[1] == rows[2] && rows[2] == rows[3]);
}

}  // namespace panslate
