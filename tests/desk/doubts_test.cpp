#include "desk/doubts.h"

#include <gtest/gtest.h>

#include "desk/desk_folder.h"

namespace panslate {
namespace {

// Likelihood × harm: what makes it rise before sugar, both not said; a wrong herb before a missing step.
TEST(Doubts, ComeInTheOrderOfTheHarm) {
  testing::DeskFolder folder;
  std::vector<std::string> order;
  const auto state = folder.state();
  for (const auto& doubt : state.at("doubts")) order.push_back(doubt.at("written"));
  const auto at = [&](const std::string& line) {
    return std::find(order.begin(), order.end(), line) - order.begin();
  };
  ASSERT_LT(at("1 tbsp baking powder"), static_cast<std::ptrdiff_t>(order.size()));
  EXPECT_EQ(at("1 tbsp baking powder"), 0);
  EXPECT_LT(at("180 C"), at("2 tsp dried thyme"));
  EXPECT_LT(at("2 tsp dried thyme"), at("40 g sugar"));
}

TEST(Doubts, TellWhereToLook) {
  testing::DeskFolder folder;
  const auto doubt = testing::doubt_about(folder.state(), "2 tsp dried thyme");
  ASSERT_FALSE(doubt.is_null());
  EXPECT_EQ(doubt.at("moment").at("clip"), "pan");
  EXPECT_GE(doubt.at("moment").at("begin").get<double>(), 4.0);
  EXPECT_LT(doubt.at("moment").at("begin").get<double>(), 6.0);
  EXPECT_NE(doubt.at("heard").at("words").get<std::string>().find("thyme"), std::string::npos);
}

// The other clip of the project cannot be opened: where it alone films a line, there is nothing to look at.
TEST(Doubts, NameNoClipThatCannotBeOpened) {
  testing::DeskFolder folder;
  auto text = folder.project_text();
  text.insert(text.find("\"mine\""),
              "\"segments\": [{\"id\": \"s1\", \"clip\": \"gone\", \"in\": \"0:01\", \"out\": \"0:02\", "
              "\"step\": \"Stir in the sugar\"}],\n  ");
  folder.write("project.json", text);
  const auto state = folder.state();
  ASSERT_EQ(state.at("parts").size(), 1U);
  int looked_at = 0;
  for (const auto& doubt : state.at("doubts")) {
    if (doubt.at("moment").is_null()) continue;
    EXPECT_EQ(doubt.at("moment").at("clip"), "pan") << doubt.at("written");
    ++looked_at;
  }
  EXPECT_GT(looked_at, 0);
}

}  // namespace
}  // namespace panslate
