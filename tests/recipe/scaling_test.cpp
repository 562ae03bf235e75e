// Recipes for other numbers of people.
#include "panslate/recipe/scaling.h"

#include <string>

#include <gtest/gtest.h>

#include "panslate/recipe/recipe.h"

#include "recipe/small_recipe.h"

namespace panslate {
namespace {

struct ScaleCase {
  const char* line;
  int serves;
  const char* exact;     // 6 or 3 over 4: exact ratios
  const char* sensible;  // what a kitchen can measure: common practice, no source
};

class Scaled : public ::testing::TestWithParam<ScaleCase> {};

TEST_P(Scaled, ExactlyAndSensibly) {
  const auto recipe =
      read_recipe(recipe_of("- " + std::string(GetParam().line) + "\n", "1. Mix.\n"), "dish.md");
  ASSERT_TRUE(recipe);
  const auto scaled = scale(*recipe, Ratio(GetParam().serves));
  ASSERT_TRUE(scaled);
  ASSERT_EQ(scaled->lines.size(), 1U);
  EXPECT_EQ(scaled->lines[0].exact.value->to_string(), GetParam().exact);
  EXPECT_EQ(to_text(scaled->lines[0].sensible), GetParam().sensible);
}

INSTANTIATE_TEST_SUITE_P(
    Lines, Scaled,
    ::testing::Values(ScaleCase{"200 g flour", 6, "300", "300 g"},
                      ScaleCase{"225 g flour", 3, "675/4", "170 g"}, ScaleCase{"3 eggs", 6, "9/2", "5"},
                      ScaleCase{"1 tsp salt", 6, "3/2", "1½ tsp"}, ScaleCase{"2 tsp salt", 6, "3", "1 tbsp"},
                      ScaleCase{"1 cup milk", 3, "3/4", "¾ cup"}, ScaleCase{"1 onion", 6, "3/2", "1½"},
                      ScaleCase{"500 g potatoes", 12, "1500", "1.5 kg"},
                      ScaleCase{"2 x 400 g tins beans", 8, "4", "4 × 400 g cans"},
                      ScaleCase{"a pinch of saffron", 8, "2", "1 pinch"}));

TEST(Scaling, SaysWhatDoesNotScale) {
  const auto recipe =
      read_recipe(recipe_of("- 3 eggs\n", "1. Bake in a 20 cm tin for 20 minutes.\n"), "dish.md");
  ASSERT_TRUE(recipe);
  const auto scaled = scale(*recipe, Ratio(8));
  ASSERT_TRUE(scaled);
  ASSERT_EQ(scaled->remarks.size(), 2U);
  EXPECT_NE(scaled->remarks[0].find("Times"), std::string::npos);
  EXPECT_NE(scaled->remarks[1].find("about 28 cm"), std::string::npos) << "20 × √2";
  EXPECT_FALSE(scale(*recipe, Ratio(100000)));
}

struct ScaledTextCase {
  const char* line;
  int serves;  // of 4
  const char* text;
  const char* remark;  // a part of it; empty: none
};

class ScaledText : public ::testing::TestWithParam<ScaledTextCase> {};

TEST_P(ScaledText, KeepsTheCooksWords) {
  const auto& [line, serves, text, remark] = GetParam();
  const auto recipe = read_recipe(recipe_of("- " + std::string(line) + "\n", "1. Mix.\n"), "dish.md");
  ASSERT_TRUE(recipe);
  const auto scaled = scale(*recipe, Ratio(serves));
  ASSERT_TRUE(scaled);
  ASSERT_EQ(scaled->lines.size(), 1U);
  EXPECT_EQ(scaled->lines[0].text, text);
  if (std::string_view(remark).empty())
    EXPECT_EQ(scaled->lines[0].remark, "") << line;
  else
    EXPECT_NE(scaled->lines[0].remark.find(remark), std::string::npos) << scaled->lines[0].remark;
}

// common practice, no source
INSTANTIATE_TEST_SUITE_P(
    Lines, ScaledText,
    ::testing::Values(ScaledTextCase{"Salt and pepper", 8, "Salt and pepper", ""},
                      ScaledTextCase{"2 large eggs (or flax eggs)", 6, "3 large eggs (or flax eggs)", ""},
                      ScaledTextCase{"1 large Onion", 8, "2 large Onions", ""},
                      ScaledTextCase{"2 onions, chopped", 2, "1 onion, chopped", ""},
                      ScaledTextCase{"4 tomatoes", 1, "1 tomato", ""},
                      ScaledTextCase{"1 egg, plus 1 yolk", 8, "2 eggs, plus 2 yolk", ""},
                      ScaledTextCase{"200 g flour, sifted", 6, "300 g flour, sifted", ""},
                      ScaledTextCase{"200g flour", 6, "300 g flour", ""},
                      ScaledTextCase{"2 garlic cloves", 8, "4 garlic cloves", ""},
                      ScaledTextCase{"400 g beef, cut into 2 cm cubes", 8, "800 g beef, cut into 2 cm cubes",
                                     ""},
                      ScaledTextCase{"200 g dried egg noodles", 3, "150 g dried egg noodles", ""},
                      ScaledTextCase{"1 nest egg noodles", 6, "1½ nest egg noodles", ""},
                      ScaledTextCase{"1-2 egg whites", 6, "2–3 egg whites", "exactly 1½–3"},
                      ScaledTextCase{"3 g gelatine", 2, "1.5 g gelatine", ""},
                      ScaledTextCase{"7 g dried yeast", 2, "3.5 g dried yeast", ""},
                      ScaledTextCase{"1¾ cups flour", 2, "⅞ cup flour", ""},
                      ScaledTextCase{"1 tsp salt", 5, "1¼ tsp salt", ""},
                      ScaledTextCase{"1⅕ cups milk", 6, "1¾ cups milk", ""},
                      ScaledTextCase{"2cm piece of ginger, grated", 8, "2 × 2cm piece of ginger, grated", ""},
                      ScaledTextCase{"Two 3-inch pieces cinnamon", 8, "4 × 3-inch pieces cinnamon", ""},
                      ScaledTextCase{"1 (2-inch) piece ginger", 8, "2 (2-inch) pieces ginger", ""},
                      ScaledTextCase{"1 lg can evap. milk", 8, "2 cans evap. milk", ""},
                      ScaledTextCase{"1 leek (or 2 small onions)", 8, "2 leeks (or 4 small onions)", ""},
                      ScaledTextCase{"2 flax eggs (2 tbsp ground flaxseed + 5 tbsp water)", 8,
                                     "4 flax eggs (4 tbsp ground flaxseed + 10 tbsp water)", ""},
                      ScaledTextCase{"1 chia egg (1 tbsp chia seeds and 3 tbsp water)", 8,
                                     "2 chia eggs (2 tbsp chia seeds and 6 tbsp water)", ""},
                      ScaledTextCase{"½ tsp salt", 3, "⅓ tsp salt", "exactly"}));

struct PanCase {
  const char* step;
  const char* remark;  // a part of it; empty: none
};

class ScaledPan : public ::testing::TestWithParam<PanCase> {};

// areas: sides × √2
TEST_P(ScaledPan, HoldsTheFoodAsHigh) {
  const auto recipe =
      read_recipe(recipe_of("- 3 eggs\n", "1. " + std::string(GetParam().step) + "\n"), "dish.md");
  ASSERT_TRUE(recipe);
  const auto scaled = scale(*recipe, Ratio(8));
  ASSERT_TRUE(scaled);
  std::string all;
  for (const auto& remark : scaled->remarks) all += remark + "\n";
  if (std::string_view(GetParam().remark).empty())
    EXPECT_EQ(all.find("becomes"), std::string::npos) << all;
  else
    EXPECT_NE(all.find(GetParam().remark), std::string::npos) << all;
}

INSTANTIATE_TEST_SUITE_P(Tins, ScaledPan,
                         ::testing::Values(PanCase{"Put 2 in the pan.", ""},
                                           PanCase{"Bake in a 23 cm tin.", "about 33 cm"},
                                           PanCase{"Bake in a 23 x 33 cm tin.", "about 33 x 47 cm"},
                                           PanCase{"Bake in a 23cm x 33cm baking dish.", "about 33 x 47 cm"},
                                           PanCase{"Bake in a 9-inch springform cake tin.", "about 13 inch"},
                                           PanCase{"Bake in a 9-in round tin.", "about 13 in"},
                                           PanCase{"Bake in a 9 in. pie dish.", "about 13 in"},
                                           PanCase{"Cut 2 cm pieces and put them in the dish.", ""},
                                           PanCase{"Roll to 30 cm, then line the tin.", ""}));

TEST(Scaling, TellsOfAmountsInTheMethod) {
  const auto recipe =
      read_recipe(recipe_of("- 200 g rice\n", "1. Boil the rice in 3 cups of water.\n"), "dish.md");
  ASSERT_TRUE(recipe);
  const auto scaled = scale(*recipe, Ratio(6));
  ASSERT_TRUE(scaled);
  ASSERT_EQ(scaled->remarks.size(), 2U);
  EXPECT_NE(scaled->remarks[1].find("times 1½: 3 cups"), std::string::npos) << scaled->remarks[1];
}

}  // namespace
}  // namespace panslate
