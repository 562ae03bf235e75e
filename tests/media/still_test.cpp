#include "panslate/media/still.h"

#include <fstream>
#include <ostream>
#include <string>

#include <gtest/gtest.h>

#include "panslate/media/clip_facts.h"

#include "media/judge.h"
#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

fs::path saved(const Still& still, const std::string& name) {
  auto file = samples::folder() / (name + ".jpg");
  std::ofstream(file, std::ios::binary) << still.jpeg;
  return file;
}

// The bytes of a still, decoded by ffmpeg.
std::string rgb(const Still& still, const std::string& name) {
  return outside::frame_rgb(saved(still, name), 0, still.width, still.height);
}

struct Rgb {
  int red = 0, green = 0, blue = 0;
};

Rgb pixel(const std::string& bytes, int width, int x, int y) {
  const auto at =
      (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)) * 3;
  const auto value = [&](std::size_t i) {
    return static_cast<int>(static_cast<unsigned char>(bytes.at(at + i)));
  };
  return {value(0), value(1), value(2)};
}

bool is_red(Rgb p) {
  return p.red > 200 && p.green < 70 && p.blue < 70;
}

struct At {
  std::string name;
  fs::path (*file)();
  std::int64_t ms;     // asked for
  std::int64_t frame;  // shown then, counted by hand
  FrameRate rate;
};

void PrintTo(const At& at, std::ostream* out) {
  *out << at.name << " at " << at.ms << " ms";
}

class StillAt : public testing::TestWithParam<At> {};

// The grey of the picture tells its number: 16 + 8 n of 16…235 is (8 n) × 255 / 219 in full range.
TEST_P(StillAt, ShowsTheFrameOfThatTime) {
  const auto& at = GetParam();
  const auto still = take_still(at.file(), MediaTime::from_ms(at.ms), 64);
  ASSERT_TRUE(still) << render(still.error());
  EXPECT_EQ(still->width, 64);
  EXPECT_EQ(still->height, 48);
  // Matroska and AVI stamps are rounded to their units.
  EXPECT_NEAR(still->time.seconds(), MediaTime::from_frames(at.frame, at.rate).seconds(), 0.0011);
  const auto grey = pixel(rgb(*still, at.name), 64, 32, 24).green;
  EXPECT_NEAR(grey, static_cast<double>(at.frame % 25) * 8 * 255 / 219, 3);
}

INSTANTIATE_TEST_SUITE_P(Samples, StillAt,
                         testing::Values(At{"camera", samples::camera_mp4, 0, 0, {25, 1}},
                                         At{"camera", samples::camera_mp4, 39, 0, {25, 1}},
                                         At{"camera", samples::camera_mp4, 40, 1, {25, 1}},
                                         At{"camera", samples::camera_mp4, 1000, 25, {25, 1}},
                                         At{"camera", samples::camera_mp4, 1239, 30, {25, 1}},
                                         At{"camera", samples::camera_mp4, 1960, 49, {25, 1}},
                                         At{"camera", samples::camera_mp4, -500, 0, {25, 1}},
                                         At{"camera", samples::camera_mp4, 3'600'000, 49, {25, 1}},
                                         At{"timecode", samples::timecode_mov, 510, 15, {30000, 1001}},
                                         At{"film", samples::film_mkv, 1030, 24, {24000, 1001}},
                                         At{"film", samples::film_mkv, 9000, 47, {24000, 1001}},
                                         At{"broadcast", samples::broadcast_ts, 0, 0, {25, 1}},
                                         At{"broadcast", samples::broadcast_ts, 1010, 25, {25, 1}},
                                         At{"broadcast", samples::broadcast_ts, 99'000, 49, {25, 1}},
                                         At{"old", samples::old_avi, 770, 19, {25, 1}},
                                         At{"old", samples::old_avi, 5000, 49, {25, 1}},
                                         At{"silent", samples::silent_mov, 700, 16, {24, 1}}),
                         [](const auto& test) { return test.param.name + std::to_string(test.index); });

struct Turned {
  int rotation;
};

class StillTurned : public testing::TestWithParam<Turned> {};

TEST_P(StillTurned, StandsUpright) {
  auto spec = samples::spec(std::string(samples::kCorner) + "[v]", 400);
  spec.rotation = GetParam().rotation;
  const auto file = samples::make("turned" + std::to_string(spec.rotation) + ".mp4", spec);
  const auto facts = probe_clip(file);
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->picture->rotation, spec.rotation);
  EXPECT_EQ(facts->picture->width, spec.rotation % 180 == 0 ? 320 : 240) << "stored turned";
  const auto still = take_still(file, MediaTime::from_ms(200), 320);
  ASSERT_TRUE(still) << render(still.error());
  ASSERT_EQ(still->width, 320);
  ASSERT_EQ(still->height, 240);
  const auto bytes = rgb(*still, "turned");
  EXPECT_TRUE(is_red(pixel(bytes, 320, 20, 20))) << "the red corner is upper left";
  EXPECT_FALSE(is_red(pixel(bytes, 320, 300, 20)));
  EXPECT_FALSE(is_red(pixel(bytes, 320, 20, 220)));
  EXPECT_FALSE(is_red(pixel(bytes, 320, 300, 220)));
  // ffmpeg turns as viewers do; -ss 0.2 is a frame's own time at 25/s.
  EXPECT_LT(outside::difference(bytes, outside::frame_rgb(file, 0.2, 320, 240)), 3.0);
}

INSTANTIATE_TEST_SUITE_P(Quarters, StillTurned,
                         testing::Values(Turned{0}, Turned{90}, Turned{180}, Turned{270}),
                         [](const auto& test) { return "by" + std::to_string(test.param.rotation); });

TEST(StillShape, IsSquarePixelsAndNeverEnlarged) {
  const auto file = samples::make("pal_still.mp4", samples::spec("color=s=720x576,setsar=16/15[v]", 200));
  const auto whole = take_still(file, {}, 4000);
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->width, 768);
  EXPECT_EQ(whole->height, 576);
  const auto small = take_still(file, {}, 320);
  ASSERT_TRUE(small);
  EXPECT_EQ(small->width, 320);
  EXPECT_EQ(small->height, 240);
}

struct Colour {
  std::string size;
  std::string name;
  Rgb shown;
};

class StillColour : public testing::TestWithParam<Colour> {};

// The drawn colour comes back through encoder, decoder and JPEG, whatever the matrix of the size.
TEST_P(StillColour, IsTheOneDrawn) {
  const auto& c = GetParam();
  const auto file = samples::make("colour_" + c.size + c.name + ".mp4",
                                  samples::spec("color=c=" + c.name + ":s=" + c.size + "[v]", 80));
  const auto still = take_still(file, {}, 64);
  ASSERT_TRUE(still);
  const auto p = pixel(rgb(*still, "colour"), still->width, 10, 10);
  EXPECT_NEAR(p.red, c.shown.red, 4);
  EXPECT_NEAR(p.green, c.shown.green, 4);
  EXPECT_NEAR(p.blue, c.shown.blue, 4);
}

INSTANTIATE_TEST_SUITE_P(Sizes, StillColour,
                         testing::Values(Colour{"320x240", "0x2060C0", {0x20, 0x60, 0xC0}},
                                         Colour{"1280x720", "0x2060C0", {0x20, 0x60, 0xC0}},
                                         Colour{"320x240", "0xD04020", {0xD0, 0x40, 0x20}},
                                         Colour{"1280x720", "white", {255, 255, 255}},
                                         Colour{"1280x720", "black", {0, 0, 0}}),
                         [](const auto& test) { return "n" + std::to_string(test.index); });

TEST(StillOf, SoundIsRefused) {
  const auto file = samples::narration_wav();
  const auto still = take_still(file, {}, 320);
  ASSERT_FALSE(still);
  EXPECT_EQ(still.error().code, ErrorCode::NotMedia);
  EXPECT_EQ(render(still.error()), file.string() + ": error: there is no picture in it");
}

}  // namespace
}  // namespace panslate
