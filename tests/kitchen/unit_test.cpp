#include "panslate/kitchen/unit.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string>

#include <gtest/gtest.h>

namespace panslate {
namespace {

constexpr auto kAllMeasures = {Measures::Us, Measures::Metric, Measures::Au, Measures::Uk};

struct SizeCase {
  Unit unit;
  Measures measures;
  const char* size;  // in g, ml, s or cm
  const char* gnu;   // GNU units expression, and the unit to show it in
  const char* base;
  const char* source;
};

class Sizes : public ::testing::TestWithParam<SizeCase> {};

// What GNU units says; nothing when it is not installed.
std::optional<double> gnu_units(const std::string& expression, const std::string& base) {
  const auto command = "units -t --digits 15 '" + expression + "' '" + base + "' 2>/dev/null";
  const auto close = [](std::FILE* pipe) { pclose(pipe); };
  const std::unique_ptr<std::FILE, decltype(close)> pipe(popen(command.c_str(), "r"), close);
  if (!pipe) return std::nullopt;
  std::array<char, 64> line = {};
  if (std::fgets(line.data(), static_cast<int>(line.size()), pipe.get()) == nullptr) return std::nullopt;
  const std::string text(line.data());
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{}) return std::nullopt;
  return value;
}

TEST_P(Sizes, IsThePublishedFigure) {
  const auto& c = GetParam();
  const auto size = size_of(c.unit, c.measures);
  ASSERT_TRUE(size) << spelling_of(c.unit);
  EXPECT_EQ(size->size, *Ratio::parse(c.size)) << spelling_of(c.unit) << ": " << c.source;
  EXPECT_FALSE(size->source.empty());
}

TEST_P(Sizes, IsWhatGnuUnitsSays) {
  const auto& c = GetParam();
  const auto gnu = gnu_units(c.gnu, c.base);
  if (!gnu) GTEST_SKIP() << "GNU units is not installed";
  EXPECT_NEAR(size_of(c.unit, c.measures)->size.value() / *gnu, 1.0, 1e-9) << spelling_of(c.unit);
}

using enum Unit;
constexpr auto kUs = Measures::Us;
constexpr auto kMetric = Measures::Metric;
constexpr auto kAu = Measures::Au;
constexpr auto kUk = Measures::Uk;

INSTANTIATE_TEST_SUITE_P(
    Published, Sizes,
    ::testing::Values(
        SizeCase{Gallon, kUs, "3785.411784", "usgallon", "ml", "NIST HB 44 App. C: 231 in3"},
        SizeCase{Quart, kUs, "946.352946", "usquart", "ml", "NIST HB 44 App. C: 57.75 in3"},
        SizeCase{Pint, kUs, "473.176473", "uspint", "ml", "NIST HB 44 App. C: 28.875 in3"},
        SizeCase{Cup, kUs, "236.5882365", "uscup", "ml", "NIST HB 44 App. C: 8 fl oz"},
        SizeCase{FluidOunce, kUs, "29.5735295625", "usfluidounce", "ml", "NIST HB 44 App. C: 1.8046875 in3"},
        SizeCase{Tablespoon, kUs, "14.78676478125", "ustablespoon", "ml", "NIST HB 44 App. C: 1/2 fl oz"},
        SizeCase{Teaspoon, kUs, "4.92892159375", "usteaspoon", "ml", "NIST HB 44 App. C: 1/6 fl oz"},
        SizeCase{Cup, kMetric, "250", "metriccup", "ml", "metric cup"},
        SizeCase{Tablespoon, kMetric, "15", "brtablespoon", "ml", "metric spoon"},
        SizeCase{Teaspoon, kMetric, "5", "brteaspoon", "ml", "metric spoon"},
        SizeCase{Tablespoon, kAu, "20", "australiatablespoon", "ml", "Australian tablespoon"},
        SizeCase{Cup, kAu, "250", "metriccup", "ml", "metric cup"},
        SizeCase{Gallon, kUk, "4546.09", "brgallon", "ml", "Weights and Measures Act 1985: 4.54609 l"},
        SizeCase{Quart, kUk, "1136.5225", "brquart", "ml", "a quarter of the gallon"},
        SizeCase{Pint, kUk, "568.26125", "brpint", "ml", "an eighth of the gallon"},
        SizeCase{FluidOunce, kUk, "28.4130625", "brfluidounce", "ml", "a twentieth of the pint"},
        SizeCase{Tablespoon, kUk, "15", "brtablespoon", "ml", "metric spoon"},
        SizeCase{Teaspoon, kUk, "5", "brteaspoon", "ml", "metric spoon"},
        SizeCase{Milliliter, kUs, "1", "ml", "ml", "SI"}, SizeCase{Liter, kUs, "1000", "litre", "ml", "SI"},
        SizeCase{Gram, kUs, "1", "gram", "g", "SI"}, SizeCase{Kilogram, kUs, "1000", "kilogram", "g", "SI"},
        SizeCase{Milligram, kUs, "0.001", "milligram", "g", "SI"},
        SizeCase{Pound, kUs, "453.59237", "pound", "g", "agreement of 1959; NIST SP 811 App. B"},
        SizeCase{Ounce, kUs, "28.349523125", "ounce", "g", "agreement of 1959; NIST SP 811 App. B"},
        SizeCase{Second, kUs, "1", "second", "s", "SI"},
        SizeCase{Minute, kUs, "60", "minute", "s", "SI Brochure"},
        SizeCase{Hour, kUs, "3600", "hour", "s", "SI Brochure"},
        SizeCase{Day, kUs, "86400", "day", "s", "SI Brochure"},
        SizeCase{Week, kUs, "604800", "week", "s", "seven days"},
        SizeCase{Month, kUs, "2592000", "30 days", "s", "common practice, no source"},
        SizeCase{Centimeter, kUs, "1", "cm", "cm", "SI"},
        SizeCase{Inch, kUs, "2.54", "inch", "cm", "agreement of 1959"}));

TEST(Unit, ButterStickIsAQuarterOfAPound) {
  EXPECT_EQ(butter_stick().size, *Ratio::parse("113.3980925"));  // GNU units stickbutter
  if (const auto gnu = gnu_units("stickbutter", "g")) {
    EXPECT_NEAR(butter_stick().size.value(), *gnu, 1e-9);
  }
}

// The spellings of the check report, in its order.
TEST(Unit, SpellsAsTheReport) {
  const std::string all =
      "g kg mg oz lb ml l tsp tbsp cup fl_oz pint quart gallon piece pinch dash handful knob drop splash "
      "squeeze "
      "drizzle glug clove sprig slice rasher fillet stick block ball can jar packet bunch head stalk leaf "
      "sheet s min "
      "h day week month C F gas serving";
  std::size_t begin = 0;
  int count = 0;
  while (begin < all.size()) {
    const auto end = std::min(all.find(' ', begin), all.size());
    const auto spelling = all.substr(begin, end - begin);
    const auto unit = unit_from_spelling(spelling);
    ASSERT_TRUE(unit) << spelling;
    EXPECT_EQ(spelling_of(*unit), spelling);
    begin = end + 1;
    ++count;
  }
  EXPECT_EQ(count, 50);
  EXPECT_FALSE(unit_from_spelling("cl"));
  EXPECT_FALSE(unit_from_spelling("other"));
  EXPECT_FALSE(unit_from_spelling(""));
}

TEST(Unit, SizesOnlyWhatHasASize) {
  for (const auto measures : kAllMeasures) {
    EXPECT_FALSE(size_of(Pinch, measures));
    EXPECT_FALSE(size_of(Can, measures));
    EXPECT_FALSE(size_of(Celsius, measures));
    EXPECT_FALSE(size_of(Piece, measures));
    EXPECT_FALSE(size_of(Stick, measures));
  }
  for (const auto unit : {Teaspoon, Tablespoon, Cup, FluidOunce, Pint, Quart, Gallon})
    EXPECT_TRUE(varies_by_measures(unit)) << spelling_of(unit);
  for (const auto unit : {Gram, Ounce, Milliliter, Liter, Minute, Can})
    EXPECT_FALSE(varies_by_measures(unit)) << spelling_of(unit);
}

TEST(Unit, LabelsForACook) {
  EXPECT_EQ(label_of(Cup, false), "cup");
  EXPECT_EQ(label_of(Cup, true), "cups");
  EXPECT_EQ(label_of(Leaf, true), "leaves");
  EXPECT_EQ(label_of(Celsius, true), "°C");
  EXPECT_EQ(label_of(Piece, true), "");
}

TEST(Measures, SpellsThereAndBack) {
  for (const auto measures : kAllMeasures) EXPECT_EQ(measures_from_spelling(spelling_of(measures)), measures);
  EXPECT_FALSE(measures_from_spelling("imperial"));
}

}  // namespace
}  // namespace panslate
