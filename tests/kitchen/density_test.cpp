#include "panslate/kitchen/density.h"

#include <cmath>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/csv.h"
#include "panslate/base/text.h"

namespace panslate {
namespace {

constexpr double kUsCupMl = 236.5882365;  // NIST HB 44 App. C

struct Named {
  const char* food;
  double grams_per_cup;
  const char* source;
};

class Densities : public ::testing::TestWithParam<Named> {};

TEST_P(Densities, AreTheTablesCupWeights) {
  const auto density = density_of(GetParam().food);
  ASSERT_TRUE(density) << GetParam().food;
  EXPECT_NEAR(density->grams_per_ml.value() * kUsCupMl, GetParam().grams_per_cup, 1e-6) << GetParam().source;
}

INSTANTIATE_TEST_SUITE_P(
    Usda, Densities,
    ::testing::Values(
        Named{"plain flour", 125, "USDA SR28 NDB 20081"}, Named{"All-purpose flour", 125, "NDB 20081"},
        Named{"strong white bread flour", 137, "NDB 20129"}, Named{"long-grain rice", 185, "NDB 20044"},
        Named{"basmati rice", 185, "NDB 20044"}, Named{"caster sugar", 200, "from memory"},
        Named{"granulated sugar", 200, "NDB 19335"}, Named{"honey", 339, "NDB 19296"},
        Named{"unsalted butter", 227, "NDB 01145"}, Named{"extra-virgin olive oil", 216, "NDB 04053"},
        Named{"good olive oil", 216, "NDB 04053"}, Named{"whole milk", 244, "NDB 01077"},
        Named{"boiling water", 237, "NDB 14429"}, Named{"Greek yoghurt", 240, "from memory"},
        Named{"pine nut", 135, "NDB 12147"}, Named{"baking powder", 4.6 * 48, "NDB 18369: 4.6 g a tsp"},
        Named{"jam", 20.0 * 16, "NDB 19297: 20 g a tbsp"}, Named{"soured cream", 230, "NDB 01056"}));

// A wrong density is worse than none: what makes another food of it has no row.
TEST(Density, GivesNoneWhenUncertain) {
  for (const auto* food :
       {"", "dragon fruit", "chickpea flour", "chickpeas", "peanut brittle", "coconut", "milk chocolate",
        "cooked lentil salad", "butter beans", "carrot", "sugar snap peas", "rice vinegar dressing"})
    EXPECT_FALSE(density_of(food)) << food;
}

TEST(Density, TellsItsRow) {
  const auto salt = density_of("fine sea salt");
  ASSERT_TRUE(salt);
  EXPECT_EQ(salt->food, "table salt");
  EXPECT_EQ(salt->source, "USDA SR28 NDB 02047");
  EXPECT_EQ(salt->grams_per_us_tsp, Ratio(6));
  EXPECT_EQ(salt->grams_per_us_tbsp, Ratio(18));
  EXPECT_EQ(salt->tolerance_percent, 5);
}

// Every row with a USDA number against the department's own table, when it is at hand.
TEST(Density, AgreesWithTheHouseholdWeights) {
  const std::string source_dir = PANSLATE_SOURCE_DIR;
  std::ifstream weights(source_dir + "/../shared/media/usda/WEIGHT.txt");
  std::ifstream data(source_dir + "/src/kitchen/data/densities.csv");
  if (!weights) GTEST_SKIP() << "the USDA household weights are not at hand";
  ASSERT_TRUE(data);
  std::map<std::string, std::vector<double>> grams;  // per one cup, tbsp or tsp, by NDB number and measure
  for (std::string line; std::getline(weights, line);) {
    const auto fields = split(line, '^');
    if (fields.size() < 5) continue;
    const auto amount = Ratio::parse(fields[2].front() == '.' ? "0" + fields[2] : fields[2]);
    const auto weight = Ratio::parse(fields[4]);
    if (!amount || !weight || amount->is_zero()) continue;
    const auto ndb = fields[0].substr(1, fields[0].size() - 2);
    // The table's own words for a measure; eight fluid ounces are a cup.
    if (fields[3] == "~tablespoon~") grams[ndb + "tbsp"].push_back(weight->value() / amount->value());
    if (fields[3] == "~bottle 8 fl oz~") grams[ndb + "cup"].push_back(weight->value() / amount->value());
    for (const auto* measure : {"cup", "tbsp", "tsp"})
      if (fields[3].compare(1, std::string(measure).size(), measure) == 0)
        grams[ndb + measure].push_back(weight->value() / amount->value());
  }
  const std::string text((std::istreambuf_iterator<char>(data)), std::istreambuf_iterator<char>());
  const auto table = CsvTable::read(text);
  int compared = 0;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    const auto& ndb = table.field(row, "usda_ndb");
    if (ndb.empty()) continue;
    for (const auto* measure : {"cup", "tbsp", "tsp"}) {
      const auto ours = Ratio::parse(table.field(row, std::string("g_per_us_") + measure));
      if (!ours) continue;
      bool found = false;
      for (const double theirs : grams[ndb + measure])
        found = found || std::abs(ours->value() - theirs) <= 0.06 + 0.01 * theirs;
      EXPECT_TRUE(found) << table.field(row, "names") << ": " << ours->value() << " g a " << measure;
      ++compared;
    }
  }
  EXPECT_GE(compared, 150);
}

}  // namespace
}  // namespace panslate
