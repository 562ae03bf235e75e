#include "panslate/base/timestamp.h"

#include <cstdint>
#include <optional>
#include <string_view>

#include <gtest/gtest.h>

namespace panslate {
namespace {

struct Written {
  std::int64_t ms;
  std::string_view clock, comma, centi, spoken;
};

// Forms: WebVTT (W3C, section 6.1 "WebVTT timestamp"), SubRip and ASS as libavformat writes them.
constexpr Written kWritten[] = {
    {0, "00:00:00.000", "00:00:00,000", "0:00:00.00", "0:00"},
    {-1, "00:00:00.000", "00:00:00,000", "0:00:00.00", "0:00"},
    {62'345, "00:01:02.345", "00:01:02,345", "0:01:02.35", "1:02"},
    {59'999, "00:00:59.999", "00:00:59,999", "0:01:00.00", "0:59"},
    {3'599'999, "00:59:59.999", "00:59:59,999", "1:00:00.00", "59:59"},
    {3'661'000, "01:01:01.000", "01:01:01,000", "1:01:01.00", "1:01:01"},
    {360'000'000, "100:00:00.000", "100:00:00,000", "100:00:00.00", "100:00:00"},
};

TEST(Timestamp, WritesEachStyle) {
  for (const auto& c : kWritten) {
    const auto time = MediaTime::from_ms(c.ms);
    EXPECT_EQ(format_timestamp(time, TimestampStyle::Clock), c.clock);
    EXPECT_EQ(format_timestamp(time, TimestampStyle::Comma), c.comma);
    EXPECT_EQ(format_timestamp(time, TimestampStyle::Centi), c.centi);
    EXPECT_EQ(format_timestamp(time, TimestampStyle::Spoken), c.spoken);
  }
}

TEST(Timestamp, TheLastPlaceIsRoundedByName) {
  const auto time = MediaTime::from_ms(1'234) + MediaTime::from_ticks(1);
  EXPECT_EQ(format_timestamp(time, TimestampStyle::Clock, Round::Down), "00:00:01.234");
  EXPECT_EQ(format_timestamp(time, TimestampStyle::Clock, Round::Nearest), "00:00:01.234");
  EXPECT_EQ(format_timestamp(time, TimestampStyle::Clock, Round::Up), "00:00:01.235");
  EXPECT_EQ(format_timestamp(time, TimestampStyle::Centi, Round::Down), "0:00:01.23");
  EXPECT_EQ(format_timestamp(time, TimestampStyle::Centi, Round::Up), "0:00:01.24");
  EXPECT_EQ(format_timestamp(MediaTime::from_ms(1'999), TimestampStyle::Spoken, Round::Up), "0:01")
      << "people read whole seconds, always rounded down";
}

TEST(Timestamp, WhatIsWrittenIsReadBack) {
  for (std::int64_t ms = 0; ms < 20'000'000; ms += 7'919) {
    const auto time = MediaTime::from_ms(ms);
    EXPECT_EQ(parse_timestamp(format_timestamp(time, TimestampStyle::Clock)), time);
    EXPECT_EQ(parse_timestamp(format_timestamp(time, TimestampStyle::Comma)), time);
    EXPECT_EQ(parse_timestamp(format_timestamp(time, TimestampStyle::Centi)),
              MediaTime::from_ms(time.to_cs(Round::Nearest) * 10));
    EXPECT_EQ(parse_timestamp(format_timestamp(time, TimestampStyle::Spoken)),
              MediaTime::from_seconds(ms / 1'000));
  }
}

struct Read {
  std::string_view text;
  std::optional<std::int64_t> ms;
};

constexpr Read kRead[] = {
    {"0:00", 0},
    {"1:02", 62'000},
    {"01:02", 62'000},
    {"90:00", 5'400'000},
    {"1:01:01", 3'661'000},
    {"00:00:01.5", 1'500},
    {"00:00:01,050", 1'050},
    {"00:00:01.000000000", 1'000},
    {"1000:59:59", 3'603'599'000},
    {"00:59:59.999", 3'599'999},
    // no time at all
    {"", std::nullopt},
    {"12", std::nullopt},
    {":12", std::nullopt},
    {"1:", std::nullopt},
    {"1:2", std::nullopt},
    {"1:234", std::nullopt},
    {"1::02", std::nullopt},
    {"1:02:03:04", std::nullopt},
    {"1:60", std::nullopt},
    {"1:60:00", std::nullopt},
    {"1:00:60", std::nullopt},
    {"1001:00:00", std::nullopt},
    {"60001:00", std::nullopt},
    {"999999999999:00", std::nullopt},
    {"00:00:01.", std::nullopt},
    {"00:00:01.0000000001", std::nullopt},
    {"00:00:01;12", std::nullopt},
    {"00:00:01.5x", std::nullopt},
    {" 0:01", std::nullopt},
    {"0:01 ", std::nullopt},
    {"-0:01", std::nullopt},
    {"+0:01", std::nullopt},
    {"0:0\xC2\xB2", std::nullopt},
};

TEST(Timestamp, ReadsTimesAndRefusesTheRest) {
  for (const auto& c : kRead) {
    const auto time = parse_timestamp(c.text);
    ASSERT_EQ(time.has_value(), c.ms.has_value()) << '"' << c.text << '"';
    if (time) {
      EXPECT_EQ(*time, MediaTime::from_ms(*c.ms)) << '"' << c.text << '"';
    }
  }
}

TEST(Timestamp, NineDecimalsReachTheNearestTick) {
  const auto time = parse_timestamp("0:00.000000001");  // a nanosecond is 5.6448 ticks
  ASSERT_TRUE(time);
  EXPECT_EQ(time->ticks(), 6);
}

}  // namespace
}  // namespace panslate
