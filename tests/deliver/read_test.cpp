// The read-through as JSON and as a page: the contract's keys, text that stays text, and the verdict of HTML
// Tidy.
#include <chrono>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "panslate/deliver/output_folder.h"
#include "panslate/deliver/read_json.h"
#include "panslate/deliver/read_page.h"
#include "panslate/deliver/read_words.h"

#include "support/golden.h"
#include "support/page_checks.h"

namespace panslate {
namespace {

using nlohmann::json;

constexpr const char* kRecipe =
    "# Quay Street Bake\n\nA vegan bake. Serves 4. Makes 8 squares.\n\n## Ingredients\n\nFor the base\n"
    "- 200 g flour (3 cups)\n- 100 g butter, divided\n- 2 eggs\n\nFor the top\n- 1 x 400 g tin plums, "
    "drained\n"
    "- 50 g walnuts\n- 2 tbsp soy sauce\n\n## Method\n\n"
    "1. Rub the butter into the flour. Chill the dough for 30 minutes.\n"
    "2. Meanwhile, simmer the plums with the okra for 30 minutes, until soft.\n"
    "3. Bake at 180C/160C fan/gas 4 for 25 to 30 minutes, until golden.\n";

struct Read {
  Recipe recipe;
  RecipeReading reading;
  LimitTable limits;
};

Read read(const std::string& text, bool scaled) {
  Read all;
  auto recipe = read_recipe(text, "bake.md");
  EXPECT_TRUE(recipe);
  if (!recipe) return all;
  all.recipe = *std::move(recipe);
  auto limits = read_limits(
      "food,amount per serving,note,source,checked on\nflour,40 g,,her own,2024-02-01\n", "limits.csv");
  EXPECT_TRUE(limits);
  all.limits = *std::move(limits);
  ReadOptions options;
  options.limits = &all.limits;
  options.today = std::chrono::sys_days{std::chrono::year{2026} / 6 / 1};
  if (scaled) options.serves = Ratio(6);
  all.reading = read_through(all.recipe, options);
  return all;
}

// The keys of contracts/read-report.md.
TEST(ReadJson, HasEveryKeyOfTheContract) {
  const auto all = read(kRecipe, true);
  const auto report = json::parse(read_json(all.reading, all.recipe));
  EXPECT_EQ(report["panslate_reading"], 1);
  for (const auto* key : {"title", "file", "serves", "makes", "measures"})
    EXPECT_TRUE(report["recipe"].contains(key)) << key;
  ASSERT_EQ(report["ingredients"].size(), 6U);
  for (const auto& ingredient : report["ingredients"])
    for (const auto* key :
         {"id", "line", "text", "group", "name", "preparation", "optional", "amounts", "used_in"})
      EXPECT_TRUE(ingredient.contains(key)) << key;
  const auto& plums = report["ingredients"][3];
  EXPECT_EQ(plums["id"], "ingredient:4");
  EXPECT_EQ(plums["line"], 13);
  EXPECT_EQ(plums["group"], "For the top");
  EXPECT_EQ(plums["name"], "plums");
  EXPECT_EQ(plums["preparation"], "drained");
  EXPECT_EQ(plums["used_in"], json::array({2}));
  for (const auto& step : report["steps"])
    for (const auto* key : {"number", "line", "text", "part", "uses", "times", "temperatures", "cues"})
      EXPECT_TRUE(step.contains(key)) << key;
  const auto& bake = report["steps"][2];
  EXPECT_EQ(bake["times"][0]["value"], 25);
  EXPECT_EQ(bake["times"][0]["to"], 30);
  EXPECT_EQ(bake["times"][0]["unit"], "min");
  EXPECT_EQ(bake["times"][0]["hands_on"], false);
  EXPECT_EQ(bake["times"][0]["column"], 36);  // counted by hand in "3. Bake at 180C/160C fan/gas 4 for 25"
  EXPECT_EQ(bake["temperatures"][0]["unit"], "C");
  EXPECT_EQ(bake["temperatures"][0]["also"][0]["fan"], true);
  EXPECT_EQ(bake["temperatures"][0]["also"][1]["unit"], "gas");
  EXPECT_EQ(bake["cues"], json::array({"until golden"}));
  ASSERT_FALSE(report["findings"].empty());
  for (const auto& finding : report["findings"])
    for (const auto* key : {"code", "level", "line", "column", "message", "source"})
      EXPECT_TRUE(finding.contains(key)) << key;
  ASSERT_FALSE(report["allergens"].empty());
  for (const auto& allergen : report["allergens"])
    for (const auto* key : {"allergen", "lists", "lines", "certain"})
      EXPECT_TRUE(allergen.contains(key)) << key;
  ASSERT_FALSE(report["per_serving"].empty());
  for (const auto& serving : report["per_serving"])
    for (const auto* key : {"line", "name", "amount", "limit", "within", "checked"})
      EXPECT_TRUE(serving.contains(key)) << key;
  EXPECT_EQ(report["per_serving"][0]["amount"]["value"], 50);
  EXPECT_EQ(report["per_serving"][0]["within"], false);
  EXPECT_EQ(report["per_serving"][0]["checked"], "2024-02-01");
}

TEST(ReadJson, HasNoLinesWhereTheSourceHasNone) {
  const auto all = read(
      R"({"@context":"https://schema.org","@type":"Recipe","name":"Bake","recipeYield":"4","recipeIngredient":["200 g flour","2 leeks"],"recipeInstructions":"Slice the leeks."})",
      false);
  const auto report = json::parse(read_json(all.reading, all.recipe));
  EXPECT_TRUE(report["ingredients"][0]["line"].is_null());
  for (const auto& finding : report["findings"]) EXPECT_TRUE(finding["line"].is_null());
  EXPECT_TRUE(report["scaled"].is_null());
}

TEST(ReadPage, Golden) {
  const auto all = read(kRecipe, true);
  testing::expect_golden("reading.html", testing::without_style(read_page(all.reading, all.recipe, kRecipe)));
}

TEST(ReadPage, CarriesItsMarkAndNeedsNothingElse) {
  const auto all = read(kRecipe, true);
  const auto page = read_page(all.reading, all.recipe, kRecipe);
  EXPECT_NE(page.find(kPageMark), std::string::npos);
  for (const auto* outside : {"http:", "https:", "<script", "<link", "url(", "@import", "src=\""})
    EXPECT_EQ(page.find(outside), std::string::npos) << outside;
}

constexpr const char* kHostile =
    "</style></title><script>alert(1)</script>\"'><img src=x onerror=y>{{title}}";

TEST(ReadPage, TextStaysText) {
  const auto text = "# " + std::string(kHostile) + "\n\n## Ingredients\n\n- 2 " + kHostile +
                    "\n\n## Method\n\n1. Bake " + kHostile + ".\n";
  const auto all = read(text, true);
  const auto page = read_page(all.reading, all.recipe, text);
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_EQ(page.find("<img"), std::string::npos);
}

TEST(ReadPage, IsFlawlessToTidy) {
  if (!testing::has_tidy()) GTEST_SKIP() << "tidy is not installed";
  for (const bool scaled : {true, false}) {
    const auto all = read(kRecipe, scaled);
    EXPECT_EQ(testing::tidy_verdict(read_page(all.reading, all.recipe, kRecipe)), "");
  }
}

TEST(ReadWords, SumUp) {
  RecipeReading reading;
  EXPECT_EQ(reading_summary(reading), "Nothing to put right.");
  reading.findings.resize(3);
  reading.findings[0].level = ReadLevel::Error;
  reading.findings[1].level = ReadLevel::Warning;
  EXPECT_EQ(reading_summary(reading), "1 thing to put right, 1 to look at; 1 note.");
}

}  // namespace
}  // namespace panslate
