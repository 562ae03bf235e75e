#include "project/references.h"

#include <gtest/gtest.h>

namespace panslate {
namespace {

Ingredient ingredient(int line, std::string key, std::string text, std::string name,
                      std::vector<std::string> foods = {}, std::vector<std::string> or_foods = {}) {
  Ingredient it;
  it.line = line;
  it.key = std::move(key);
  it.text = std::move(text);
  it.foods = foods.empty() ? std::vector<std::string>{name} : std::move(foods);
  it.or_foods = std::move(or_foods);
  it.name = std::move(name);
  return it;
}

Step step(int line, std::string key, std::string text) {
  Step it;
  it.line = line;
  it.key = std::move(key);
  it.text = std::move(text);
  return it;
}

Recipe flatbread() {
  Recipe recipe;
  recipe.ingredients = {
      ingredient(5, "1111111111111111", "250 g flour", "flour"),
      ingredient(6, "2222222222222222", "100 g rice flour", "rice flour"),
      ingredient(7, "3333333333333333", "salt and pepper", "salt and pepper", {"salt", "pepper"}),
      ingredient(8, "4444444444444444", "2 red onions, sliced", "red onions"),
      ingredient(9, "5555555555555555", "½ lime, juiced", "lime"),
      ingredient(10, "6666666666666666", "1 lime, juiced", "lime"),
      ingredient(11, "7777777777777777", "20 g butter or margarine", "butter", {}, {"margarine"}),
      ingredient(12, "8888888888888888", "1 handful crème fraîche", "crème fraîche"),
      ingredient(13, "9999999999999999", "1 aubergine", "aubergine"),
  };
  recipe.steps = {
      step(20, "aaaaaaaaaaaaaaaa", "Stir the flour and salt."),
      step(21, "bbbbbbbbbbbbbbbb", "Stir in the lime juice; don't knead."),
      step(22, "cccccccccccccccc", "Heat a **dry** pan, then stir the onions in it."),
      step(0, "dddddddddddddddd", "Serve"),
      step(24, "eeeeeeeeeeeeeeee", "Serve the rest with Crème fraîche."),
  };
  return recipe;
}

struct ReferenceCase {
  std::string written;
  std::optional<std::size_t> index;
  std::string told;
};

TEST(References, FindStepsByWordsThatLast) {
  const ReferenceCase cases[] = {
      {"cccccccccccccccc", 2, ""},
      {"Stir the flour and salt.", 0, ""},
      {"stir  the FLOUR", 0, ""},
      {"Stir the", 0, ""},  // step 3 holds these words, step 1 begins with them
      {"Stir the flou", 0, ""},
      {"Stir in the lime…", 1, ""},
      {"stir in the lime juice — don’t knead", 1, ""},
      {"Heat a dry pan", 2, ""},
      {"the onions in", 2, ""},
      {"creme fraiche", 4, ""},
      {"Serve", 3, ""},  // the whole step, before one that goes on
      {"Serve the", 4, ""},
      {" Serve ", 3, ""},
      {"Stir", std::nullopt,
       "p.json:2:3: error: segments[0].step: \"Stir\" fits 2 steps: \"Stir the flour and salt.\" (line 20), "
       "\"Stir in "
       "the lime juice; don't knead.\" (line 21)\n  hint: write more of its words, or its key from a report"},
      {"onion", std::nullopt,
       "p.json:2:3: error: segments[0].step: no step of the recipe fits \"onion\"\n"
       "  hint: the nearest: \"Heat a **dry** pan, then stir the onions in it.\" (line 22)"},
      {"Knead the flour", std::nullopt,
       "p.json:2:3: error: segments[0].step: no step of the recipe fits \"Knead the flour\"\n"
       "  hint: the nearest: \"Stir the flour and salt.\" (line 20), \"Stir in the lime juice; don't "
       "knead.\" (line "
       "21)"},
      {"Soak beans", std::nullopt,
       "p.json:2:3: error: segments[0].step: no step of the recipe fits \"Soak beans\""},
      {"…", std::nullopt, "p.json:2:3: error: segments[0].step: no step of the recipe fits \"…\""},
      {"ffffffffffffffff", std::nullopt,
       "p.json:2:3: error: segments[0].step: no step of the recipe fits \"ffffffffffffffff\""},
  };
  const auto recipe = flatbread();
  const ReferenceFinder finder(recipe);
  for (const auto& [written, index, told] : cases) {
    SCOPED_TRACE(written);
    LastingReference reference{written, std::nullopt, Place{"p.json", 2, 3}};
    const auto doubt = finder.resolve_step(reference, "segments[0].step");
    EXPECT_EQ(reference.index, index);
    EXPECT_EQ(doubt ? render(*doubt) : "", told);
  }
}

TEST(References, FindIngredientsByNameLineOrKey) {
  const ReferenceCase cases[] = {
      {"4444444444444444", 3, ""},
      {"flour", 0, ""},  // its whole name, before "rice flour"
      {"rice", 1, ""},
      {"Rice Flours", 1, ""},
      {"pepper", 2, ""},
      {"salt and pepper", 2, ""},
      {"onion", 3, ""},
      {"red onion", 3, ""},
      {"2 red onions, sliced", 3, ""},
      {"sliced", 3, ""},  // of the line, where no name has it
      {"½ lime, juiced", 4, ""},
      {"1 lime, juiced", 5, ""},
      {"margarine", 6, ""},
      {"creme fraiche", 7, ""},
      {"eggplant", 8, ""},
      {"aubergines", 8, ""},
      {"lime", std::nullopt,
       "p.json:2:3: error: shows: \"lime\" fits 2 ingredients: \"½ lime, juiced\" (line 9), \"1 lime, "
       "juiced\" (line "
       "10)\n  hint: write its whole line, or its key from a report"},
      {"white onions", std::nullopt,
       "p.json:2:3: error: shows: no ingredient of the recipe fits \"white onions\"\n"
       "  hint: the nearest: \"2 red onions, sliced\" (line 8)"},
      {"buter", std::nullopt,
       "p.json:2:3: error: shows: no ingredient of the recipe fits \"buter\"\n"
       "  hint: the nearest: \"20 g butter or margarine\" (line 11)"},
      {"garlic", std::nullopt, "p.json:2:3: error: shows: no ingredient of the recipe fits \"garlic\""},
      {"our", std::nullopt, "p.json:2:3: error: shows: no ingredient of the recipe fits \"our\""},
  };
  const auto recipe = flatbread();
  const ReferenceFinder finder(recipe);
  for (const auto& [written, index, told] : cases) {
    SCOPED_TRACE(written);
    LastingReference reference{written, std::nullopt, Place{"p.json", 2, 3}};
    const auto doubt = finder.resolve_ingredient(reference, "shows");
    EXPECT_EQ(reference.index, index);
    EXPECT_EQ(doubt ? render(*doubt) : "", told);
  }
}

TEST(References, ListsNoMoreThanFour) {
  Recipe recipe;
  for (int i = 1; i <= 6; ++i)
    recipe.steps.push_back(step(i, std::to_string(i), "Stir " + std::to_string(i)));
  LastingReference reference{"stir", std::nullopt, Place{"p.json", 1, 1}};
  const auto doubt = ReferenceFinder(recipe).resolve_step(reference, "step");
  ASSERT_TRUE(doubt.has_value());
  EXPECT_EQ(doubt->message,
            "step: \"stir\" fits 6 steps: \"Stir 1\" (line 1), \"Stir 2\" (line 2), \"Stir 3\" (line 3), "
            "\"Stir 4\" "
            "(line 4) and 2 more");
}

}  // namespace
}  // namespace panslate
