#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/recipe/recipe.h"

#include "recipe/recipe_dump.h"

namespace panslate {
namespace {

// The vocabulary is that of https://schema.org/Recipe; the dish is ours.
constexpr const char* kRecipe = R"({
  "@context": "https://schema.org", "@type": ["Recipe", "NewsArticle"], "name": "Leek &amp; barley soup",
  "recipeYield": ["4", "4 servings"], "totalTime": "PT1H20M", "keywords": "soup, vegan",
  "recipeIngredient": ["2 leeks, sliced", "1&frac12; cups (360&nbsp;ml) oat milk", "salt"],
  "recipeInstructions": [
    {"@type": "HowToSection", "name": "Soup", "itemListElement": [
      {"@type": "HowToStep", "text": "<p>Soften the leeks for 10&nbsp;minutes.</p>"},
      {"@type": "HowToStep", "name": "Add the milk."}]},
    "Serve."]})";

void expect_the_soup(const Result<Recipe>& recipe) {
  ASSERT_TRUE(recipe) << render(recipe.error());
  EXPECT_EQ(recipe->title, "Leek & barley soup");
  ASSERT_EQ(recipe->ingredients.size(), 3U);
  EXPECT_EQ(recipe->ingredients[1].name, "oat milk");
  EXPECT_EQ(dump(recipe->ingredients[1].amounts), "3/2 cup; 360 ml");
  EXPECT_EQ(recipe->ingredients[1].line, 0);
  ASSERT_EQ(recipe->steps.size(), 3U);
  EXPECT_EQ(recipe->steps[0].text, "Soften the leeks for 10 minutes.");
  EXPECT_EQ(recipe->steps[0].part, "Soup");
  EXPECT_EQ(recipe->steps[1].text, "Add the milk.");
  EXPECT_EQ(recipe->steps[2].part, "");
  ASSERT_EQ(recipe->steps[0].times.size(), 1U);
  EXPECT_EQ(recipe->steps[0].times[0].action, "soften");
  EXPECT_EQ(recipe->steps[0].uses, std::vector<std::size_t>{0});
  ASSERT_EQ(recipe->yields.size(), 1U);
  EXPECT_EQ(dump(recipe->yields[0].amount), "4 serving");
  ASSERT_EQ(recipe->stated_times.size(), 1U);
  EXPECT_EQ(dump(recipe->stated_times[0].amount), "80 min");
  EXPECT_EQ(recipe->measures, Measures::Us);
}

TEST(JsonLd, IsReadAlone) {
  expect_the_soup(read_recipe(kRecipe, "soup.json"));
}

TEST(JsonLd, IsReadFromArraysAndGraphs) {
  expect_the_soup(read_recipe("[{\"@type\": \"WebSite\"}, " + std::string(kRecipe) + "]", "soup.json"));
  expect_the_soup(
      read_recipe("{\"@graph\": [{\"@type\": \"Person\"}, " + std::string(kRecipe) + "]}", "soup.json"));
}

TEST(JsonLd, IsReadFromAPageWithBrokenNeighbours) {
  expect_the_soup(
      read_recipe("<!DOCTYPE html><html><head><script>var a = '<';</script>\n"
                  "<script type=\"application/ld+json\">{\"@type\": \"Recipe\", broken</script>\n"
                  "<script type='application/ld+json' class=\"x\">" +
                      std::string(kRecipe) + "</script></head><body></body></html>",
                  "soup.html"));
}

TEST(JsonLd, TakesOneTextAsLines) {
  const auto recipe = read_recipe(
      R"({"@type": "Recipe", "name": "Soup", "recipeIngredient": "2 leeks",
          "recipeInstructions": "Boil the leeks.\nServe.<br>Enjoy."})",
      "soup.json");
  ASSERT_TRUE(recipe);
  ASSERT_EQ(recipe->steps.size(), 3U);
  EXPECT_EQ(recipe->steps[2].text, "Enjoy.");
}

TEST(JsonLd, RefusesWhatHoldsNoRecipe) {
  const auto none = read_recipe(R"({"@type": "WebSite"})", "soup.json");
  ASSERT_FALSE(none);
  EXPECT_EQ(render(none.error()),
            "soup.json: error: no recipe is to be found in the data\n  hint: panslate reads a schema.org "
            "Recipe; the "
            "recipe can be given as plain text instead");
  const auto bare = read_recipe(R"({"@type": "Recipe", "name": "Soup"})", "soup.json");
  ASSERT_FALSE(bare);
  EXPECT_EQ(render(bare.error()),
            "soup.json: error: the recipe data lists no ingredients\n  hint: recipe data has them under "
            "'recipeIngredient'; the recipe can be given as plain text instead");
  EXPECT_FALSE(read_recipe(std::string(100000, '['), "soup.json"));
}

}  // namespace
}  // namespace panslate
