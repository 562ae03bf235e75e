#include "panslate/kitchen/token.h"

#include <gtest/gtest.h>

namespace panslate {
namespace {

TEST(Token, CutsFigureFromUnit) {
  const auto tokens = tokenize("200g");
  ASSERT_EQ(tokens.size(), 2U);
  EXPECT_EQ(tokens[0].kind, TokenKind::Number);
  EXPECT_EQ(tokens[0].value, Ratio(200));
  EXPECT_EQ(tokens[1].text, "g");
}

}  // namespace
}  // namespace panslate
