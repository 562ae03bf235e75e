#include "panslate/kitchen/compare.h"

#include <ostream>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "panslate/kitchen/amount_scan.h"

namespace panslate {

// For readable failures.
void PrintTo(Sameness sameness, std::ostream* out) {
  constexpr const char* kNames[] = {"Same", "SameLoosely", "SameInOtherMeasures", "CannotTell", "Different"};
  *out << kNames[static_cast<int>(sameness)];
}

namespace {

Amount read(std::string_view text) {
  const auto tokens = tokenize(text);
  const auto found = scan_amount(tokens, 0, SpokenOrWritten::Written);
  EXPECT_TRUE(found) << text;
  return found ? found->amount : Amount{};
}

struct Case {
  const char *said, *written;
  Measures measures;
  const char* food;
  Sameness sameness;
  const char* source;
};

class Compare : public ::testing::TestWithParam<Case> {};

TEST_P(Compare, Decides) {
  const auto& c = GetParam();
  const auto result = compare(read(c.said), read(c.written), c.measures, c.food);
  EXPECT_EQ(result.sameness, c.sameness) << c.said << " said for " << c.written << ": " << c.source << "\n"
                                         << result.how;
}

using enum Sameness;
constexpr auto kUs = Measures::Us;
constexpr auto kMetric = Measures::Metric;
constexpr auto kAu = Measures::Au;
constexpr auto kUk = Measures::Uk;

INSTANTIATE_TEST_SUITE_P(
    Contract, Compare,
    ::testing::Values(
        // Same unit: exact, and the rules of ranges (contract: "match").
        Case{"200 g", "200 g", kMetric, "", Same, "contract: same unit, same value"},
        Case{"201 g", "200 g", kMetric, "", Different, "contract: same unit, the same value"},
        Case{"15 g", "50 g", kMetric, "", Different, "contract: fifteen is not fifty"},
        Case{"2 tbsp", "1-2 tbsp", kMetric, "", Same, "contract: any value inside a range"},
        Case{"1.5 tbsp", "1-2 tbsp", kMetric, "", Same, "contract: any value inside a range"},
        Case{"1-2 tbsp", "1-2 tbsp", kMetric, "", Same, "contract: a range matches itself"},
        Case{"3 tbsp", "1-2 tbsp", kMetric, "", Different, "outside the range"},
        Case{"2-3 tbsp", "2 tbsp", kMetric, "", Different, "a range said for one value"},
        // Other units of one kind: 5 %.
        Case{"0.5 kg", "500 g", kMetric, "", Same, "1 kg = 1000 g"},
        Case{"7 oz", "200 g", kMetric, "", Same, "NIST: 7 oz = 198.4 g, 0.8 % off"},
        Case{"8 oz", "200 g", kMetric, "", Different, "NIST: 8 oz = 226.8 g, 13 % off"},
        Case{"1 lb", "450 g", kUk, "", Same, "NIST: 1 lb = 453.6 g, 0.8 % off"},
        Case{"240 ml", "1 cup", kUs, "milk", Same, "NIST: 236.6 ml, 1.4 % off"},
        Case{"250 ml", "1 cup", kMetric, "milk", Same, "metric cup"},
        Case{"250 ml", "1 cup", kUs, "milk", SameInOtherMeasures,
             "236.6 ml: 5.7 % off, equal to the metric cup"},
        Case{"300 ml", "1 cup", kUs, "milk", Different, "nobody's cup"},
        Case{"20 ml", "1 tbsp", kAu, "oil", Same, "Australian tablespoon 20 ml"},
        Case{"15 ml", "1 tbsp", kAu, "oil", SameInOtherMeasures, "the others' tablespoon"},
        Case{"3 tsp", "1 tbsp", kMetric, "oil", Same, "1 tbsp = 3 tsp"},
        Case{"1 pint", "570 ml", kUk, "milk", Same, "imperial pint 568.3 ml"},
        Case{"1 pint", "570 ml", kUs, "milk", SameInOtherMeasures, "US pint 473.2 ml"},
        Case{"2 cups", "500 ml", kMetric, "water", Same, "common practice, no source: 500 ml = 2 cups"},
        // Through a density: 15 %, loosely beyond the row's own tolerance.
        Case{"125 g", "1 cup", kUs, "plain flour", Same, "USDA SR28 NDB 20081: 125 g a cup"},
        Case{"1 cup", "125 g", kUs, "all-purpose flour", Same, "USDA SR28 NDB 20081: 125 g a cup"},
        Case{"250 g", "1.25 cups", kMetric, "long-grain rice", Same,
             "common practice, no source: 250 g of dry long-grain rice are 1¼ metric cups; 244 g by SR28"},
        Case{"210 g", "1 cup", kUs, "rice", SameLoosely, "USDA SR28: 185 g a cup, 13.5 % off, tolerance 5 %"},
        Case{"300 g", "1 cup", kUs, "rice", Different, "USDA SR28: 185 g a cup"},
        Case{"100 g", "1 cup", kUs, "dragon fruit", CannotTell, "no density"},
        Case{"5 g", "1 tsp", kUs, "baking powder", Same,
             "USDA SR28 NDB 18369: 4.6 g, 8.7 % off: within 10 %"},
        Case{"12 g", "1 tbsp", kUs, "sour cream", Same,
             "USDA SR28 NDB 01056: 12.0 g a tablespoon, not 230/16"},
        Case{"8 oz", "8 fl oz", kUs, "stock", Same, "common practice: ounces of a liquid"},
        // Counts and packages.
        Case{"2", "2 cloves", kUk, "garlic", Same, "a bare number counts what is counted"},
        Case{"3 cloves", "2 cloves", kUk, "garlic", Different, ""},
        Case{"2 tins", "2 x 400 g tins", kUk, "tomatoes", Same, "contract: the size need not be said"},
        Case{"800 g", "2 x 400 g tins", kUk, "tomatoes", Same, "contract: so does eight hundred grams"},
        Case{"2 x 200 g tins", "2 x 400 g tins", kUk, "tomatoes", Different,
             "contract: said otherwise it differs"},
        Case{"240 g", "1 x 400 g tin", kUk, "chickpeas", CannotTell, "contract: drained against tin weight"},
        Case{"1 x 400 g tin", "240 g", kUk, "chickpeas", CannotTell, "contract: drained against tin weight"},
        Case{"100 g", "1 x 400 g tin", kUk, "chickpeas", Different, "no draining takes 300 g"},
        Case{"15 oz can", "425 g can", kUs, "beans", Same, "NIST: 15 oz = 425.2 g"},
        Case{"1 stick", "113 g", kUs, "butter", Same, "USDA SR28 NDB 01145: a stick is 113 g"},
        Case{"8 tbsp", "1 stick", kUs, "unsalted butter", Same, "14.2 g x 8 = 113.6 g"},
        Case{"1 stick", "113 g", kUs, "celery", CannotTell, "no stick but butter's has a size"},
        Case{"2", "200 g", kUs, "onions", CannotTell, "a count against a weight"},
        // Little.
        Case{"1 pinch", "1 pinch", kUs, "salt", Same, ""},
        Case{"1 splash", "1 pinch", kUs, "salt", Same, "contract: naming is enough"},
        Case{"1 tsp", "1 pinch", kUs, "salt", Different, "contract: unless a measured amount is said"},
        Case{"1 splash", "100 ml", kUs, "wine", Different, "contract: a splash is no amount"},
        // Temperatures.
        Case{"180 C", "180 C", kUk, "", Same, ""},
        Case{"185 C", "180 C", kUk, "", Different, "contract: the same value in one scale"},
        Case{"350 F", "180 C", kUk, "", Same, "176.7 C"}, Case{"180 C", "350 F", kUs, "", Same, "176.7 C"},
        Case{"375 F", "180 C", kUk, "", Different, "190.6 C"},
        Case{"gas 4", "180 C", kUk, "", Same, "gas-mark table: 175-180"},
        Case{"gas 4", "190 C", kUk, "", Different, "gas-mark table: 175-180"},
        Case{"gas mark 6", "400 F", kUk, "", Same, "gas-mark table: 204.4 C in 200-205"},
        Case{"gas 5", "gas 4", kUk, "", Different, ""},
        // Durations.
        Case{"90 minutes", "1 1/2 hours", kUk, "", Same, "contract: 90 minutes as an hour and a half"},
        Case{"25 minutes", "25-30 minutes", kUk, "", Same, "inside the written range"},
        Case{"35 minutes", "25-30 minutes", kUk, "", Different, ""},
        Case{"60 minutes", "1 hour", kUk, "", Same, ""},
        Case{"1 hour", "1 kg", kUk, "", Different, "another kind of thing"}));

TEST(CompareText, TellsTheConversion) {
  EXPECT_EQ(compare(read("125 g"), read("1 cup"), kUs, "plain flour").how,
            "1 cup of plain flour is about 125 g (USDA SR28 NDB 20081)");
  EXPECT_EQ(compare(read("350 F"), read("180 C"), kUk, "").how, "350 °F is about 177 °C");
  EXPECT_EQ(compare(read("gas 4"), read("180 C"), kUk, "").how, "gas 4 is 175 to 180 °C");
  EXPECT_EQ(compare(read("250 ml"), read("1 cup"), kUs, "milk").how,
            "1 cup is 250 ml only in metric measures");
  EXPECT_EQ(compare(read("200 g"), read("200 g"), kUs, "").how, "");
}

}  // namespace
}  // namespace panslate
