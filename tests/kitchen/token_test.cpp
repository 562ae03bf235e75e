#include "panslate/kitchen/token.h"

#include <string>

#include <gtest/gtest.h>

namespace panslate {
namespace {

// Words as they are, numbers as #value, marks in quotes; '+' where no space stands before.
std::string cut(std::string_view text) {
  std::string out;
  for (const auto& token : tokenize(text)) {
    if (!out.empty()) out += token.space_before ? " " : "+";
    switch (token.kind) {
      case TokenKind::Word:
        out += token.text;
        break;
      case TokenKind::Number:
        out += '#' + token.value.to_string();
        break;
      case TokenKind::Mark:
        out += '\'' + token.text + '\'';
        break;
    }
  }
  return out;
}

struct Case {
  const char *text, *tokens;
};

class Cut : public ::testing::TestWithParam<Case> {};

TEST_P(Cut, GivesTheTokens) {
  EXPECT_EQ(cut(GetParam().text), GetParam().tokens) << GetParam().text;
}

INSTANTIATE_TEST_SUITE_P(
    Text, Cut,
    ::testing::Values(Case{"200g", "#200+g"}, Case{"20-cm", "#20+'-'+cm"}, Case{"180 ºC", "#180 '°'+c"},
                      Case{"180˚C", "#180+'°'+c"}, Case{"180℃", "#180+'°'+c"}, Case{"400℉", "#400+'°'+f"},
                      Case{"2x400g", "#2+'×'+#400+g"}, Case{"2 x 400 g", "#2 '×' #400 g"},
                      Case{"2 × 400", "#2 '×' #400"}, Case{"x marks", "x marks"}, Case{"1½", "#3/2"},
                      Case{"1 ½ l", "#3/2 l"}, Case{"1 1/2-inch", "#3/2+'-'+inch"},
                      Case{"gas 6/200C", "gas #6+'/'+#200+c"}, Case{"gas4", "gas+#4"}, Case{"b12", "b12"},
                      Case{"2nd", "2nd"}, Case{"1,5", "#3/2"}, Case{"1,000,000", "#1000000"},
                      Case{"1, 2", "#1+',' #2"}, Case{"1.5.2", "#1+'.'+#26/5"},
                      Case{"That’s Purée", "that's puree"}, Case{"2–3", "#2+'-'+#3"},
                      Case{"1h30", "#1+h+#30"}, Case{"", ""}, Case{"1234567890123456", "1234567890123456"}));

TEST(Token, KnowsItsPlaceAndItsLooks) {
  const std::string text = "Add 1½ T crème";
  const auto tokens = tokenize(text);
  ASSERT_EQ(tokens.size(), 4U);
  EXPECT_TRUE(tokens[0].capital);
  EXPECT_EQ(text.substr(tokens[1].begin, tokens[1].end - tokens[1].begin), "1½");
  EXPECT_EQ(tokens[2].raw, "T");
  EXPECT_EQ(tokens[2].text, "t");
  EXPECT_EQ(tokens[3].text, "creme");
  EXPECT_EQ(tokens[3].end, text.size());
  EXPECT_FALSE(tokens[3].capital);
}

}  // namespace
}  // namespace panslate
