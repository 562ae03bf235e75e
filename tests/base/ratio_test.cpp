#include "panslate/base/ratio.h"

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

namespace panslate {
namespace {

constexpr auto kMost = std::numeric_limits<std::int64_t>::max();
constexpr auto kLeast = std::numeric_limits<std::int64_t>::min();

Ratio of(std::int64_t num, std::int64_t den) {
  return Ratio::make(num, den).value();
}

std::string text(const std::optional<Ratio>& ratio) {
  return ratio ? ratio->to_string() : "none";
}

TEST(Ratio, IsInLowestTermsWithAPositiveDenominator) {
  EXPECT_EQ(text(Ratio::make(10, 8)), "5/4");
  EXPECT_EQ(text(Ratio::make(10, -8)), "-5/4");
  EXPECT_EQ(text(Ratio::make(-10, -8)), "5/4");
  EXPECT_EQ(text(Ratio::make(0, -7)), "0");
  EXPECT_EQ(text(Ratio::make(9, 3)), "3");
  EXPECT_EQ(text(Ratio::make(1, 0)), "none");
  EXPECT_EQ(text(Ratio::make(kLeast, 1)), "none");
  EXPECT_EQ(text(Ratio::make(1, kLeast)), "none");
  EXPECT_EQ(text(Ratio::make(kMost, kMost)), "1");
}

TEST(Ratio, ThreeThirdsAreOne) {
  const auto third = of(1, 3);
  EXPECT_EQ(third.plus(third).value().plus(third), Ratio(1));
}

TEST(Ratio, Arithmetic) {
  EXPECT_EQ(text(of(1, 2).plus(of(1, 3))), "5/6");
  EXPECT_EQ(text(of(1, 2).minus(of(2, 3))), "-1/6");
  EXPECT_EQ(text(of(2, 3).times(of(3, 4))), "1/2");
  EXPECT_EQ(text(of(2, 3).over(of(-4, 3))), "-1/2");
  EXPECT_EQ(text(Ratio(1).over(0)), "none");
  EXPECT_EQ(text(Ratio(300).over(4)), "75");  // common practice, no source: 300 g over 4 portions
}

TEST(Ratio, TellsWhenAResultDoesNotFit) {
  EXPECT_EQ(text(Ratio(kMost).plus(1)), "none");
  EXPECT_EQ(text(Ratio(kMost).times(2)), "none");
  EXPECT_EQ(text(of(1, kMost).over(2)), "none");
  EXPECT_EQ(text(Ratio(kMost).times(of(1, kMost))), "1");
  EXPECT_EQ(text(of(1, 3'037'000'500).plus(of(1, 3'037'000'501))), "none");  // denominator just above 2^63
}

TEST(Ratio, ComparesWithoutOverflow) {
  EXPECT_LT(of(1, 3), of(1, 2));
  EXPECT_GT(of(-1, 3), of(-1, 2));
  EXPECT_LT(of(kMost - 1, kMost), Ratio(1));
  EXPECT_LE(of(2, 4), of(1, 2));
  EXPECT_GE(of(2, 4), of(1, 2));
  EXPECT_TRUE(Ratio().is_zero());
  EXPECT_TRUE(Ratio(2).is_whole());
  EXPECT_FALSE(of(5, 4).is_whole());
  EXPECT_DOUBLE_EQ(of(5, 4).value(), 1.25);
}

struct Parsed {
  std::string_view input;
  std::string_view ratio;
};

constexpr Parsed kParsed[] = {
    {"12", "12"},
    {"0", "0"},
    {"007", "7"},
    {"1.25", "5/4"},
    {"0.1", "1/10"},
    {"5/4", "5/4"},
    {"10/8", "5/4"},
    {"999999999999999", "999999999999999"},
    {"0.00000000000001", "1/100000000000000"},
    {"1/999999999999999", "1/999999999999999"},
    // refused
    {"", "none"},
    {".5", "none"},
    {"1.", "none"},
    {"1/", "none"},
    {"/2", "none"},
    {"1/0", "none"},
    {"-1", "none"},
    {"+1", "none"},
    {"1,25", "none"},
    {"1.2.3", "none"},
    {"1/2/3", "none"},
    {"1.5/2", "none"},
    {" 1", "none"},
    {"1 ", "none"},
    {"1e3", "none"},
    {"1000000000000000", "none"},
    {"123456789012345.6", "none"},
    {"1/1000000000000000", "none"},
    {"11111111111111111111111111111111111111", "none"},
    {"\xC2\xBD", "none"},  // ½ is read one floor up
};

TEST(Ratio, ReadsPlainNumbersOnly) {
  for (const auto& [input, ratio] : kParsed) EXPECT_EQ(text(Ratio::parse(input)), ratio) << input;
}

}  // namespace
}  // namespace panslate
