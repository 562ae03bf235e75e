#include <fstream>
#include <ostream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/media/clip_facts.h"

#include "media/judge.h"
#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

struct Sample {
  std::string name;
  fs::path (*file)();
  std::int64_t duration_ms;
  DurationSource source;
  FrameRate rate;
  bool variable;
  std::int64_t frames;
  int shown_width, shown_height, rotation;
  std::string codec;
};

void PrintTo(const Sample& sample, std::ostream* out) {
  *out << sample.name;
}

class Probe : public testing::TestWithParam<Sample> {};

// Durations and counts by hand from the specs in samples.cpp. Encoded sound may end up to one AAC frame (21
// ms) late.
TEST_P(Probe, MeasuresWhatWasMade) {
  const auto& sample = GetParam();
  const auto facts = probe_clip(sample.file());
  ASSERT_TRUE(facts) << render(facts.error());
  EXPECT_NEAR(facts->duration.seconds() * 1000, static_cast<double>(sample.duration_ms), 22);
  EXPECT_EQ(facts->duration_source, sample.source);
  ASSERT_TRUE(facts->picture);
  EXPECT_EQ(facts->picture->frame_rate, sample.rate);
  EXPECT_EQ(facts->picture->variable_rate, sample.variable);
  EXPECT_EQ(facts->picture->frames, sample.frames);
  EXPECT_EQ(facts->picture->shown_width, sample.shown_width);
  EXPECT_EQ(facts->picture->shown_height, sample.shown_height);
  EXPECT_EQ(facts->picture->rotation, sample.rotation);
  EXPECT_FALSE(facts->picture->mirrored);
  EXPECT_FALSE(facts->picture->hdr);
  EXPECT_EQ(facts->picture->codec, sample.codec);
  EXPECT_THAT(facts->warnings, testing::IsEmpty());
}

// The outside judge: ffprobe on the same file, its frames decoded and counted.
TEST_P(Probe, AgreesWithFfprobe) {
  const auto& sample = GetParam();
  const auto file = sample.file();
  const auto facts = probe_clip(file);
  ASSERT_TRUE(facts) << render(facts.error());
  auto judged = outside::ffprobe(file, outside::Count::Frames);
  ASSERT_FALSE(judged.empty());
  const double lead = outside::seconds(judged, "stream.start_time").value_or(0) -
                      outside::seconds(judged, "format.start_time").value_or(0);
  EXPECT_NEAR(facts->duration.seconds(), outside::seconds(judged, "format.duration").value_or(-1) - lead,
              0.001);
  EXPECT_EQ(std::to_string(facts->picture->frames.value_or(-1)), judged["stream.nb_read_frames"]);
  if (!sample.variable) {
    EXPECT_EQ(std::to_string(sample.rate.num) + "/" + std::to_string(sample.rate.den),
              judged["stream.r_frame_rate"]);
  }
  EXPECT_EQ(std::to_string(facts->picture->width), judged["stream.width"]);
  EXPECT_EQ(std::to_string(facts->picture->height), judged["stream.height"]);
  EXPECT_EQ(facts->timecode.value_or(""), judged["stream.timecode"]);
  // ffprobe counts anticlockwise.
  const auto turned =
      judged.contains("stream.rotation") ? outside::seconds(judged, "stream.rotation").value_or(0) : 0;
  EXPECT_EQ(facts->picture->rotation, (360 - static_cast<int>(turned)) % 360);
}

constexpr auto kHeader = DurationSource::Header;
constexpr auto kPackets = DurationSource::Packets;

INSTANTIATE_TEST_SUITE_P(
    Samples, Probe,
    testing::Values(
        Sample{"camera", samples::camera_mp4, 2000, kHeader, {25, 1}, false, 50, 64, 48, 0, "h264"},
        Sample{"phone", samples::phone_mp4, 1001, kHeader, {30000, 1001}, false, 30, 240, 320, 90, "h264"},
        Sample{"timecode", samples::timecode_mov, 1001, kHeader, {30000, 1001}, false, 30, 64, 48, 0, "h264"},
        Sample{"film", samples::film_mkv, 2002, kHeader, {24000, 1001}, false, 48, 64, 48, 0, "h264"},
        Sample{"broadcast", samples::broadcast_ts, 2000, kPackets, {25, 1}, false, 50, 64, 48, 0, "h264"},
        Sample{"old", samples::old_avi, 2000, kHeader, {25, 1}, false, 50, 64, 48, 0, "mpeg4"},
        // 20 pictures at 25/s, then n = 21, 24, … 72 of 75: 18 more
        Sample{"varying", samples::varying_mp4, 3000, kHeader, {38, 3}, true, 38, 64, 48, 0, "h264"},
        Sample{"silent", samples::silent_mov, 1500, kHeader, {24, 1}, false, 36, 64, 48, 0, "h264"}),
    [](const auto& test) { return test.param.name; });

TEST(ProbeFacts, SoundOnly) {
  const auto facts = probe_clip(samples::narration_wav());
  ASSERT_TRUE(facts) << render(facts.error());
  EXPECT_FALSE(facts->picture);
  ASSERT_EQ(facts->sound.size(), 1U);
  EXPECT_EQ(facts->duration, MediaTime::from_ms(1500));
  EXPECT_EQ(facts->duration_source, DurationSource::Header);
  EXPECT_EQ(facts->sound[0].channels, 1);
  EXPECT_EQ(facts->sound[0].layout, "mono");
  EXPECT_EQ(facts->sound[0].sample_rate, 48000);
  EXPECT_EQ(facts->sound[0].codec, "pcm_s16le");
  EXPECT_EQ(facts->sound[0].begin, MediaTime{});
  EXPECT_EQ(facts->sound[0].end, MediaTime::from_ms(1500));
}

TEST(ProbeFacts, TimecodeAndDateOfRecording) {
  const auto timecode = probe_clip(samples::timecode_mov());
  ASSERT_TRUE(timecode);
  EXPECT_EQ(timecode->timecode, "01:00:00;00");
  const auto phone = probe_clip(samples::phone_mp4());
  ASSERT_TRUE(phone);
  EXPECT_EQ(phone->recorded, "2024-05-04T10:12:00Z");
  EXPECT_EQ(phone->timecode, std::nullopt);
}

TEST(ProbeFacts, PixelsThatAreNotSquare) {
  // 720x576 at 16:15 is 768x576: the PAL television picture.
  const auto file = samples::make("pal.mp4", samples::spec("color=s=720x576,setsar=16/15[v]", 200));
  const auto facts = probe_clip(file);
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->picture->width, 720);
  EXPECT_EQ(facts->picture->shown_width, 768);
  EXPECT_EQ(facts->picture->shown_height, 576);
}

struct Refused {
  std::string name;
  std::string bytes;  // of the file; empty: an empty file
  std::string ending;
  std::string message;
};

void PrintTo(const Refused& refused, std::ostream* out) {
  *out << refused.name;
}

class ProbeRefuses : public testing::TestWithParam<Refused> {};

TEST_P(ProbeRefuses, WhatIsNoClip) {
  const auto& refused = GetParam();
  const fs::path file = samples::folder() / ("refused." + refused.ending);
  std::ofstream(file, std::ios::binary) << refused.bytes;
  const auto facts = probe_clip(file);
  ASSERT_FALSE(facts);
  EXPECT_EQ(facts.error().code, ErrorCode::NotMedia);
  EXPECT_EQ(render(facts.error()), file.string() + ": error: " + refused.message);
}

constexpr auto* kNotMedia =
    "there is no film or sound in it that can be opened\n"
    "  hint: if it plays elsewhere, export it again as .mp4 or .wav; else copy it from the camera again";

INSTANTIATE_TEST_SUITE_P(
    Files, ProbeRefuses,
    testing::Values(
        Refused{"empty", "", "mp4", "the file is empty\n  hint: copy it from the camera again"},
        Refused{"text", "Lentil soup\n\n200 g red lentils\n", "mp4", kNotMedia},
        Refused{"captions", "1\n00:00:01,000 --> 00:00:02,000\nAdd the lentils.\n", "srt", kNotMedia},
        // Lists of other files are not followed.
        Refused{"play list", "#EXTM3U\n#EXT-X-TARGETDURATION:2\n#EXTINF:2,\ncamera.ts\n#EXT-X-ENDLIST\n",
                "m3u8", kNotMedia},
        Refused{"list of files", "ffconcat version 1.0\nfile camera.mp4\n", "ffconcat", kNotMedia},
        Refused{"zeros", std::string(5000, '\0'), "mov", kNotMedia}),
    [](const auto& test) { return "n" + std::to_string(test.index); });

TEST(ProbeRefusesPaths, ThatAreNotThereOrFolders) {
  const auto missing = probe_clip(samples::folder() / "missing.mp4");
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().code, ErrorCode::NotFound);
  EXPECT_EQ(render(missing.error()), (samples::folder() / "missing.mp4").string() +
                                         ": error: there is no such file\n"
                                         "  hint: check the name, or whether the card or disk is connected");
  const auto folder = probe_clip(samples::folder());
  ASSERT_FALSE(folder);
  EXPECT_EQ(folder.error().code, ErrorCode::Unreadable);
  EXPECT_EQ(render(folder.error()), samples::folder().string() + ": error: this is a folder, not a clip");
}

TEST(ProbeNames, ThatLookLikeAddressesAreFiles) {
  const auto odd = samples::folder() / "http:take 3.mp4";
  fs::copy_file(samples::camera_mp4(), odd, fs::copy_options::overwrite_existing);
  const auto facts = probe_clip(odd);
  ASSERT_TRUE(facts) << render(facts.error());
  EXPECT_EQ(facts->duration, MediaTime::from_seconds(2));
}

}  // namespace
}  // namespace panslate
