#include "media/frame_timing.h"

#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace panslate::av {
namespace {

struct Case {
  std::string name;
  std::vector<std::int64_t> stamps;
  std::int64_t num, den;  // of the time base
  FrameRate declared;
  FrameRate rate;
  bool variable;
};

void PrintTo(const Case& c, std::ostream* out) {
  *out << c.name;
}

// `count` pictures at num/den a second, stamped in milliseconds rounded to nearest, as Matroska writes them.
std::vector<std::int64_t> in_ms(int count, std::int64_t num, std::int64_t den) {
  std::vector<std::int64_t> stamps;
  for (int k = 0; k < count; ++k) stamps.push_back((k * den * 1000 * 2 + num) / (2 * num));
  return stamps;
}

std::vector<std::int64_t> evenly(int count, std::int64_t gap) {
  std::vector<std::int64_t> stamps;
  for (int k = 0; k < count; ++k) stamps.push_back(k * gap);
  return stamps;
}

std::vector<std::int64_t> without(std::vector<std::int64_t> stamps, std::size_t index) {
  stamps.erase(stamps.begin() + static_cast<std::ptrdiff_t>(index));
  return stamps;
}

class Timing : public testing::TestWithParam<Case> {};

TEST_P(Timing, IsMeasured) {
  const auto& c = GetParam();
  const auto timing = measure_timing(c.stamps, c.num, c.den, {c.declared});
  ASSERT_TRUE(timing);
  EXPECT_EQ(timing->rate.num, c.rate.num);
  EXPECT_EQ(timing->rate.den, c.rate.den);
  EXPECT_EQ(timing->variable, c.variable);
}

// Expected values are the rates the stamps were made with (by hand where listed).
INSTANTIATE_TEST_SUITE_P(
    Constant, Timing,
    testing::Values(
        Case{"25 in 1/12800", evenly(50, 512), 1, 12800, {25, 1}, {25, 1}, false},
        Case{"29.97 in 90 kHz", evenly(40, 3003), 1, 90000, {30, 1}, {30000, 1001}, false},
        Case{"23.976 in ms, header says so",
             in_ms(48, 24000, 1001),
             1,
             1000,
             {24000, 1001},
             {24000, 1001},
             false},
        Case{"24 in ms", in_ms(480, 24, 1), 1, 1000, {1000, 1}, {24, 1}, false},
        Case{"29.97 in ms, header silent", in_ms(900, 30000, 1001), 1, 1000, {1000, 1}, {30000, 1001}, false},
        Case{"59.94 in ms", in_ms(600, 60000, 1001), 1, 1000, {60, 1}, {60000, 1001}, false},
        Case{"any order", {2560, 0, 1024, 512, 1536, 2048}, 1, 12800, {25, 1}, {25, 1}, false},
        Case{"an odd but even rate", evenly(40, 1000), 1, 29917, {29917, 1000}, {29917, 1000}, false},
        // 30 a second with up to 1 ms of jitter, as phones stamp (90 kHz)
        Case{"phone jitter",
             {0, 3030, 5975, 9010, 12020, 14960, 18000, 21040, 23990, 27000},
             1,
             90000,
             {30, 1},
             {30, 1},
             false}),
    [](const auto& i) { return "n" + std::to_string(i.index); });

INSTANTIATE_TEST_SUITE_P(
    Variable, Timing,
    testing::Values(
        Case{"one picture dropped", without(evenly(60, 512), 30), 1, 12800, {25, 1}, {1450, 59}, true},
        Case{"halves its rate", {0, 40, 80, 120, 200, 280, 360}, 1, 1000, {25, 1}, {50, 3}, true},
        Case{"counted in frames, one missing", {0, 1, 2, 4, 5}, 1, 25, {25, 1}, {20, 1}, true}),
    [](const auto& i) { return "n" + std::to_string(i.index); });

TEST(TimingOfFew, NeedsTwoPictures) {
  EXPECT_FALSE(measure_timing({}, 1, 1000, {}));
  EXPECT_FALSE(measure_timing({7, 7}, 1, 1000, {}));
  EXPECT_FALSE(measure_timing({0, 40}, 0, 1000, {}));
}

}  // namespace
}  // namespace panslate::av
