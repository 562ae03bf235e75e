#include "panslate/base/media_time.h"

#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>

#include <gtest/gtest.h>

namespace panslate {
namespace {

constexpr std::int64_t kSecond = MediaTime::kTicksPerSecond;
constexpr auto kMost = std::numeric_limits<std::int64_t>::max();
constexpr auto kLeast = std::numeric_limits<std::int64_t>::min();

// Ticks in one frame, worked out by hand: 5,644,800,000 × den ÷ num.
struct ExactRate {
  FrameRate rate;
  std::int64_t ticks_per_frame;
};
constexpr ExactRate kExactRates[] = {
    {{24, 1}, 235'200'000},       {{25, 1}, 225'792'000},      {{30, 1}, 188'160'000},
    {{50, 1}, 112'896'000},       {{60, 1}, 94'080'000},       {{24000, 1001}, 235'435'200},
    {{30000, 1001}, 188'348'160}, {{60000, 1001}, 94'174'080}, {{44100, 1}, 128'000},
    {{48000, 1}, 117'600},        {{90000, 1}, 62'720},        {{12288, 1}, 459'375},
    {{15360, 1}, 367'500},        {{1000, 1}, 5'644'800},
};

TEST(MediaTime, FramesOfTheUsualRatesAreWholeTicks) {
  for (const auto& [rate, ticks] : kExactRates) {
    SCOPED_TRACE(testing::Message() << rate.num << '/' << rate.den);
    EXPECT_EQ(MediaTime::from_frames(1, rate).ticks(), ticks);
    for (const std::int64_t frame : {std::int64_t{0}, std::int64_t{1}, std::int64_t{7}, std::int64_t{107'892},
                                     std::int64_t{5'184'000}, std::int64_t{-3}}) {
      const auto time = MediaTime::from_frames(frame, rate);
      EXPECT_EQ(time.ticks(), ticks * frame);
      for (const auto round : {Round::Down, Round::Nearest, Round::Up})
        EXPECT_EQ(time.to_frames(rate, round), frame);
    }
  }
}

TEST(MediaTime, AnHourAt2997Is107892Point1Frames) {
  // 3600 s × 30000 ÷ 1001 = 107892.107…: the frames of an hour, from SMPTE ST 12-1's own drop count.
  const auto hour = MediaTime::from_seconds(3600);
  EXPECT_EQ(hour.to_frames({30000, 1001}, Round::Down), 107'892);
  EXPECT_EQ(hour.to_frames({30000, 1001}, Round::Nearest), 107'892);
  EXPECT_EQ(hour.to_frames({30000, 1001}, Round::Up), 107'893);
}

struct Rounding {
  std::int64_t ticks, down, nearest, up;
};

TEST(MediaTime, MillisecondsRoundByName) {
  constexpr std::int64_t kMs = 5'644'800;
  const Rounding cases[] = {
      {0, 0, 0, 0},   {1, 0, 0, 1},   {kMs / 2 - 1, 0, 0, 1}, {kMs / 2, 0, 1, 1},        {kMs - 1, 0, 1, 1},
      {kMs, 1, 1, 1}, {-1, -1, 0, 0}, {-kMs / 2, -1, 0, 0},   {-kMs / 2 - 1, -1, -1, 0}, {-kMs, -1, -1, -1},
  };
  for (const auto& c : cases) {
    const auto time = MediaTime::from_ticks(c.ticks);
    EXPECT_EQ(time.to_ms(Round::Down), c.down) << c.ticks;
    EXPECT_EQ(time.to_ms(Round::Nearest), c.nearest) << c.ticks;
    EXPECT_EQ(time.to_ms(Round::Up), c.up) << c.ticks;
  }
}

TEST(MediaTime, CentisecondsAndGridsRoundByName) {
  const auto time = MediaTime::from_ms(1'234);
  EXPECT_EQ(time.to_cs(Round::Down), 123);
  EXPECT_EQ(time.to_cs(Round::Nearest), 123);
  EXPECT_EQ(time.to_cs(Round::Up), 124);
  const auto grid = MediaTime::from_ms(10);
  EXPECT_EQ(time.snapped(grid, Round::Down), MediaTime::from_ms(1'230));
  EXPECT_EQ(time.snapped(grid, Round::Nearest), MediaTime::from_ms(1'230));
  EXPECT_EQ(time.snapped(grid, Round::Up), MediaTime::from_ms(1'240));
  EXPECT_EQ(MediaTime::from_ms(-1'234).snapped(grid, Round::Down), MediaTime::from_ms(-1'240));
}

TEST(MediaTime, FramesRoundByName) {
  const auto time = MediaTime::from_ms(50);  // 1.25 frames at 25, 1.5 at 30
  EXPECT_EQ(time.to_frames({25, 1}, Round::Down), 1);
  EXPECT_EQ(time.to_frames({25, 1}, Round::Nearest), 1);
  EXPECT_EQ(time.to_frames({25, 1}, Round::Up), 2);
  EXPECT_EQ(time.to_frames({30, 1}, Round::Nearest), 2);
  EXPECT_EQ((-time).to_frames({25, 1}, Round::Down), -2);
  EXPECT_EQ((-time).to_frames({25, 1}, Round::Up), -1);
}

TEST(MediaTime, DividesToTheNearestTickWhicheverSignTheDivisorHas) {
  EXPECT_EQ(MediaTime::from_ticks(10) / 3, MediaTime::from_ticks(3));
  EXPECT_EQ(MediaTime::from_ticks(11) / 3, MediaTime::from_ticks(4));
  EXPECT_EQ(MediaTime::from_ticks(10) / -3, MediaTime::from_ticks(-3));
  EXPECT_EQ(MediaTime::from_ticks(11) / -3, MediaTime::from_ticks(-4));
  EXPECT_EQ(MediaTime::from_ticks(-11) / 3, MediaTime::from_ticks(-4));
}

TEST(MediaTime, Arithmetic) {
  auto time = MediaTime::from_seconds(2) + MediaTime::from_ms(500) - MediaTime::from_seconds(1);
  EXPECT_EQ(time, MediaTime::from_ms(1'500));
  time += MediaTime::from_ms(250) * 2;
  EXPECT_EQ(time, MediaTime::from_seconds(2));
  EXPECT_LT(-time, MediaTime());
  EXPECT_DOUBLE_EQ(MediaTime::from_ms(1'250).seconds(), 1.25);
}

struct Units {
  std::int64_t value, num, den;
  std::optional<std::int64_t> ticks;
  const char* why;
};

TEST(MediaTime, FromUnitsIsExactOrNearestOrEmpty) {
  const Units cases[] = {
      {1, 1, 90'000, 62'720, "an MPEG clock tick"},
      {1'024, 1, 12'288, 470'400'000, "one frame of the usual MP4 time base at 12 fps: 1/12 s"},
      {1, 1, 1'000'000, 5'645, "a microsecond is 5644.8 ticks"},
      {-1, 1, 1'000'000, -5'645, "and so is one before zero"},
      {1, 1, 11'289'600'000, 1, "half a tick goes up"},
      {-1, 1, 11'289'600'000, 0, "half a tick goes up below zero too"},
      {0, 5, 7, 0, "zero is zero"},
      {1'634'000'000, 1, 1, std::nullopt, "beyond 51 years"},
      {-1'634'000'000, 1, 1, std::nullopt, "beyond 51 years before zero"},
      {1'633'000'000, 1, 1, 1'633'000'000 * kSecond, "just inside"},
      {kMost, 1, kMost, kSecond, "a large middle does not overflow"},
      {kLeast, 1, 1, std::nullopt, "no stamp at all in libavformat"},
      {1, kMost, 1, std::nullopt, "a time base that cannot be"},
  };
  for (const auto& c : cases) {
    const auto time = MediaTime::from_units(c.value, c.num, c.den);
    ASSERT_EQ(time.has_value(), c.ticks.has_value()) << c.why;
    if (time) {
      EXPECT_EQ(time->ticks(), *c.ticks) << c.why;
    }
  }
}

TEST(MediaTime, FromFloatingPointTakesTheNearestTickAndZeroForNonsense) {
  EXPECT_EQ(MediaTime::from_seconds_f(1.5), MediaTime::from_ms(1'500));
  EXPECT_EQ(MediaTime::from_seconds_f(-0.25), MediaTime::from_ms(-250));
  EXPECT_EQ(MediaTime::from_seconds_f(std::nan("")), MediaTime());
  EXPECT_EQ(MediaTime::from_seconds_f(std::numeric_limits<double>::infinity()), MediaTime());
  EXPECT_EQ(MediaTime::from_seconds_f(1e300), MediaTime());
}

TEST(FrameRate, NominalIsWhatTimecodeCountsTo) {
  EXPECT_EQ((FrameRate{24000, 1001}).nominal(), 24);
  EXPECT_EQ((FrameRate{30000, 1001}).nominal(), 30);
  EXPECT_EQ((FrameRate{60000, 1001}).nominal(), 60);
  EXPECT_EQ((FrameRate{25, 1}).nominal(), 25);
  EXPECT_EQ((FrameRate{25, 2}).nominal(), 13);
  // A file may claim any rate; the sum num + den - 1 must not overflow.
  EXPECT_EQ((FrameRate{2'147'483'647, 2'147'483'647}).nominal(), 1);
}

TEST(TimeRange, IsHalfOpen) {
  const TimeRange first{MediaTime::from_seconds(1), MediaTime::from_seconds(2)};
  const TimeRange next{MediaTime::from_seconds(2), MediaTime::from_seconds(3)};
  EXPECT_TRUE(first.contains(MediaTime::from_seconds(1)));
  EXPECT_FALSE(first.contains(MediaTime::from_seconds(2)));
  EXPECT_FALSE(first.overlaps(next));
  EXPECT_TRUE(first.overlaps({MediaTime::from_ms(1'999), MediaTime::from_seconds(9)}));
  EXPECT_EQ(first.duration(), MediaTime::from_seconds(1));
  EXPECT_FALSE(first.empty());
  EXPECT_TRUE((TimeRange{MediaTime::from_seconds(2), MediaTime::from_seconds(2)}).empty());
  EXPECT_TRUE((TimeRange{MediaTime::from_seconds(3), MediaTime::from_seconds(2)}).empty());
}

}  // namespace
}  // namespace panslate
