// The flow of a method: common practice, no source, but for what the sentences themselves say.
#include "panslate/recipe/flow.h"

#include <string>

#include <gtest/gtest.h>

namespace panslate {
namespace {

constexpr const char* kTart =
    "# Plum Tart\n\nServes 8\n\n## Ingredients\n\nFor the pastry\n- 250 g flour\n- 125 g butter\n\n"
    "For the plums\n- 600 g plums\n- 80 g sugar\n- 20 g butter\n\n## Method\n\n"
    "1. For the pastry, rub the butter into the flour. Chill the pastry for 30 minutes.\n"
    "2. Meanwhile, simmer the plums with the sugar for 20 minutes, then stir in the butter.\n"
    "3. Roll out the pastry and fill it with the plums. Bake at 190C for 35 minutes.\n";

Recipe tart() {
  auto recipe = read_recipe(kTart, "tart.md");
  EXPECT_TRUE(recipe);
  return *std::move(recipe);
}

TEST(Flow, KeepsLinesOfOneFoodApart) {
  const auto flow = flow_of(tart());
  EXPECT_EQ(flow.used_in[1], (std::vector<std::size_t>{0})) << "the butter of the pastry";
  EXPECT_EQ(flow.used_in[4], (std::vector<std::size_t>{1})) << "the butter of the plums";
}

TEST(Flow, StepsThatGoOnBesideEachOtherDoNotWait) {
  const auto flow = flow_of(tart());
  EXPECT_TRUE(flow.steps[0].after.empty());
  EXPECT_TRUE(flow.steps[1].beside);
  EXPECT_TRUE(flow.steps[1].after.empty());
  EXPECT_FALSE(flow.steps[2].after.empty());
}

TEST(Flow, FindsTheWaits) {
  const auto flow = flow_of(tart());
  ASSERT_EQ(flow.waits.size(), 3U);
  EXPECT_EQ(flow.waits[0].action, "chill");
  EXPECT_EQ(flow.waits[0].what, "pastry");
  EXPECT_EQ(flow.waits[0].place, WaitPlace::Cold);
  EXPECT_EQ(flow.waits[0].least, 1800);
  EXPECT_TRUE(flow.waits[0].beside_next);
  EXPECT_EQ(flow.waits[1].place, WaitPlace::Hob);
  EXPECT_EQ(flow.waits[2].place, WaitPlace::Oven);
}

TEST(Flow, FollowsWhatIsMadeOnTheWay) {
  const auto flow = flow_of(tart());
  bool pastry = false;
  for (const auto& result : flow.results)
    if (result.name == "pastry") {
      pastry = true;
      EXPECT_EQ(result.made_in, 0U);
      EXPECT_EQ(result.used_in, (std::vector<std::size_t>{2}));
    }
  EXPECT_TRUE(pastry);
}

struct HandsCase {
  const char* step;
  bool hands_on;
};

class HandsOn : public ::testing::TestWithParam<HandsCase> {};

TEST_P(HandsOn, IsToldFromWaiting) {
  const auto recipe = read_recipe(
      std::string("# Dish\n\n## Ingredients\n\n- 2 onions\n\n## Method\n\n1. ") + GetParam().step + "\n",
      "dish.md");
  ASSERT_TRUE(recipe);
  const auto flow = flow_of(*recipe);
  ASSERT_EQ(flow.steps[0].hands_on.size(), 1U);
  EXPECT_EQ(flow.steps[0].hands_on[0], GetParam().hands_on) << GetParam().step;
}

INSTANTIATE_TEST_SUITE_P(Times, HandsOn,
                         ::testing::Values(HandsCase{"Knead the dough for 10 minutes.", true},
                                           HandsCase{"Bake for 25 minutes.", false},
                                           HandsCase{"Fry the onions for 5 minutes.", true},
                                           HandsCase{"Simmer for 20 minutes, stirring now and then.", false},
                                           HandsCase{"Cook for 5 minutes, stirring all the while.", true},
                                           HandsCase{"Leave to rest for 1 hour.", false}));

TEST(PlaceIn, FollowsMarkUpAndWrappedLines) {
  const auto recipe = read_recipe(
      "# Dish\n\n## Ingredients\n\n- 2 onions\n\n## Method\n\n1. Slice the **onions** and\n   fry them.\n",
      "dish.md");
  ASSERT_TRUE(recipe);
  const auto& step = recipe->steps[0];
  const auto onions = place_in(step, step.text.find("onions"));
  EXPECT_EQ(onions.line, 9);
  EXPECT_EQ(onions.column, 16);  // "1. Slice the **onions": counted by hand
  const auto fry = place_in(step, step.text.find("fry"));
  EXPECT_EQ(fry.line, 10);
  EXPECT_EQ(fry.column, 4);
}

}  // namespace
}  // namespace panslate
