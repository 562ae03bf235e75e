#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/recipe/recipe.h"

#include "recipe/recipe_dump.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

Recipe read(std::string_view text) {
  auto recipe = read_recipe(text, "soup.md");
  EXPECT_TRUE(recipe) << render(recipe.error());
  return recipe ? *recipe : Recipe{};
}

std::vector<std::string> names(const Recipe& recipe) {
  std::vector<std::string> out;
  for (const auto& ingredient : recipe.ingredients)
    out.push_back((ingredient.group.empty() ? "" : ingredient.group + ": ") + ingredient.name);
  return out;
}

std::vector<std::string> steps(const Recipe& recipe) {
  std::vector<std::string> out;
  for (const auto& step : recipe.steps)
    out.push_back((step.part.empty() ? "" : step.part + ": ") + step.text);
  return out;
}

using Strings = std::vector<std::string>;

TEST(RecipeReader, ReadsPlainText) {
  const auto recipe = read(
      "Leek and barley soup\n"
      "Serves 4\n"
      "\n"
      "Ingredients\n"
      "2 leeks, sliced\n"
      "150 g pearl barley\n"
      "For the topping:\n"
      "1 tbsp dill, chopped\n"
      "\n"
      "Method\n"
      "Soften the leeks for 10 minutes.\n"
      "Add the barley and simmer for 40 minutes, until tender.\n");
  EXPECT_EQ(recipe.title, "Leek and barley soup");
  ASSERT_EQ(recipe.yields.size(), 1U);
  EXPECT_EQ(dump(recipe.yields[0].amount), "4 serving");
  EXPECT_EQ(names(recipe), (Strings{"leeks", "pearl barley", "For the topping: dill"}));
  EXPECT_EQ(steps(recipe), (Strings{"Soften the leeks for 10 minutes.",
                                    "Add the barley and simmer for 40 minutes, until tender."}));
  ASSERT_EQ(recipe.steps[1].times.size(), 1U);
  EXPECT_EQ(dump(recipe.steps[1].times[0].amount), "40 min");
  EXPECT_EQ(recipe.steps[1].times[0].action, "simmer");
  EXPECT_EQ(recipe.steps[1].times[0].line, 12);
  EXPECT_EQ(recipe.steps[1].times[0].column, 31);
  EXPECT_EQ(recipe.steps[1].cues, Strings{"until tender"});
  EXPECT_EQ(recipe.steps[0].uses, std::vector<std::size_t>{0});
  EXPECT_EQ(recipe.steps[1].uses, std::vector<std::size_t>{1});
}

// The lines of the list items of a Markdown ingredient section, found by their marks alone.
std::vector<std::pair<int, std::string>> item_lines(const std::string& text) {
  std::vector<std::pair<int, std::string>> items;
  bool inside = false;
  int number = 0;
  for (const auto& line : split_lines(text)) {
    ++number;
    const auto bare = trim(line.text);
    if (bare.substr(0, 2) == "##" && bare.substr(0, 3) != "###")
      inside = bare.find("Ingredients") != std::string_view::npos;
    if (!inside || bare.size() < 3) continue;
    const bool mark =
        (bare[0] == '-' || bare[0] == '*' || bare[0] == '+') && (bare[1] == ' ' || bare[1] == '\t');
    if (mark) items.emplace_back(number, std::string(trim(bare.substr(2))));
  }
  return items;
}

TEST(RecipeReader, DropsNoIngredientLineOfAnyRecipeAsPeopleWriteThem) {
  const fs::path folder = fs::path(PANSLATE_SOURCE_DIR) / ".." / "shared" / "media" / "recipes";
  if (!fs::exists(folder)) GTEST_SKIP() << "no recipes beside the source";
  std::size_t files = 0;
  std::size_t items = 0;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() != ".md" || entry.path().stem() == "LICENSE") continue;
    std::ifstream in(entry.path());
    std::stringstream bytes;
    bytes << in.rdbuf();
    const auto text = to_utf8(bytes.str());
    const auto recipe = read_recipe(text, entry.path().filename());
    ASSERT_TRUE(recipe) << render(recipe.error());
    for (const auto& item : item_lines(text)) {
      const int line = item.first;
      const auto& words = item.second;
      const bool kept =
          std::any_of(recipe->ingredients.begin(), recipe->ingredients.end(), [&](const Ingredient& i) {
            return i.line == line || (!i.group.empty() && words.substr(0, i.group.size()) == i.group);
          });
      EXPECT_TRUE(kept) << entry.path().filename() << ":" << line << ": " << words;
      ++items;
    }
    EXPECT_FALSE(recipe->steps.empty()) << entry.path().filename();
    EXPECT_FALSE(recipe->title.empty()) << entry.path().filename();
    ++files;
  }
  EXPECT_GT(files, 0U);
  std::cout << items << " ingredient lines of " << files << " recipes kept\n";
}

TEST(RecipeReader, ReadsYieldsInAnyWording) {
  const std::vector<std::pair<const char*, const char*>> cases = {
      {"Serves 4", "4 serving"},
      {"Servings: 5", "5 serving"},
      {"🍽️ Servings:5", "5 serving"},
      {"Makes 24 pasties", "24 pasties"},
      {"Makes about 24", "about 24 piece"},
      {"Yield: 12 muffins", "12 muffins"},
      {"For 4 people", "4 serving"},
      {"4 servings", "4 serving"},
      {"Serves 4–6", "4..6 serving"},
      {"Serves four to six", "4..6 serving"},
      {"Makes 1 loaf", "1 loaf"},
      {"Yield: 4 servings", "4 serving"},
      {"**Serves:** 2", "2 serving"},
      {"Feeds 8", "8 serving"},
      {"Makes enough for 6", "6 serving"},
      {"Prep 10 min | Cook 20 min | Serves 4", "4 serving"},
      {"Portions: 3", "3 serving"},
      {"(serves 4)", "4 serving"},
      {"Makes 2 litres", "2 l"},
      {"This serves 4 people as a main", "4 serving"},
      {"This soup makes a great supper for the family, whatever the day.", ""}};
  for (const auto& [line, wanted] : cases) {
    const auto recipe =
        read("Soup\n\n" + std::string(line) + "\n\nIngredients\n- 2 leeks\n\nMethod\nBoil for 5 minutes.\n");
    ASSERT_EQ(recipe.ingredients.size(), 1U) << line;
    std::vector<std::string> yields;
    for (const auto& yield : recipe.yields) yields.push_back(dump(yield.amount));
    EXPECT_EQ(join(yields, "; "), wanted) << line;
  }
  const auto twice = read("Soup\nServes 4\n\nIngredients (serves 4)\n2 leeks\n\nMethod\nBoil.\n");
  EXPECT_EQ(twice.yields.size(), 1U);
}

struct ShapeCase {
  const char* what;
  const char* text;
  Strings names, steps;
};

TEST(RecipeReader, FindsTheListAndTheMethodInAnyShape) {
  const std::vector<ShapeCase> cases = {
      {"capitals",
       "LEEK SOUP\n\nINGREDIENTS\n2 leeks\nSalt\n\nFOR THE TOPPING\n1 tbsp dill\n\nMETHOD\nBoil the leeks.\n",
       {"leeks", "Salt", "FOR THE TOPPING: dill"},
       {"Boil the leeks."}},
      {"bold headings",
       "# Soup\n\n**Ingredients:**\n* 2 leeks\n\n**Sauce**\n* 1 tbsp oil\n\n**Method:**\n1. Boil.\n2. "
       "Serve.\n",
       {"leeks", "Sauce: oil"},
       {"Boil.", "Serve."}},
      {"underlined headings",
       "Soup\n====\n\nIngredients\n-----------\n\n- 2 leeks\n\nMethod\n------\n\nBoil the leeks\nuntil "
       "soft.\n\nServe.\n",
       {"leeks"},
       {"Boil the leeks until soft.", "Serve."}},
      {"pictures and boxes",
       "Soup\n\n🛒 Ingredients\n▢ 2 leeks\n[ ] 1 onion\n• salt\n\n👩‍🍳 Directions\n1) Boil.\n2) "
       "Serve.\n",
       {"leeks", "onion", "salt"},
       {"Boil.", "Serve."}},
      {"a table",
       "# Soup\n\n## Ingredients\n\n| amount | ingredient |\n|---|---|\n| 250 g | leeks |\n| 1 | onion "
       "|\n\n## Steps\n\nBoil.\n",
       {"leeks", "onion"},
       {"Boil."}},
      {"no headings",
       "Leek soup\nServes 2\n\n2 leeks, sliced\n1 litre vegetable stock\nsalt\n\nSoften the leeks for 10 "
       "minutes.\n\nAdd the stock and simmer.\n",
       {"leeks", "vegetable stock", "salt"},
       {"Soften the leeks for 10 minutes.", "Add the stock and simmer."}},
      {"no method heading",
       "# Soup\n\n## Ingredients\n- 2 leeks\n- salt\n\n1. Boil the leeks.\n2. Serve.\n",
       {"leeks", "salt"},
       {"Boil the leeks.", "Serve."}},
      {"nested groups",
       "# Soup\n\n## Ingredients\n- 2 leeks\n- Spices:\n    - 1 tsp cumin\n    - salt\n- 1 onion\n\n## "
       "Method\nBoil.\n",
       {"leeks", "Spices: cumin", "Spices: salt", "onion"},
       {"Boil."}},
      {"two lists",
       "# Pie\n\n## Pastry\n\n### Ingredients\n- 200 g flour\n\n### Method\n1. Rub the flour.\n\n## "
       "Filling\n\n### Ingredients\n- 2 leeks\n\n### Method\n1. Soften the leeks.\n",
       {"Pastry: flour", "Filling: leeks"},
       {"Pastry: Rub the flour.", "Filling: Soften the leeks."}},
      {"parts of the method",
       "Soup\n\nIngredients\n2 leeks\n\nMethod\nFor the soup:\n1. Boil.\n\nFor the topping:\n2. Fry.\n",
       {"leeks"},
       {"soup: Boil.", "topping: Fry."}},
      {"labelled steps",
       "Soup\n\nIngredients\n2 leeks\n\nInstructions\nStep 1\nBoil the leeks.\nStep 2: Serve.\n",
       {"leeks"},
       {"Boil the leeks.", "Serve."}},
      {"on one line",
       "Soup\n\nIngredients: 2 leeks, sliced; 1,5 l stock; salt.\n\nMethod: Boil the leeks. Serve.\n",
       {"leeks", "stock", "salt"},
       {"Boil the leeks. Serve."}},
      {"wrapped lines",
       "# Soup\n\n## Ingredients\n* 70 g cheese, of a kind that\n  melts\n* salt\n\n## Method\n1. Melt the "
       "cheese\n   slowly.\n2. Serve.\n",
       {"cheese", "salt"},
       {"Melt the cheese slowly.", "Serve."}},
      {"two columns",
       "Tart\n\nIngredients\n200 g plain flour          1 pinch salt\n100 g butter, cold\t2 tbsp iced "
       "water\n\nMethod\nRub it in.\n",
       {"plain flour", "salt", "butter", "iced water"},
       {"Rub it in."}},
      {"several on a line",
       "Stew\n\nShopping list:\n400 g white beans; 2 carrots; 1 onion\n2 tbsp oil\n\nHow to make it:\nStep 1 "
       "- "
       "Fry.\nStep 2 - Serve.\n",
       {"white beans", "carrots", "onion", "oil"},
       {"Fry.", "Serve."}},
      {"numbers without a stop",
       "Stew\nIngredients\nBeans 400g\nCarrots 2\n\nMethod\n1 Fry the carrots.\n2 Add the beans.\n\nTop "
       "tip\nAdd a rind.\n",
       {"Beans", "Carrots"},
       {"Fry the carrots.", "Add the beans."}},
      {"parts named by a line alone",
       "Stew\n\nIngredients (4 people)\nStew\n400 g beans\n2 carrots\nTopping\n50 g breadcrumbs\n\n"
       "Instructions\nStew\nFry the carrots.\nAdd the beans.\nTopping\nToast the crumbs.\n",
       {"Stew: beans", "Stew: carrots", "Topping: breadcrumbs"},
       {"Stew: Fry the carrots.", "Stew: Add the beans.", "Topping: Toast the crumbs."}},
      {"headed steps and a table of nutrition",
       "# Stew\n\n## What you'll need\n\n| Ingredient | Amount | Notes |\n|---|---|---|\n| Beans | 400 g | "
       "drained |\n| Salt | to taste | |\n\n## Let's cook!\n\n### Step 1: The base\nFry it.\n\n### Step 2: "
       "The "
       "stew\nAdd the beans.\n\n## Nutrition\n| Energy | 300 kcal |\n|---|---|\n| Fat | 10 g |\n",
       {"Beans", "Salt"},
       {"The base: Fry it.", "The stew: Add the beans."}},
      {"bullets of all kinds, nothing told",
       "Stew\n\n\xE2\x98\x90 400 g beans\n\xE2\x98\x90 2 carrots, diced\n\n\xE2\x80\xA2 Fry the carrots for "
       "5 "
       "minutes.\n\xE2\x80\xA2 Add the rest and simmer.\n\nNutrition per serving: 300 kcal, 10 g fat\n",
       {"beans", "carrots"},
       {"Fry the carrots for 5 minutes.", "Add the rest and simmer."}},
      {"notes are no steps",
       "Soup\n\nIngredients\n2 leeks\n\nMethod\nBoil the leeks.\n\nNote: keeps for a day.\n\nTips\nServe "
       "cold.\n",
       {"leeks"},
       {"Boil the leeks."}},
  };
  for (const auto& one : cases) {
    const auto recipe = read(one.text);
    EXPECT_EQ(names(recipe), one.names) << one.what;
    EXPECT_EQ(steps(recipe), one.steps) << one.what;
    EXPECT_FALSE(recipe.title.empty()) << one.what;
  }
}

TEST(RecipeReader, InventsNoIngredients) {
  const std::vector<std::pair<std::string, std::size_t>> cases = {
      {"1 cup sugar, 1/2 cup for the top, 2 tbsp for the tin", 1},
      {"300 g butter, 200 g soft, 100 g melted", 1},
      {"2 carrots, 1 diced, 1 whole", 1},
      {"2   400 g tins of white beans", 1},
      {"2\t400 g tins of white beans", 1},
      {"400 g beans, 2 carrots, 1 onion", 3},
  };
  for (const auto& [line, wanted] : cases)
    EXPECT_EQ(read("Soup\n\nIngredients\n" + line + "\nsalt\n\nMethod\nBoil.\n").ingredients.size(),
              wanted + 1)
        << line;
}

TEST(RecipeReader, StripsMarkUp) {
  const auto recipe = read(
      "---\ntitle: \"Squash bake\"\ntags: ['autumn', \"baked\"]\nservings: 4\n---\n<!-- 3 eggs -->\n## "
      "Ingredients\n"
      "- **1&frac12; kg** [squash](/squash), *peeled*\n- 2 tbsp oil<br>\n\n## Method\n\n1. Bake at 200 "
      "&deg;C.\n");
  EXPECT_EQ(recipe.title, "Squash bake");
  ASSERT_EQ(recipe.ingredients.size(), 2U);
  EXPECT_EQ(recipe.ingredients[0].text, "1½ kg squash, peeled");
  EXPECT_EQ(recipe.ingredients[0].line, 8);
  EXPECT_EQ(dump(recipe.ingredients[0].amounts), "3/2 kg");
  ASSERT_EQ(recipe.tags.size(), 2U);
  EXPECT_EQ(recipe.tags[1].text, "baked");
  ASSERT_EQ(recipe.steps.size(), 1U);
  ASSERT_EQ(recipe.steps[0].temperatures.size(), 1U);
  EXPECT_EQ(recipe.steps[0].temperatures[0].line, 13);
  EXPECT_EQ(recipe.steps[0].temperatures[0].column, 12);
}

TEST(RecipeReader, KeysLastAndTellRepeatsApart) {
  const std::string method = "\nMethod\nBoil for 5 minutes.\n";
  const auto first = read("Soup\n\nIngredients\n2 leeks\nsalt\nsalt\n" + method);
  const auto second = read("Soup\n\nIngredients\n1 onion\n3 leeks\nsalt\nsalt\n" + method);
  EXPECT_EQ(first.ingredients[0].key, second.ingredients[1].key) << "an amount corrected, a line inserted";
  EXPECT_EQ(first.ingredients[1].key, second.ingredients[2].key);
  EXPECT_NE(first.ingredients[1].key, first.ingredients[2].key) << "the same words again";
  EXPECT_EQ(first.steps[0].key, second.steps[0].key);
}

TEST(RecipeReader, RefusesWithAPlaceAndAHint) {
  const std::vector<std::pair<std::string, const char*>> cases = {
      {"",
       "soup.md: error: the recipe is empty\n  hint: write a title, a line 'Ingredients' with one ingredient "
       "a "
       "line below it, and a line 'Method'"},
      {"\n\nOnce upon a time there was a cook who wrote nothing down at all.\n",
       "soup.md:3: error: no list of ingredients is to be found\n  hint: write a line 'Ingredients', below "
       "it one "
       "ingredient a line, then a line 'Method'"},
      {"1\n00:00:01,000 --> 00:00:04,000\nTwo eggs and a cup of flour.\n",
       "soup.md:2:1: error: these are captions, not a recipe\n  hint: name the written recipe here, and the "
       "captions after --captions"},
      {to_utf8(std::string("PK\x03\x04\x14\x00\x06\x00\x08\x00\xff\xfe\x01\x02", 14)),
       "soup.md:1:3: error: this is no text\n  hint: give the recipe as plain text or Markdown; a document "
       "of a word "
       "processor can be saved as one"},
  };
  for (const auto& [text, wanted] : cases) {
    const auto recipe = read_recipe(text, "soup.md");
    ASSERT_FALSE(recipe);
    EXPECT_EQ(recipe.error().code, ErrorCode::Malformed);
    EXPECT_EQ(render(recipe.error()), wanted);
  }
}

TEST(RecipeReader, TellsWhoseCupsTheyAre) {
  const auto with = [](const std::string& line) {
    return read("Soup\n\nIngredients\n" + line + "\n2 leeks\n\nMethod\nBoil the leeks.\n");
  };
  EXPECT_EQ(with("1 cup (240 ml) oat milk").measures, Measures::Us);
  EXPECT_EQ(with("1 cup (240 ml) oat milk").measures_reason, "1 cup (240 ml) on line 4");
  EXPECT_EQ(with("1 cup (250 ml) oat milk").measures, Measures::Metric);
  EXPECT_EQ(with("1 tbsp (20 ml) oil").measures, Measures::Au);
  EXPECT_EQ(with("2 cups all-purpose flour").measures, Measures::Us);
  EXPECT_EQ(with("500 ml milk").measures, Measures::Metric);
  EXPECT_EQ(with("1 aubergine").measures, Measures::Uk);
}

TEST(RecipeReader, FindsWhatEachStepUses) {
  const auto recipe = read(
      "Pie\n\nIngredients\nFor the pastry:\n200 g plain flour\n100 g butter\nFor the filling:\n1 tbsp plain "
      "flour\n"
      "2 red onions\n3 spring onions\n400 ml coconut milk\n500 g chicken thighs\n1 aubergine\n\nMethod\n"
      "For the pastry:\n1. Rub the butter into the flour.\n\nFor the filling:\n2. Soften the onions.\n"
      "3. Stir in the flour.\n4. Add the milk and the chicken.\n5. Scatter over the spring onions and the "
      "eggplant.\n");
  ASSERT_EQ(recipe.steps.size(), 5U);
  using Uses = std::vector<std::size_t>;
  EXPECT_EQ(recipe.steps[0].uses, (Uses{0, 1}));
  EXPECT_EQ(recipe.steps[1].uses, (Uses{3}));
  EXPECT_EQ(recipe.steps[2].uses, (Uses{2}));
  EXPECT_EQ(recipe.steps[3].uses, (Uses{5, 6}));
  EXPECT_EQ(recipe.steps[4].uses, (Uses{4, 7}));
}

}  // namespace
}  // namespace panslate
