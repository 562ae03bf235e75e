// The finders one by one, each on the smallest recipe that shows it.
#include "panslate/recipe/reading.h"

#include <algorithm>
#include <chrono>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/kitchen/food_traits.h"

#include "recipe/small_recipe.h"

namespace panslate {
namespace {

struct FindCase {
  const char* what;
  const char* list;
  const char* method;
  const char* code;
  bool found;
  const char* head = "Serves 4";
};

class Finders : public ::testing::TestWithParam<FindCase> {};

TEST_P(Finders, FindIt) {
  const auto& one = GetParam();
  const auto reading = read(recipe_of(one.list, one.method, one.head));
  EXPECT_EQ(has(reading, one.code), one.found) << one.what;
}

// common practice, no source: how cooks name what they have
INSTANTIATE_TEST_SUITE_P(
    Use, Finders,
    ::testing::Values(
        FindCase{"a synonym", "- 1 aubergine\n", "1. Fry the eggplant.\n", "unused-ingredient", false},
        FindCase{"a group word", "- 1 tsp cumin\n- 1 tsp coriander seeds\n", "1. Toast the spices.\n",
                 "unused-ingredient", false},
        FindCase{"dry ingredients", "- 200 g flour\n- 1 tsp baking powder\n- 100 ml milk\n",
                 "1. Mix the dry ingredients, then the milk.\n", "unused-ingredient", false},
        FindCase{"dry ingredients are no fennel", "- 200 g flour\n- 1 fennel bulb\n- 100 ml milk\n",
                 "1. Mix the dry ingredients, then the milk.\n", "unused-ingredient", true},
        FindCase{"everything", "- 2 bananas\n- 200 ml milk\n- 1 tsp honey\n", "1. Blend everything.\n",
                 "unused-ingredient", false},
        FindCase{"everything but", "- 100 g oats\n- 250 ml milk\n- 1 tsp honey\n",
                 "1. Stir together everything except the honey.\n2. Add the honey.\n", "unused-ingredient",
                 false},
        FindCase{"a near relative", "- 100 g pancetta\n", "1. Fry the bacon.\n", "unused-ingredient", false},
        FindCase{"mixed spice is one spice", "- 1 tsp mixed spice\n- 2 star anise\n- 200 g flour\n",
                 "1. Stir the mixed spice into the flour.\n", "unused-ingredient", true},
        FindCase{"never named", "- 2 leeks\n- 50 g walnuts\n", "1. Slice the leeks.\n", "unused-ingredient",
                 true},
        FindCase{"to serve", "- 2 leeks\n- lemon wedges, to serve\n", "1. Slice the leeks.\n",
                 "unused-ingredient", false},
        FindCase{"not listed", "- 2 leeks\n", "1. Slice the leeks and add the mushrooms.\n",
                 "unlisted-ingredient", true},
        FindCase{"water and seasoning", "- 2 leeks\n",
                 "1. Cover the leeks with water, season with salt and pepper.\n", "unlisted-ingredient",
                 false},
        FindCase{"a serving idea", "- 2 leeks\n", "1. Fry the leeks and serve with rice.\n",
                 "unlisted-ingredient", false},
        FindCase{"the one that must be listed", "- 2 leeks\n", "1. Fry the leeks and serve with the rice.\n",
                 "unlisted-ingredient", true},
        FindCase{"an intermediate result", "- 200 g flour\n- 100 g butter\n",
                 "1. Rub the butter into the flour.\n2. Roll out the pastry.\n", "unlisted-ingredient",
                 false},
        FindCase{"what comes of it", "- 2 lemons\n- 4 peppers\n",
                 "1. Blend the peppers.\n2. Stir the lemon juice into the pepper sauce.\n",
                 "unlisted-ingredient", false},
        FindCase{"the size of a walnut", "- 300 g beef mince\n",
                 "1. Shape the mince into balls the size of a walnut.\n", "unlisted-ingredient", false}));

INSTANTIATE_TEST_SUITE_P(
    Parts, Finders,
    ::testing::Values(
        FindCase{"more", "- 100 g butter\n", "1. Melt 60 g butter.\n2. Add the remaining 60 g butter.\n",
                 "parts-do-not-add-up", true},
        FindCase{"exactly", "- 100 g butter\n", "1. Melt 60 g butter.\n2. Add the remaining 40 g butter.\n",
                 "parts-do-not-add-up", false},
        FindCase{"less", "- 100 g butter\n", "1. Melt 30 g of the butter.\n2. Spread 20 g of the butter.\n",
                 "parts-do-not-add-up", true},
        FindCase{"other units", "- 4 tbsp oil\n", "1. Heat 2 tbsp of the oil.\n2. Add the other 30 ml oil.\n",
                 "parts-do-not-add-up", false},
        FindCase{"the rest", "- 100 g butter\n",
                 "1. Melt 30 g of the butter.\n2. Add the rest of the butter.\n", "parts-do-not-add-up",
                 false},
        FindCase{"shares", "- 100 g butter\n", "1. Melt half the butter.\n2. Add the other half.\n",
                 "parts-do-not-add-up", false},
        FindCase{"divided, never", "- 100 g butter, divided\n", "1. Melt the butter.\n", "never-divided",
                 true},
        FindCase{"divided", "- 100 g butter, divided\n",
                 "1. Melt half the butter.\n2. Add the remaining butter.\n", "never-divided", false}));

// USDA SR28 (densities.csv), GNU units (gas marks: 25 °F a mark, mark 1 = 275 °F), °F = °C × 9/5 + 32
INSTANTIATE_TEST_SUITE_P(
    Pairs, Finders,
    ::testing::Values(
        FindCase{"NDB 19335: 200 g a cup", "- 200 g sugar (1 cup)\n", "1. Melt the sugar.\n",
                 "pair-disagrees", false},
        FindCase{"NDB 19335: 200 g a cup", "- 200 g sugar (2 cups)\n", "1. Melt the sugar.\n",
                 "pair-disagrees", true},
        FindCase{"NDB 20081: 125 g a cup, dipped or spooned", "- 150 g plain flour (1 cup)\n",
                 "1. Sift the flour.\n", "pair-disagrees", false},
        FindCase{"NDB 01145: 227 g a cup", "- 1 cup (227 g) butter\n", "1. Melt the butter.\n",
                 "pair-disagrees", false},
        FindCase{"an ounce is 28 g", "- 100 g (8 oz) cheddar\n", "1. Grate the cheddar.\n", "pair-disagrees",
                 true},
        FindCase{"an ounce is printed as 25 g", "- 225 g (9 oz) cheddar\n", "1. Grate the cheddar.\n",
                 "pair-disagrees", false},
        FindCase{"one tin in two systems", "- 1 x 400 g (14 oz) tin tomatoes\n", "1. Add the tomatoes.\n",
                 "pair-disagrees", false},
        FindCase{"two tins", "- 1 x 400 g (28 oz) tin tomatoes\n", "1. Add the tomatoes.\n", "pair-disagrees",
                 true},
        FindCase{"usual rounding", "- 2 leeks\n", "1. Bake the leeks at 180°C (350°F) for 20 minutes.\n",
                 "pair-disagrees", false},
        FindCase{"another oven", "- 2 leeks\n", "1. Bake the leeks at 180°C (450°F) for 20 minutes.\n",
                 "pair-disagrees", true},
        FindCase{"gas 4 is 350 °F", "- 2 leeks\n",
                 "1. Bake the leeks at 180C/160C fan/gas 4 for 20 minutes.\n", "pair-disagrees", false},
        FindCase{"gas 7 is 425 °F", "- 2 leeks\n",
                 "1. Bake the leeks at 180C/160C fan/gas 7 for 20 minutes.\n", "pair-disagrees", true},
        FindCase{"a fan hotter than the oven", "- 2 leeks\n",
                 "1. Bake the leeks at 180C/220C fan for 20 minutes.\n", "pair-disagrees", true}));

INSTANTIATE_TEST_SUITE_P(
    Yields, Finders,
    ::testing::Values(FindCase{"6 × 4", "- 2 leeks\n", "1. Slice the leeks.\n", "yield-disagrees", false,
                               "Serves 6. Makes 24 pasties, 4 each."},
                      FindCase{"6 × 3", "- 2 leeks\n", "1. Slice the leeks.\n", "yield-disagrees", true,
                               "Serves 6. Makes 24 pasties, 3 each."},
                      FindCase{"a range meets", "- 2 leeks\n", "1. Slice the leeks.\n", "yield-disagrees",
                               false, "Serves 4 to 6. Makes 12 pasties, 2 or 3 each."},
                      FindCase{"rolled into others", "- 200 g flour\n",
                               "1. Shape the flour dough into 20 balls.\n", "yield-disagrees", true,
                               "Makes 24 balls"},
                      FindCase{"half of them at a time", "- 200 g flour\n",
                               "1. Divide the flour dough into 12 balls.\n", "yield-disagrees", false,
                               "Makes 24 balls"}));

INSTANTIATE_TEST_SUITE_P(
    Times, Finders,
    ::testing::Values(
        FindCase{"no temperature", "- 2 leeks\n", "1. Bake the leeks for 20 minutes.\n",
                 "oven-without-temperature", true},
        FindCase{"set before", "- 2 leeks\n",
                 "1. Heat the oven to 200C.\n2. Bake the leeks for 20 minutes.\n", "oven-without-temperature",
                 false},
        FindCase{"set after", "- 2 leeks\n- 1 egg\n",
                 "1. Bake the leeks for 20 minutes.\n2. Heat the oven to 200C. Bake the egg for 5 minutes.\n",
                 "oven-without-temperature", true},
        FindCase{"in words", "- 2 leeks\n", "1. Bake the leeks in a moderate oven for 20 minutes.\n",
                 "oven-without-temperature", false},
        FindCase{"in a pan", "- 2 tsp cumin\n", "1. Roast the cumin in a dry pan for 2 minutes.\n",
                 "oven-without-temperature", false},
        FindCase{"side by side", "- 2 leeks\n- 200 g rice\n",
                 "1. Simmer the leeks for 20 minutes.\n2. Meanwhile, boil the rice for 20 minutes.\n",
                 "same-length-waits", true},
        FindCase{"of other lengths", "- 2 leeks\n- 200 g rice\n",
                 "1. Simmer the leeks for 20 minutes.\n2. Meanwhile, boil the rice for 12 minutes.\n",
                 "same-length-waits", false},
        FindCase{"one after the other", "- 2 leeks\n- 200 g rice\n",
                 "1. Simmer the leeks for 20 minutes.\n2. Boil the rice for 20 minutes.\n",
                 "same-length-waits", false},
        FindCase{"a total too short", "- 2 leeks\n", "1. Simmer the leeks for 40 minutes.\n",
                 "total-time-disagrees", true, "Total time: 20 minutes"},
        FindCase{"beside each other", "- 2 leeks\n- 200 g rice\n",
                 "1. Simmer the leeks for 40 minutes.\n2. Meanwhile, boil the rice for 12 minutes.\n",
                 "total-time-disagrees", false, "Total time: 45 minutes"},
        FindCase{"not all of it", "- 200 g beans\n",
                 "1. Soak the beans overnight.\n2. Boil for 40 minutes.\n", "total-time-disagrees", false,
                 "Total time: 1 hour, plus overnight soaking"},
        FindCase{"told late", "- 2 leeks\n- 1 l milk\n",
                 "1. Slice the leeks.\n2. Chill the milk overnight.\n", "told-late", true},
        FindCase{"told early", "- 2 leeks\n- 1 l milk\n",
                 "1. Slice the leeks.\n2. Chill the milk overnight.\n", "told-late", false,
                 "Start the day before. Serves 4"},
        FindCase{"without an end", "- 200 g flour\n", "1. Knead the flour.\n2. Chill the dough.\n",
                 "wait-without-end", true},
        FindCase{"until a sign", "- 200 g flour\n", "1. Knead the flour.\n2. Chill the dough until firm.\n",
                 "wait-without-end", false}));

INSTANTIATE_TEST_SUITE_P(
    Claims, Finders,
    ::testing::Values(FindCase{"vegan and honey", "- 2 tbsp honey\n", "1. Warm the honey.\n",
                               "claim-contradicted", true, "Vegan. Serves 4"},
                      FindCase{"vegan butter", "- 50 g vegan butter\n", "1. Melt the butter.\n",
                               "claim-contradicted", false, "Vegan. Serves 4"},
                      FindCase{"not vegan", "- 2 tbsp honey\n", "1. Warm the honey.\n", "claim-contradicted",
                               false, "This is not vegan. Serves 4"},
                      FindCase{"for a vegan version", "- 2 tbsp honey\n", "1. Warm the honey.\n",
                               "claim-contradicted", false, "For a vegan version use maple syrup. Serves 4"},
                      FindCase{"gluten-free and soy sauce", "- 2 tbsp soy sauce\n",
                               "1. Warm the soy sauce.\n", "claim-contradicted", true,
                               "Gluten-free. Serves 4"},
                      FindCase{"gluten-free and oats: 828/2014", "- 200 g oats\n", "1. Toast the oats.\n",
                               "claim-needs-label", true, "Gluten-free. Serves 4"},
                      FindCase{"oats contradict nothing", "- 200 g oats\n", "1. Toast the oats.\n",
                               "claim-contradicted", false, "Gluten-free. Serves 4"},
                      FindCase{"nobody's list decides", "- 200 g rice\n", "1. Boil the rice.\n",
                               "claim-not-checked", true, "Low-FODMAP. Serves 4"}));

INSTANTIATE_TEST_SUITE_P(
    CautionsAndWording, Finders,
    ::testing::Values(
        FindCase{"FDA Bad Bug Book", "- 300 g dried red kidney beans\n", "1. Soak the beans overnight.\n",
                 "caution", true},
        FindCase{"tinned beans are boiled", "- 1 x 400 g tin kidney beans\n", "1. Warm the beans.\n",
                 "caution", false},
        FindCase{"USDA FSIS", "- 8 chicken thighs\n", "1. Fry the chicken for 30 minutes.\n", "caution",
                 true},
        FindCase{"baked egg is no raw egg", "- 2 eggs\n- 200 g flour\n",
                 "1. Beat the eggs into the flour. Bake at 180C.\n", "caution", false},
        FindCase{"bicarbonate neutralises acid: common practice, no source",
                 "- 1 tsp bicarbonate of soda\n- 1 lemon\n",
                 "1. Stir the bicarbonate into the lemon juice.\n", "caution", false},
        FindCase{"a hidden action", "- 2 onions\n", "1. Add the chopped onions.\n", "hidden-action", true},
        FindCase{"told in the list", "- 2 onions, chopped\n", "1. Add the chopped onions.\n", "hidden-action",
                 false},
        FindCase{"measured, not listed", "- 2 onions\n", "1. Add 600 ml boiling water to the onions.\n",
                 "unlisted-amount", true},
        FindCase{"a tin without a size", "- 200 g flour\n", "1. Put the flour in a cake tin. Bake at 180C.\n",
                 "pan-without-size", true},
        FindCase{"no sign", "- 2 onions\n", "1. Simmer the onions until done.\n", "cue-missing", true}));

struct CautionCase {
  const char* id;
  const char* list;
  const char* method;
  const char* head;
};

// A recipe for each row of cautions.csv; the sources are the rows' own.
const CautionCase kCautions[] = {
    {"kidney_beans", "- 300 g dried red kidney beans\n", "1. Soak the beans overnight.\n", "Serves 4"},
    {"rice_cooling", "- 300 g rice\n", "1. Boil the rice and cool it.\n", "Serves 4"},
    {"raw_egg", "- 2 egg yolks\n- 200 ml oil\n", "1. Whisk the oil into the yolks.\n", "Serves 4"},
    {"raw_flour", "- 200 g flour\n- 100 g butter\n", "1. Rub the butter into the flour.\n", "Serves 4"},
    {"poultry", "- 8 chicken thighs\n", "1. Fry the chicken.\n", "Serves 4"},
    {"wash_poultry", "- 8 chicken thighs\n", "1. Rinse the chicken. Fry the chicken.\n", "Serves 4"},
    {"ground_meat", "- 500 g beef mince\n", "1. Fry the mince.\n", "Serves 4"},
    {"whole_cuts", "- 4 pork chops\n", "1. Fry the chops.\n", "Serves 4"},
    {"fish", "- 400 g cod\n", "1. Fry the cod.\n", "Serves 4"},
    {"raw_fish", "- 400 g salmon\n", "1. Slice the salmon.\n", "A ceviche. Serves 4"},
    {"garlic_oil", "- 6 cloves garlic\n- 200 ml olive oil\n", "1. Cover the garlic with the oil.\n",
     "Garlic oil. Serves 4"},
    {"honey_infant", "- 2 tbsp honey\n", "1. Warm the honey.\n", "For weaning. Serves 4"},
    {"two_hours", "- 500 g beef mince\n", "1. Fry the mince. Cool, then chill.\n", "Serves 4"},
    {"leftovers", "- 500 g beef mince\n", "1. Fry the mince. Leftovers are good.\n", "Serves 4"},
    {"freezing", "- 2 leeks\n", "1. Fry the leeks. Freeze the rest.\n", "Serves 4"},
    {"thawing", "- 2 leeks\n", "1. Thaw the leeks.\n", "Serves 4"},
    {"canning", "- 2 leeks\n", "1. Pack the leeks in sterilised jars.\n", "Serves 4"},
    {"reheating", "- 2 leeks\n", "1. Fry the leeks and reheat.\n", "Serves 4"},
    {"leaving_out", "- 4 pork chops\n", "1. Leave the chops to marinate for 4 hours.\n", "Serves 4"},
};

TEST(Cautions, EachRowOfTheTableIsTold) {
  std::ifstream table(std::string(PANSLATE_SOURCE_DIR) + "/src/kitchen/data/cautions.csv");
  std::string row;
  std::getline(table, row);
  std::size_t rows = 0;
  while (std::getline(table, row)) {
    const auto id = row.substr(0, row.find(','));
    const auto one = std::find_if(std::begin(kCautions), std::end(kCautions),
                                  [&](const CautionCase& caution) { return caution.id == id; });
    ++rows;
    if (one == std::end(kCautions)) {
      ADD_FAILURE() << "no recipe for the caution " << id;
      continue;
    }
    const auto reading = read(recipe_of(one->list, one->method, one->head));
    EXPECT_TRUE(std::any_of(reading.findings.begin(), reading.findings.end(), [&](const auto& finding) {
      return finding.code == "caution" && finding.message == food_caution(id).sentence;
    })) << id;
  }
  EXPECT_EQ(rows, std::size(kCautions));
}

// Neither time nor memory may grow with the square of the recipe. A debug build takes 3 seconds here; it took
// a minute before foods were looked up once.
TEST(Reading, OfAVeryLongRecipeEnds) {
  std::string unknown;
  std::string flour;
  std::string steps;
  std::string mixing;
  const std::vector<std::string> foods{"chicken", "cheddar", "walnuts", "prawns", "salmon", "almonds"};
  for (int i = 0; i < 1000; ++i) {
    const auto n = std::to_string(i + 1);
    const std::string word{char('a' + i % 26), 'u', char('a' + i / 26 % 26), 'o', char('a' + i / 676), 'k'};
    unknown += "- " + n + " g " + word + "\n";
    flour += "- " + n + " g flour\n";
    const auto at = static_cast<std::size_t>(i);
    steps += n + ". Fry the " + foods[at % 6] + " with the " + foods[(at + 2) % 6] + ".\n";
    mixing += n + ". Mix the flour.\n";
  }
  const auto before = std::chrono::steady_clock::now();
  (void)read(recipe_of(unknown, steps));
  const auto shared = read(recipe_of(flour, mixing));
  EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(30));
  std::size_t uses = 0;
  for (const auto& step : shared.flow.steps) uses += step.uses.size();
  EXPECT_LT(uses, 1000U * 100U) << "not 1000 lines a step";
}

TEST(Reading, TellsLineColumnAndWhatToDo) {
  const auto reading =
      read("# Dish\n\n## Ingredients\n\n- 2 leeks\n\n## Method\n\n1. Slice the leeks, add the okra.\n");
  const auto found = std::find_if(reading.findings.begin(), reading.findings.end(),
                                  [](const auto& f) { return f.code == "unlisted-ingredient"; });
  ASSERT_NE(found, reading.findings.end());
  EXPECT_EQ(found->line, 9);
  EXPECT_EQ(found->column, 29);  // "1. Slice the leeks, add the okra": counted by hand
  EXPECT_EQ(found->message, "Step 1 uses okra, which no line of the ingredients lists.");
  EXPECT_EQ(found->advice, "Add a line with its amount to the ingredients.");
}

TEST(Reading, ProposesNamesForTheTimers) {
  const auto reading = read(recipe_of("- 2 leeks\n- 200 g rice\n",
                                      "1. Simmer the leeks for 20 minutes.\n"
                                      "2. Meanwhile, boil the rice for 20 minutes.\n"));
  const auto found = std::find_if(reading.findings.begin(), reading.findings.end(),
                                  [](const auto& f) { return f.code == "same-length-waits"; });
  ASSERT_NE(found, reading.findings.end());
  EXPECT_NE(found->advice.find("\"leeks, simmer\" and \"rice, boil\""), std::string::npos) << found->advice;
}

TEST(Allergens, OfWhatNoLineListsAreTold) {
  const auto reading =
      read(recipe_of("- 2 leeks\n", "1. Fry the leeks, stir in the walnuts.\n", "Nut-free. Serves 4"));
  ASSERT_EQ(reading.allergens.size(), 1U);
  EXPECT_EQ(reading.allergens[0].id, "tree_nuts");
  EXPECT_EQ(reading.allergens[0].in_method.size(), 1U);
  EXPECT_TRUE(has(reading, "claim-contradicted"));
}

TEST(Reading, ForOtherServingsNeedsToKnowHowManyItServes) {
  ReadOptions options;
  options.serves = Ratio(6);
  const auto reading = read(recipe_of("- 2 leeks\n", "1. Fry the leeks.\n", "For a cold day."), options);
  EXPECT_FALSE(reading.scaled);
  EXPECT_TRUE(has(reading, "not-scaled"));
}

}  // namespace
}  // namespace panslate
