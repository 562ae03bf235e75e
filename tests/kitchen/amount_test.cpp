#include "panslate/kitchen/amount.h"

#include <gtest/gtest.h>

#include "panslate/kitchen/amount_scan.h"

namespace panslate {
namespace {

struct Case {
  const char *read, *text;
};

class ToText : public ::testing::TestWithParam<Case> {};

TEST_P(ToText, IsAsACookWritesIt) {
  const auto tokens = tokenize(GetParam().read);
  const auto found = scan_amount(tokens, 0, SpokenOrWritten::Written);
  ASSERT_TRUE(found) << GetParam().read;
  EXPECT_EQ(to_text(found->amount), GetParam().text);
}

// Common practice, no source.
INSTANTIATE_TEST_SUITE_P(
    Cook, ToText,
    ::testing::Values(Case{"180g", "180 g"}, Case{"one and a quarter cups", "1¼ cups"},
                      Case{"1 cup", "1 cup"}, Case{"half a cup", "½ cup"},
                      Case{"2 x 400g tins", "2 × 400 g cans"}, Case{"400 g tin", "1 × 400 g can"},
                      Case{"25 to 30 minutes", "25–30 min"}, Case{"180C fan", "180 °C fan"},
                      Case{"gas mark four", "gas 4"}, Case{"about 2 tbsp", "about 2 tbsp"},
                      Case{"2/3 cup", "⅔ cup"}, Case{"1.5 kg", "1.5 kg"}, Case{"0.333 l", "0.333 l"},
                      Case{"5/16 tsp", "0.313 tsp"}, Case{"two heaped teaspoons", "2 heaped tsp"},
                      Case{"a pinch", "1 pinch"}, Case{"3 cloves", "3 cloves"}, Case{"12", "12"},
                      Case{"8 fl oz", "8 fl oz"}, Case{"1-2 leaves", "1–2 leaves"}, Case{"-18 C", "−18 °C"},
                      Case{"1,000 g", "1000 g"}));

TEST(ToText, IsEmptyWithoutNumber) {
  EXPECT_EQ(to_text(Amount{}), "");
  Amount pinch;
  pinch.unit = Unit::Pinch;
  EXPECT_EQ(to_text(pinch), "a pinch");
  Amount pasties;
  pasties.value = Ratio(24);
  pasties.unit = Unit::Other;
  pasties.noun = "pasties";
  EXPECT_EQ(to_text(pasties), "24 pasties");
}

}  // namespace
}  // namespace panslate
