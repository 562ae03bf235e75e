// The small samples without a project, each with what samples/recipes/README.md says of it.
#include <filesystem>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/base/file_system.h"
#include "panslate/check/check.h"

namespace panslate {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

// "said differs: 2 tsp baking powder" for every line that needs attention.
std::vector<std::string> attention(const char* recipe_name, const char* captions_name) {
  const auto folder = std::filesystem::path(PANSLATE_SOURCE_DIR) / "samples" / "recipes";
  const auto text = [&](const char* name) { return read_text(real_file_system(), folder / name).value(); };
  const auto recipe = read_recipe(text(recipe_name), recipe_name);
  const auto captions = read_captions(text(captions_name), captions_name);
  EXPECT_TRUE(recipe) << recipe_name;
  EXPECT_TRUE(captions) << captions_name;
  if (!recipe || !captions) return {"could not be read"};
  CheckInput input;
  input.recipe = &*recipe;
  input.said.push_back({&*captions, ""});
  const auto report = check(input);
  EXPECT_GE(report.requirements.size(), 10U);
  std::vector<std::string> lines;
  for (const auto& requirement : report.requirements)
    if (CheckReport::needs_attention(requirement))
      lines.push_back("said " + std::string(spelling_of(requirement.said.verdict)) + ": " + requirement.text);
  for (const auto& extra : report.extras) lines.push_back("extra: " + extra.text);
  return lines;
}

TEST(SampleRecipes, PorridgeIsSaidAsWritten) {
  EXPECT_THAT(attention("pear-cocoa-porridge.md", "pear-cocoa-porridge.srt"), IsEmpty());
}

TEST(SampleRecipes, ASlipPutRightAtOnceIsNoFault) {
  EXPECT_THAT(attention("smoky-beet-dip.txt", "smoky-beet-dip.vtt"), IsEmpty());
}

TEST(SampleRecipes, GriddleCakesHaveTheirTwoFaults) {
  EXPECT_THAT(attention("corn-griddle-cakes.md", "corn-griddle-cakes.txt"),
              ElementsAre("said differs: 2 tsp baking powder", "said no-amount: 4 spring onions, sliced"));
}

}  // namespace
}  // namespace panslate
