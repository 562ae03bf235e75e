#include "app/text_table.h"

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/deliver/plain_text.h"

#include "app/check_text.h"
#include "support/golden.h"
#include "support/sample_check.h"

namespace panslate::app {
namespace {

std::size_t widest(const std::string& text) {
  std::size_t widest = 0;
  for (const auto& line : split_lines(text)) widest = std::max(widest, character_count(line.text));
  return widest;
}

TEST(TextTable, IsNeverWiderThanTheTerminal) {
  const std::vector<TableRow> rows{
      {{{"250 g pearl barley (1¼ cups), rinsed until the water runs clear", Look::Plain},
        {"said without an amount", Look::Wrong},
        {"not confirmed", Look::Doubtful},
        {"written differently: 1 tsp", Look::Wrong},
        {"about 1:01:02", Look::Plain}},
       "A remark that is long enough to be broken on most of the terminals that there are, and then some."}};
  for (std::size_t width = 20; width <= 130; ++width)
    EXPECT_LE(
        widest(text_table({"written", "said", "shown", "on the picture", "when"}, rows, {width, false})),
        width)
        << width;
}

TEST(TextTable, KeepsATableAtSixtyColumns) {
  const std::vector<TableRow> rows{{{{"2 leeks", Look::Plain},
                                     {"not said", Look::Wrong},
                                     {"shown", Look::Good},
                                     {"not there", Look::Quiet},
                                     {"0:41", Look::Plain}},
                                    ""}};
  const auto table = text_table({"written", "said", "shown", "on the picture", "when"}, rows, {60, false});
  EXPECT_EQ(split_lines(table).back().text.substr(0, 9), "  2 leeks");
  EXPECT_NE(table.find("not said"), std::string::npos);
  EXPECT_TRUE(split_lines(table).back().text.ends_with("0:41")) << table;
}

TEST(TextTable, ColourOnlyWhereAsked) {
  const std::vector<TableRow> rows{{{{"2 leeks", Look::Plain}, {"not said", Look::Wrong}}, ""}};
  EXPECT_EQ(text_table({"written", "said"}, rows, {80, false}).find('\x1b'), std::string::npos);
  EXPECT_NE(text_table({"written", "said"}, rows, {80, true}).find("\x1b[31mnot said\x1b[0m"),
            std::string::npos);
}

TEST(Wrap, BreaksAtSpacesAndLongWordsWhereItMust) {
  EXPECT_EQ(wrap("a bb ccc", 4), (std::vector<std::string>{"a bb", "ccc"}));
  EXPECT_EQ(wrap("crème fraîche", 7), (std::vector<std::string>{"crème", "fraîche"}));
  EXPECT_EQ(wrap("abcdefgh", 3), (std::vector<std::string>{"abc", "def", "gh"}));
  EXPECT_EQ(wrap("said: 200\u00A0g", 9), (std::vector<std::string>{"said:", "200\u00A0g"}));
  EXPECT_EQ(wrap("", 10), (std::vector<std::string>{""}));
  EXPECT_EQ(wrap("ab", 0), (std::vector<std::string>{"a", "b"}));
}

TEST(Shortened, EndsWithADotsSignWithinTheWidth) {
  EXPECT_EQ(shortened("pearl barley", 12), "pearl barley");
  EXPECT_EQ(shortened("pearl barley", 8), "pearl…") << "behind a word";
  EXPECT_EQ(shortened("a buttermilk cake", 9), "a butter…") << "within one where it would leave too little";
  EXPECT_EQ(shortened("gehackte Knoblauchzehen", 12), "gehackte…");
  EXPECT_EQ(shortened("crème fraîche", 10), "crème…") << "columns are characters";
  EXPECT_EQ(shortened("pearl barley", 7), "pearl…");
}

TEST(CheckText, Golden) {
  const auto sample = testing::sample_check();
  testing::expect_golden("check-80.txt",
                         check_text(sample.report, sample.recipe, sample.pickups, {80, false}));
  testing::expect_golden("check-60.txt",
                         check_text(sample.report, sample.recipe, sample.pickups, {60, false}));
}

TEST(CheckText, FitsEveryWidth) {
  const auto sample = testing::sample_check();
  for (std::size_t width = 30; width <= 130; ++width)
    EXPECT_LE(widest(check_text(sample.report, sample.recipe, sample.pickups, {width, false})), width)
        << width;
}

TEST(CheckText, EscapeSequencesDoNotReachTheTerminal) {
  auto sample = testing::sample_check();
  const std::string hostile = "a\x1b]0;title\x07\x1b[2Jb\r\n";
  sample.recipe.title = hostile;
  for (auto& requirement : sample.report.requirements) {
    requirement.text = requirement.why = hostile;
    for (auto& mention : requirement.said.mentions) mention.media = hostile + requirement.name;
  }
  for (auto& extra : sample.report.extras) extra.text = hostile;
  for (auto& warning : sample.report.warnings) warning.message = hostile;
  for (auto& pickup : sample.pickups) pickup.what = pickup.media = hostile;
  const auto text = check_text(sample.report, sample.recipe, sample.pickups, {80, false});
  EXPECT_EQ(text.find_first_of("\x1b\x07\r"), std::string::npos);
}

}  // namespace
}  // namespace panslate::app
