// Her own limits for one serving, against the amounts of a recipe.
#include "panslate/recipe/limits.h"

#include <algorithm>
#include <chrono>
#include <string>
#include <utility>

#include <gtest/gtest.h>

#include "panslate/recipe/reading.h"

#include "recipe/small_recipe.h"

namespace panslate {
namespace {

LimitTable limits_of(const std::string& rows) {
  auto table = read_limits("food,amount per serving,note,source,checked on\n" + rows, "limits.csv");
  EXPECT_TRUE(table);
  return table ? *std::move(table) : LimitTable{};
}

TEST(Limits, AnAmountEqualToTheLimitIsWithin) {
  const auto limits = limits_of("courgette,65 g,,,2026-01-01\n");
  ReadOptions options;
  options.limits = &limits;
  options.today = std::chrono::sys_days{std::chrono::year{2026} / 6 / 1};
  for (const auto& [grams, within] : {std::pair{"260", true}, std::pair{"261", false}}) {
    const auto reading =
        read(recipe_of("- " + std::string(grams) + " g courgettes\n", "1. Fry the courgettes.\n"), options);
    ASSERT_EQ(reading.per_serving.size(), 1U);
    EXPECT_EQ(reading.per_serving[0].within, within) << grams;
    EXPECT_EQ(has(reading, "over-limit"), !within) << grams;
    EXPECT_FALSE(has(reading, "limit-stale"));
  }
}

TEST(Limits, LinesOfOneFoodCountTogether) {
  const auto limits = limits_of("butter,20 g,,,\n");
  ReadOptions options;
  options.limits = &limits;
  const auto text = recipe_of("For the base\n- 60 g butter\n\nFor the top\n- 60 g butter\n",
                              "1. Melt the butter for the base.\n2. Melt the butter for the top.\n");
  const auto reading = read(text, options);
  for (const auto& serving : reading.per_serving) EXPECT_EQ(serving.within, true);
  EXPECT_TRUE(has(reading, "over-limit")) << "15 g and 15 g of 20 g";
}

TEST(Limits, StaleDatesAreTold) {
  const auto limits = limits_of("courgette,65 g,,dietitian,2024-01-01\n");
  ReadOptions options;
  options.limits = &limits;
  options.today = std::chrono::sys_days{std::chrono::year{2026} / 6 / 1};
  EXPECT_TRUE(
      has(read(recipe_of("- 100 g courgettes\n", "1. Fry the courgettes.\n"), options), "limit-stale"));
}

TEST(Limits, CompareThroughADensityAndSayWhereTheyCannot) {
  const auto limits = limits_of("honey,1 tbsp,,,\nonion,20 g,,,\n");
  ReadOptions options;
  options.limits = &limits;
  // USDA SR28 NDB 19296: 21 g a tablespoon.
  const auto reading =
      read(recipe_of("- 100 g honey\n- 1 onion\n", "1. Warm the honey with the onion.\n"), options);
  EXPECT_TRUE(has(reading, "over-limit"));
  EXPECT_TRUE(has(reading, "limit-not-compared"));
}

TEST(Limits, ThatCoverEveryIngredientSettleAClaim) {
  const auto some = limits_of("rice,100 g,,,\n");
  const auto all = limits_of("rice,100 g,,,\nbutter,20 g,,,\n");
  const auto text = recipe_of("- 300 g rice\n- 40 g butter\n", "1. Boil the rice, stir in the butter.\n",
                              "Low-FODMAP. Serves 4");
  ReadOptions options;
  options.limits = &some;
  EXPECT_TRUE(has(read(text, options), "claim-not-checked"));
  options.limits = &all;
  EXPECT_FALSE(has(read(text, options), "claim-not-checked"));
}

struct LimitCase {
  const char* limit;  // a row of the table
  const char* line;   // of the list
  const char* head;
  bool compared;
  const char* code;  // told besides; may be empty
};

class LimitedFoods : public ::testing::TestWithParam<LimitCase> {};

TEST_P(LimitedFoods, AreComparedOrSaidNotToBe) {
  const auto& [limit, line, head, compared, code] = GetParam();
  const auto limits = limits_of(std::string(limit) + ",1000 g,,,\n");
  ReadOptions options;
  options.limits = &limits;
  const auto reading =
      read(recipe_of("- " + std::string(line) + "\n", "1. Mix everything.\n", head), options);
  const bool within = std::any_of(reading.per_serving.begin(), reading.per_serving.end(),
                                  [](const auto& serving) { return serving.within.has_value(); });
  EXPECT_EQ(within, compared) << limit << ": " << line;
  for (const auto* one : {"limit-not-compared", "limits-not-compared"})
    EXPECT_EQ(has(reading, one), std::string_view(one) == code) << limit << ": " << line << ": " << one;
}

// common practice, no source: which names mean one food
INSTANTIATE_TEST_SUITE_P(
    Names, LimitedFoods,
    ::testing::Values(LimitCase{"milk", "200 g almond milk", "Serves 4", false, "limit-not-compared"},
                      LimitCase{"milk", "200 g oat milk", "Serves 4", false, "limit-not-compared"},
                      LimitCase{"milk", "200 g milk", "Serves 4", true, ""},
                      LimitCase{"pepper", "200 g red pepper", "Serves 4", false, "limit-not-compared"},
                      LimitCase{"pepper", "2 g black pepper", "Serves 4", false, "limit-not-compared"},
                      LimitCase{"tomato", "50 g sun-dried tomatoes", "Serves 4", false, "limit-not-compared"},
                      LimitCase{"tomato", "500 g ripe tomatoes, chopped", "Serves 4", true, ""},
                      LimitCase{"onion", "50 g onion marmalade", "Serves 4", false, "limit-not-compared"},
                      LimitCase{"onion", "200 g red onions", "Serves 4", true, ""},
                      LimitCase{"sugar", "100 g icing sugar", "Serves 4", false, "limit-not-compared"},
                      LimitCase{"tomato puree", "50 g tomato puree", "Serves 4", true, ""},
                      LimitCase{"green beans", "200 g green beans", "Serves 4", true, ""},
                      LimitCase{"sweet potato", "400 g sweet potatoes, diced", "Serves 4", true, ""},
                      LimitCase{"aubergine", "300 g eggplant", "Serves 4", true, ""},
                      LimitCase{"butter", "butter", "Serves 4", false, "limit-not-compared"},
                      LimitCase{"butter", "100 g butter", "Makes 12 cookies", false, "limits-not-compared"},
                      LimitCase{"rice", "100 g butter", "Makes 12 cookies", false, ""}));

TEST(Limits, WatermelonIsNoWater) {
  const auto limits = limits_of("rice,1000 g,,,\n");
  ReadOptions options;
  options.limits = &limits;
  const auto with = [&](const std::string& line) {
    return has(
        read(recipe_of("- 200 g rice\n- " + line + "\n", "1. Mix everything.\n", "Low-FODMAP. Serves 4"),
             options),
        "claim-not-checked");
  };
  EXPECT_TRUE(with("500 g watermelon"));
  EXPECT_FALSE(with("500 ml boiling water"));
}

struct BadTable {
  const char* text;
  int line;
  const char* message;
};

class BadLimits : public ::testing::TestWithParam<BadTable> {};

TEST_P(BadLimits, AreRefusedWithTheirLine) {
  const auto table = read_limits(GetParam().text, "limits.csv");
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().front().message, GetParam().message);
  ASSERT_TRUE(table.error().front().place);
  EXPECT_EQ(table.error().front().place->line, GetParam().line);
}

INSTANTIATE_TEST_SUITE_P(
    Rows, BadLimits,
    ::testing::Values(
        BadTable{"", 1, "this is no table of limits"},
        BadTable{"garlic,3 g\n", 1, "this is no table of limits"},
        BadTable{"food,amount per serving\ngarlic,some\n", 2, "'some' is no amount for a serving"},
        BadTable{"food,amount per serving\n,3 g\n", 2, "a limit without a food"},
        BadTable{"food,amount per serving\ngarlic,180 C\n", 2, "'180 C' is no amount for a serving"},
        BadTable{"food,amount per serving,checked on\ngarlic,3 g,May 2025\n", 2, "'May 2025' is no date"}));

}  // namespace
}  // namespace panslate
