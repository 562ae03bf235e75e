// Ways to say an amount: each must be read back as that amount by the one reader of amounts.
#include "panslate/kitchen/say_amount.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/compare.h"

namespace panslate {
namespace {

struct SayCase {
  const char* written;
  std::vector<std::string> said;  // some of the ways: common practice, no source
};

class SayAmount : public ::testing::TestWithParam<SayCase> {};

std::vector<std::string> texts(const std::vector<WayToSay>& ways) {
  std::vector<std::string> texts;
  for (const auto& way : ways) texts.push_back(join(way, " "));
  return texts;
}

Amount amount_of(const std::string& text, SpokenOrWritten how) {
  const auto tokens = tokenize(text);
  const auto scan = scan_amount(tokens, 0, how);
  EXPECT_TRUE(scan) << text;
  return scan ? scan->amount : Amount{};
}

TEST_P(SayAmount, IsReadBackAsItself) {
  const auto amount = amount_of(GetParam().written, SpokenOrWritten::Written);
  const auto ways = texts(ways_to_say(amount));
  for (const auto& said : GetParam().said)
    EXPECT_TRUE(std::find(ways.begin(), ways.end(), said) != ways.end())
        << said << " for " << GetParam().written;
  for (const auto& way : ways) {
    // A number alone needs the oven around it, and "a lemon" the lemon.
    if (way == "a" || way == "an") continue;
    const auto back = amount_of(way, SpokenOrWritten::Spoken);
    ASSERT_TRUE(back.value) << way;
    const bool bare = back.unit == Unit::Piece && dimension_of(amount.unit) == Dimension::Temperature;
    EXPECT_TRUE(back.each == amount.each) << way;
    if (back.unit == amount.unit || bare) {
      EXPECT_EQ(back.value->to_string(), amount.value->to_string()) << way;
      EXPECT_EQ(back.to, amount.to) << way;
    } else {
      // "ninety minutes" for an hour and a half
      EXPECT_EQ(dimension_of(back.unit), Dimension::Time) << way;
      const auto size = [](const Amount& a) {
        return a.value->value() * size_of(a.unit, Measures::Us)->size.value();
      };
      EXPECT_DOUBLE_EQ(size(back), size(amount)) << way;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(
    Kitchen, SayAmount,
    ::testing::Values(
        SayCase{"200 g", {"two hundred grams"}},
        SayCase{"250 g", {"two hundred and fifty grams", "two hundred fifty grams", "two fifty grams"}},
        SayCase{"125 ml", {"a hundred and twenty five mils", "one hundred and twenty five millilitres"}},
        SayCase{"½ tsp", {"half a teaspoon", "a half teaspoon", "half teaspoon"}},
        SayCase{"¾ cup", {"three quarters of a cup", "three quarter cup"}},
        SayCase{"⅓ cup", {"a third of a cup", "one third cup"}},
        SayCase{"⅛ tsp", {"an eighth of a teaspoon"}},
        SayCase{"1½ cups", {"one and a half cups", "a cup and a half"}},
        SayCase{"2¼ cups", {"two and a quarter cups"}}, SayCase{"1.2 l", {"one point two litres"}},
        SayCase{"1 tbsp", {"one tablespoon", "a tablespoon"}},
        SayCase{"1½ hours", {"an hour and a half", "ninety minutes", "one hour thirty minutes"}},
        SayCase{"30 min", {"thirty minutes", "half an hour"}},
        SayCase{"12–15 minutes", {"twelve to fifteen minutes", "twelve or fifteen minutes"}},
        SayCase{"180 °C", {"one eighty", "a hundred and eighty degrees celsius", "one eighty degrees"}},
        SayCase{"350 °F", {"three fifty", "three hundred and fifty degrees fahrenheit"}},
        SayCase{"gas 4", {"gas mark four", "gas four"}},
        SayCase{"2 x 400 g tins", {"two four hundred gram tins"}}, SayCase{"4 cloves", {"four cloves"}},
        SayCase{"2 kg", {"two kilos"}}));

struct ReadOutCase {
  const char* written;
  std::vector<std::string> said;
};
class ReadOut : public ::testing::TestWithParam<ReadOutCase> {};

TEST_P(ReadOut, WordByWord) {
  const auto ways = texts(ways_to_read_out(tokenize(GetParam().written)));
  for (const auto& said : GetParam().said)
    EXPECT_TRUE(std::find(ways.begin(), ways.end(), said) != ways.end())
        << said << " for " << GetParam().written;
}

INSTANTIATE_TEST_SUITE_P(
    Kitchen, ReadOut,
    ::testing::Values(ReadOutCase{"10 more minutes", {"ten more minutes"}},
                      ReadOutCase{"2 heaped tbsp", {"two heaped tablespoons"}},
                      ReadOutCase{"½ tsp", {"half a teaspoon", "half teaspoon"}},
                      ReadOutCase{"180C", {"one hundred and eighty degrees celsius", "one eighty celsius"}},
                      ReadOutCase{"180 °C fan", {"one eighty degrees celsius fan"}},
                      ReadOutCase{"half a pound", {"half a pound"}}, ReadOutCase{"2 c", {"two cups"}}));

TEST(SayNumber, KeepsItsBounds) {
  EXPECT_TRUE(ways_to_say(Ratio(-1)).empty());
  EXPECT_TRUE(ways_to_say(Ratio(1'000'001)).empty());
  EXPECT_TRUE(ways_to_say(*Ratio::make(1, 7)).empty());
  EXPECT_EQ(texts(ways_to_say(Ratio(1000))).front(), "one thousand");
  EXPECT_EQ(texts(ways_to_say(Ratio(0))).front(), "zero");
  EXPECT_TRUE(ways_to_say(Amount{}).empty());
}

// Every word for a unit is read as that unit; "one second" and "one day" are a moment and a story.
TEST(SayUnit, IsReadBack) {
  std::size_t words = 0;
  for (int u = 0; u <= static_cast<int>(Unit::Serving); ++u)
    for (const auto count : {Count::One, Count::More})
      for (const auto& way : words_for(static_cast<Unit>(u), count)) {
        const auto unit = static_cast<Unit>(u);
        if (dimension_of(unit) == Dimension::Temperature || dimension_of(unit) == Dimension::Length ||
            join(way, " ") == "person" || join(way, " ") == "second" || join(way, " ") == "day")
          continue;
        const auto text = std::string(count == Count::One ? "one " : "three ") + join(way, " ");
        EXPECT_EQ(amount_of(text, SpokenOrWritten::Spoken).unit, unit) << text;
        ++words;
      }
  EXPECT_GT(words, 80U);
}

}  // namespace
}  // namespace panslate
