#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
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

// The list items of a Markdown ingredient section, counted by their marks alone.
std::size_t count_items(const std::string& text) {
  std::size_t items = 0;
  bool inside = false;
  for (const auto& line : split_lines(text)) {
    const auto bare = trim(line.text);
    if (bare.substr(0, 2) == "##" && bare.substr(0, 3) != "###")
      inside = bare.find("Ingredients") != std::string_view::npos;
    if (!inside || bare.size() < 3) continue;
    const bool mark =
        (bare[0] == '-' || bare[0] == '*' || bare[0] == '+') && (bare[1] == ' ' || bare[1] == '\t');
    items += static_cast<std::size_t>(mark);
  }
  return items;
}

TEST(RecipeReader, DropsNoIngredientLineOfAnyRecipeAsPeopleWriteThem) {
  const fs::path folder = fs::path(PANSLATE_SOURCE_DIR) / ".." / "shared" / "media" / "recipes";
  if (!fs::exists(folder)) GTEST_SKIP() << "no recipes beside the source";
  std::size_t files = 0;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() != ".md" || entry.path().stem() == "LICENSE") continue;
    std::ifstream in(entry.path());
    std::stringstream bytes;
    bytes << in.rdbuf();
    const auto text = to_utf8(bytes.str());
    const auto recipe = read_recipe(text, entry.path().filename());
    ASSERT_TRUE(recipe) << render(recipe.error());
    std::size_t groups = 0;
    std::string last;
    std::size_t extra = 0;
    for (const auto& ingredient : recipe->ingredients) {
      const auto line = split_lines(text)[static_cast<std::size_t>(ingredient.line) - 1].text;
      const auto bare = trim(line);
      extra += static_cast<std::size_t>(bare[0] != '-' && bare[0] != '*' && bare[0] != '+');
      if (ingredient.group != last && !ingredient.group.empty())
        groups += static_cast<std::size_t>(text.find("- " + ingredient.group) != std::string::npos);
      last = ingredient.group;
    }
    EXPECT_GE(recipe->ingredients.size() + groups, count_items(text) + extra) << entry.path().filename();
    EXPECT_FALSE(recipe->steps.empty()) << entry.path().filename();
    EXPECT_FALSE(recipe->title.empty()) << entry.path().filename();
    ++files;
  }
  EXPECT_GT(files, 0U);
}

}  // namespace
}  // namespace panslate
