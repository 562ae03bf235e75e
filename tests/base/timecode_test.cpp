#include "panslate/base/timecode.h"

#include <cstdint>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

namespace panslate {
namespace {

struct Example {
  std::string_view id;
  FrameRate rate;
  TimecodeMode mode;
  std::int64_t frame;
  std::string_view label;
};

// SMPTE ST 12-1: drop-frame skips the labels ;00 and ;01 (at 60000/1001: ;00 to ;03) at the start of every
// minute except every tenth; everything else is counting.
constexpr Example kExamples[] = {
    {"df_2997_0", {30000, 1001}, TimecodeMode::Drop, 0, "00:00:00;00"},
    {"df_2997_29", {30000, 1001}, TimecodeMode::Drop, 29, "00:00:00;29"},
    {"df_2997_30", {30000, 1001}, TimecodeMode::Drop, 30, "00:00:01;00"},
    {"df_2997_1799", {30000, 1001}, TimecodeMode::Drop, 1799, "00:00:59;29"},
    {"df_2997_1800", {30000, 1001}, TimecodeMode::Drop, 1800, "00:01:00;02"},
    {"df_2997_1801", {30000, 1001}, TimecodeMode::Drop, 1801, "00:01:00;03"},
    {"df_2997_3597", {30000, 1001}, TimecodeMode::Drop, 3597, "00:01:59;29"},
    {"df_2997_3598", {30000, 1001}, TimecodeMode::Drop, 3598, "00:02:00;02"},
    {"df_2997_8991", {30000, 1001}, TimecodeMode::Drop, 8991, "00:04:59;29"},
    {"df_2997_8992", {30000, 1001}, TimecodeMode::Drop, 8992, "00:05:00;02"},
    {"df_2997_17981", {30000, 1001}, TimecodeMode::Drop, 17981, "00:09:59;29"},
    {"df_2997_17982", {30000, 1001}, TimecodeMode::Drop, 17982, "00:10:00;00"},
    {"df_2997_17983", {30000, 1001}, TimecodeMode::Drop, 17983, "00:10:00;01"},
    {"df_2997_19781", {30000, 1001}, TimecodeMode::Drop, 19781, "00:10:59;29"},
    {"df_2997_19782", {30000, 1001}, TimecodeMode::Drop, 19782, "00:11:00;02"},
    {"df_2997_35964", {30000, 1001}, TimecodeMode::Drop, 35964, "00:20:00;00"},
    {"df_2997_53946", {30000, 1001}, TimecodeMode::Drop, 53946, "00:30:00;00"},
    {"df_2997_107891", {30000, 1001}, TimecodeMode::Drop, 107891, "00:59:59;29"},
    {"df_2997_107892", {30000, 1001}, TimecodeMode::Drop, 107892, "01:00:00;00"},
    {"df_2997_215784", {30000, 1001}, TimecodeMode::Drop, 215784, "02:00:00;00"},
    {"df_2997_2589407", {30000, 1001}, TimecodeMode::Drop, 2589407, "23:59:59;29"},
    {"df_5994_3599", {60000, 1001}, TimecodeMode::Drop, 3599, "00:00:59;59"},
    {"df_5994_3600", {60000, 1001}, TimecodeMode::Drop, 3600, "00:01:00;04"},
    {"df_5994_35963", {60000, 1001}, TimecodeMode::Drop, 35963, "00:09:59;59"},
    {"df_5994_35964", {60000, 1001}, TimecodeMode::Drop, 35964, "00:10:00;00"},
    {"df_5994_215784", {60000, 1001}, TimecodeMode::Drop, 215784, "01:00:00;00"},
    {"ndf_2997_1800", {30000, 1001}, TimecodeMode::NonDrop, 1800, "00:01:00:00"},
    {"ndf_2997_17982", {30000, 1001}, TimecodeMode::NonDrop, 17982, "00:09:59:12"},
    {"ndf_2997_107892", {30000, 1001}, TimecodeMode::NonDrop, 107892, "00:59:56:12"},
    {"ndf_2997_108000", {30000, 1001}, TimecodeMode::NonDrop, 108000, "01:00:00:00"},
    {"ndf_24_1_90000", {24, 1}, TimecodeMode::NonDrop, 90000, "01:02:30:00"},
    {"ndf_25_1_90000", {25, 1}, TimecodeMode::NonDrop, 90000, "01:00:00:00"},
    {"ndf_24000_1001_90000", {24000, 1001}, TimecodeMode::NonDrop, 90000, "01:02:30:00"},
    {"ndf_30_1_90000", {30, 1}, TimecodeMode::NonDrop, 90000, "00:50:00:00"},
    {"ndf_50_1_90000", {50, 1}, TimecodeMode::NonDrop, 90000, "00:30:00:00"},
    {"ndf_60_1_90000", {60, 1}, TimecodeMode::NonDrop, 90000, "00:25:00:00"},
};

TEST(Timecode, LabelsFramesAsSt12Does) {
  for (const auto& example : kExamples)
    EXPECT_EQ(to_timecode(example.frame, example.rate, example.mode), example.label) << example.id;
}

TEST(Timecode, ReadsItsOwnLabels) {
  for (const auto& example : kExamples) {
    const auto label = parse_timecode(example.label, example.rate);
    ASSERT_TRUE(label) << example.id;
    EXPECT_EQ(label->frame, example.frame) << example.id;
    EXPECT_EQ(label->mode, example.mode) << example.id;
  }
}

TEST(Timecode, EveryLabelOfTwentyMinutesComesBack) {
  for (const auto rate : {FrameRate{30000, 1001}, FrameRate{60000, 1001}, FrameRate{25, 1}}) {
    const auto mode = has_drop_frame(rate) ? TimecodeMode::Drop : TimecodeMode::NonDrop;
    for (std::int64_t frame = 0; frame < std::int64_t{20} * 60 * rate.nominal(); ++frame) {
      const auto label = parse_timecode(to_timecode(frame, rate, mode), rate);
      ASSERT_TRUE(label) << frame;
      ASSERT_EQ(label->frame, frame);
    }
  }
}

TEST(Timecode, WrapsAfterADay) {
  EXPECT_EQ(to_timecode(2'589'408, {30000, 1001}, TimecodeMode::Drop), "00:00:00;00");  // 17982 × 144
  EXPECT_EQ(to_timecode(-1, {30000, 1001}, TimecodeMode::Drop), "23:59:59;29");
  EXPECT_EQ(to_timecode(2'160'000, {25, 1}, TimecodeMode::NonDrop), "00:00:00:00");  // 25 × 86400
  EXPECT_EQ(to_timecode(-1, {25, 1}, TimecodeMode::NonDrop), "23:59:59:24");
}

TEST(Timecode, DropModeExistsOnlyAtTheTwoRates) {
  EXPECT_TRUE(has_drop_frame({30000, 1001}));
  EXPECT_TRUE(has_drop_frame({60000, 1001}));
  EXPECT_FALSE(has_drop_frame({24000, 1001}));
  EXPECT_FALSE(has_drop_frame({30, 1}));
  EXPECT_EQ(to_timecode(1'500, {25, 1}, TimecodeMode::Drop), "00:01:00:00");
}

struct Refusal {
  std::string_view label;
  FrameRate rate;
  std::string_view message;
};

// The first three rows: SMPTE ST 12-1, labels that drop-frame does not have.
constexpr Refusal kRefusals[] = {
    {"00:01:00;00",
     {30000, 1001},
     "'00:01:00;00' is no timecode: drop-frame skips this label; the next is 00:01:00;02"},
    {"00:01:00;01",
     {30000, 1001},
     "'00:01:00;01' is no timecode: drop-frame skips this label; the next is 00:01:00;02"},
    {"00:01:00;03",
     {60000, 1001},
     "'00:01:00;03' is no timecode: drop-frame skips this label; the next is 00:01:00;04"},
    {"00:00:01;00", {25, 1}, "'00:00:01;00' is no timecode: this frame rate has no drop-frame"},
    {"00:00:01:25", {25, 1}, "'00:00:01:25' is no timecode: at this rate frames go from 00 to 24"},
    {"24:00:00:00", {25, 1}, "'24:00:00:00' is no timecode: hours go to 23, minutes and seconds to 59"},
    {"00:60:00:00", {25, 1}, "'00:60:00:00' is no timecode: hours go to 23, minutes and seconds to 59"},
    {"00:00:60:00", {25, 1}, "'00:00:60:00' is no timecode: hours go to 23, minutes and seconds to 59"},
    {"", {25, 1}, "'' is no timecode: it is not HH:MM:SS:FF"},
    {"0:00:01:00", {25, 1}, "'0:00:01:00' is no timecode: it is not HH:MM:SS:FF"},
    {"00:00:01:000", {25, 1}, "'00:00:01:000' is no timecode: it is not HH:MM:SS:FF"},
    {"00:00:01,00", {25, 1}, "'00:00:01,00' is no timecode: it is not HH:MM:SS:FF"},
    {"00;00:01:00", {25, 1}, "'00;00:01:00' is no timecode: it is not HH:MM:SS:FF"},
    {"00:00:0x:00", {25, 1}, "'00:00:0x:00' is no timecode: it is not HH:MM:SS:FF"},
    {"00:00:-1:00", {25, 1}, "'00:00:-1:00' is no timecode: it is not HH:MM:SS:FF"},
    {"00:00:00:-0", {25, 1}, "'00:00:00:-0' is no timecode: it is not HH:MM:SS:FF"},
};

TEST(Timecode, RefusesWhatIsNoLabelAndSaysWhy) {
  for (const auto& refusal : kRefusals) {
    const auto label = parse_timecode(refusal.label, refusal.rate);
    ASSERT_FALSE(label) << refusal.label;
    EXPECT_EQ(label.error().code, ErrorCode::Malformed);
    EXPECT_EQ(render(label.error()), "error: " + std::string(refusal.message) +
                                         "\n  hint: write HH:MM:SS:FF, or HH:MM:SS;FF for drop-frame");
  }
}

TEST(Timecode, TheTenthMinuteKeepsItsFirstLabels) {
  const auto label = parse_timecode("00:10:00;00", {30000, 1001});
  ASSERT_TRUE(label);
  EXPECT_EQ(label->frame, 17'982);  // SMPTE ST 12-1
}

}  // namespace
}  // namespace panslate
