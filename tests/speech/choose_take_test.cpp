#include "panslate/speech/choose_take.h"

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace panslate {
namespace {

// Takes of one line, one second each unless told otherwise, one after the other.
struct Try {
  double level = 0.1;  // of full scale
  std::int64_t ms = 1000;
  bool complete = true;
  std::int64_t pause_ms = 0;  // after its first word
};

struct TakesCase {
  std::vector<Try> tries;
  std::optional<std::size_t> take;
  std::string why;
};

class TakesOfALine : public testing::TestWithParam<TakesCase> {};

TEST_P(TakesOfALine, TheBestIsChosen) {
  ScriptAlignment alignment;
  std::vector<std::int16_t> samples;
  std::int64_t at = 0;
  for (const auto& one : GetParam().tries) {
    for (std::int64_t i = 0; i < one.ms * 16; ++i)
      samples.push_back(static_cast<std::int16_t>(std::lround(std::clamp(
          32767 * one.level * std::sin(2 * std::numbers::pi * 200 * static_cast<double>(i) / 16'000),
          -32768.0, 32767.0))));
    const auto first = alignment.words.size();
    const auto middle = one.ms / 2;
    alignment.words.push_back(
        {0, 0, "go", {MediaTime::from_ms(at), MediaTime::from_ms(at + middle - one.pause_ms)}, {}});
    alignment.words.push_back(
        {0, 1, "on", {MediaTime::from_ms(at + middle), MediaTime::from_ms(at + one.ms)}, {}});
    alignment.takes.push_back(
        {0, {MediaTime::from_ms(at), MediaTime::from_ms(at + one.ms)}, one.complete, first, 2});
    at += one.ms;
  }
  const auto chosen = choose_takes(alignment, samples);
  ASSERT_EQ(chosen.size(), 1U);
  EXPECT_EQ(chosen.front().take, GetParam().take);
  EXPECT_EQ(chosen.front().why, GetParam().why);
}

// common practice, no source
INSTANTIATE_TEST_SUITE_P(
    ChooseTake, TakesOfALine,
    testing::Values(
        TakesCase{{{}}, 0, ""}, TakesCase{{{.complete = false}, {}}, 1, "the only whole take"},
        TakesCase{{{}, {}, {}}, 2, "the last whole take"},
        TakesCase{{{}, {}, {.complete = false}}, 1, "the last whole take"},
        TakesCase{{{.complete = false}}, std::nullopt, "never said to the end: say it again"},
        TakesCase{{{}, {.level = 1.4}},
                  0,
                  "the take before the last: the last one is so loud that its sound is cut off"},
        TakesCase{{{}, {}, {.level = 0.02}},
                  1,
                  "the take before the last: the last one is much quieter than the rest"},
        TakesCase{{{}, {.level = 1.4}, {.level = 1.4}},
                  0,
                  "an earlier take: the last one is so loud that its sound is cut off"},
        TakesCase{{{}, {.ms = 4000, .pause_ms = 1200}},
                  0,
                  "the take before the last: the last one stops for a second in the middle"},
        TakesCase{{{}, {}, {.ms = 1600}},
                  1,
                  "the take before the last: the last one is much slower than the others"},
        TakesCase{{{.level = 1.4}}, 0, "the only whole take, but it is so loud that its sound is cut off"},
        TakesCase{{{.level = 1.4}, {.level = 1.4}},
                  1,
                  "the last whole take, but it is so loud that its sound is cut off, and none is without a "
                  "fault"}));

TEST(ChooseTake, OfNothingIsNothing) {
  EXPECT_TRUE(choose_takes({}, {}).empty());
}

}  // namespace
}  // namespace panslate
