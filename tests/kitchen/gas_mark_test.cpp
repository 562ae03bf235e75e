#include "panslate/kitchen/gas_mark.h"

#include <gtest/gtest.h>

namespace panslate {
namespace {

struct Row {
  const char* mark;
  int fahrenheit, celsius, least, most, fan;
};

class GasMarks : public ::testing::TestWithParam<Row> {};

TEST_P(GasMarks, AreThePublishedRows) {
  const auto& row = GetParam();
  const auto mark = gas_mark(*Ratio::parse(row.mark));
  ASSERT_TRUE(mark) << row.mark;
  EXPECT_EQ(mark->fahrenheit, Ratio(row.fahrenheit));
  EXPECT_EQ(mark->celsius, Ratio(row.celsius));
  EXPECT_EQ(mark->celsius_least, Ratio(row.least));
  EXPECT_EQ(mark->celsius_most, Ratio(row.most));
  EXPECT_EQ(mark->fan_celsius, Ratio(row.fan));
  EXPECT_FALSE(mark->source.empty());
}

// Fahrenheit: 25 degrees a mark from mark 1 = 275 F (GNU units gasmark()); Celsius: public gas-mark tables.
INSTANTIATE_TEST_SUITE_P(
    Table, GasMarks,
    ::testing::Values(Row{"1/4", 225, 110, 105, 110, 90}, Row{"1/2", 250, 120, 120, 130, 100},
                      Row{"1", 275, 140, 130, 140, 120}, Row{"2", 300, 150, 145, 150, 130},
                      Row{"3", 325, 160, 160, 170, 140}, Row{"4", 350, 180, 175, 180, 160},
                      Row{"5", 375, 190, 190, 190, 170}, Row{"6", 400, 200, 200, 205, 180},
                      Row{"7", 425, 220, 215, 220, 200}, Row{"8", 450, 230, 230, 235, 210},
                      Row{"9", 475, 240, 240, 250, 220}, Row{"10", 500, 260, 250, 260, 240}));

TEST(GasMark, KnowsNoOther) {
  EXPECT_FALSE(gas_mark(Ratio(0)));
  EXPECT_FALSE(gas_mark(Ratio(11)));
  EXPECT_FALSE(gas_mark(*Ratio::parse("1.5")));
}

}  // namespace
}  // namespace panslate
