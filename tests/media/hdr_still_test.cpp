// Stills of HDR clips on a usual screen.
#include <algorithm>
#include <fstream>
#include <ostream>
#include <string>

#include <gtest/gtest.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/still.h"

#include "media/judge.h"
#include "media/run_program.h"
#include "media/samples.h"
#include "media/tone_down.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

struct Level {
  const char* what;
  double light;  // cd/m²
  double pq;     // % of the signal, rounded in the source to whole ones
  double hlg;
};

// ITU-R BT.2408-5 table 1: levels for reflecting things in HDR pictures.
constexpr Level kLevels[] = {{"grey card, 18 %", 26, 38, 38},
                             {"white of the grey scale chart, 83 %", 162, 56, 71},
                             {"white of the grey scale chart, 90 %", 179, 57, 73},
                             {"reference white, 100 %", 203, 58, 75}};

TEST(HdrCurves, AreThosePublished) {
  for (const auto& level : kLevels) {
    SCOPED_TRACE(level.what);
    EXPECT_LT(av::pq_light(level.pq / 100 - 0.0051), level.light);
    EXPECT_GT(av::pq_light(level.pq / 100 + 0.0051), level.light);
    EXPECT_LT(av::hlg_grey_light(level.hlg / 100 - 0.0051), level.light);
    EXPECT_GT(av::hlg_grey_light(level.hlg / 100 + 0.0051), level.light);
    EXPECT_NEAR(av::pq_light(av::pq_signal(level.light)), level.light, 1e-9);
  }
  // Both ends: BT.2100 tables 4 and 5.
  EXPECT_EQ(av::pq_light(0), 0);
  EXPECT_NEAR(av::pq_light(1), 10'000, 1e-6);
  EXPECT_EQ(av::hlg_grey_light(0), 0);
  EXPECT_NEAR(av::hlg_grey_light(1), 1000, 0.001);
  // The two branches of HLG meet at half the signal: E = 1/12 there.
  EXPECT_NEAR(av::hlg_grey_light(0.5), av::hlg_grey_light(0.5 + 1e-9), 1e-4);
}

// ITU-R BT.2390-10 section 5.4.1: below the knee nothing changes, the peak becomes the screen's.
TEST(HdrCurves, PressWhatIsBrightOnly) {
  for (const double peak : {400.0, 1000.0, 4000.0, 10'000.0}) {
    SCOPED_TRACE(peak);
    EXPECT_NEAR(av::pressed(peak, peak), av::kReferenceWhite, 1e-6);
    EXPECT_EQ(av::pressed(10, peak), 10);
    double before = 0;
    for (double light = 1; light <= peak; light *= 1.05) {
      const double now = av::pressed(light, peak);
      EXPECT_GT(now, before);
      EXPECT_LE(now, light * (1 + 1e-9));
      before = now;
    }
  }
  EXPECT_EQ(av::pressed(150, 203), 150) << "nothing to press";
}

struct Grey {
  const char* transfer;  // as ffmpeg names it
  int signal;            // %
  int shown;             // of 255
};

void PrintTo(const Grey& grey, std::ostream* out) {
  *out << grey.transfer << " " << grey.signal << " %";
}

class HdrStill : public testing::TestWithParam<Grey> {};

// A clip that ffmpeg made, 10 bits. What is shown: the formulas of BT.2100, BT.2390 (1000 to 203 cd/m²) and
// sRGB worked out apart from this project, in Python.
TEST_P(HdrStill, ShowsGreysAsBright) {
  const auto& grey = GetParam();
  const auto file = samples::folder() / (std::string(grey.transfer) + std::to_string(grey.signal) + ".mp4");
  const auto lum = std::to_string(64 + 876 * grey.signal / 100);
  const auto made = outside::run_program(
      {"ffmpeg",
       "-v",
       "quiet",
       "-y",
       "-f",
       "lavfi",
       "-i",
       "color=black:s=64x64:r=25:d=0.2,format=yuv420p10le,geq=lum=" + lum + ":cb=512:cr=512",
       "-c:v",
       "libx264",
       "-qp",
       "0",
       "-color_trc",
       grey.transfer,
       "-colorspace",
       "bt2020nc",
       "-color_primaries",
       "bt2020",
       "-color_range",
       "tv",
       file.string()});
  ASSERT_EQ(made.status, 0);
  const auto facts = probe_clip(file);
  ASSERT_TRUE(facts);
  EXPECT_TRUE(facts->picture->hdr);
  const auto still = take_still(file, {}, 64);
  ASSERT_TRUE(still) << render(still.error());
  const auto jpeg = samples::folder() / "hdr.jpg";
  std::ofstream(jpeg, std::ios::binary) << still->jpeg;
  const auto rgb = outside::frame_rgb(jpeg, 0, still->width, still->height);
  ASSERT_GT(rgb.size(), 6000U);
  for (std::size_t channel = 0; channel < 3; ++channel)
    EXPECT_NEAR(static_cast<unsigned char>(rgb[6000 + channel]), grey.shown, 2);
}

INSTANTIATE_TEST_SUITE_P(Greys, HdrStill,
                         testing::Values(Grey{"arib-std-b67", 0, 0}, Grey{"arib-std-b67", 38, 101},
                                         Grey{"arib-std-b67", 58, 165}, Grey{"arib-std-b67", 75, 229},
                                         Grey{"arib-std-b67", 90, 253}, Grey{"arib-std-b67", 100, 255},
                                         Grey{"smpte2084", 38, 100}, Grey{"smpte2084", 58, 229},
                                         Grey{"smpte2084", 75, 255}, Grey{"smpte2084", 100, 255}),
                         [](const auto& test) {
                           return std::string(test.param.transfer[0] == 'a' ? "hlg" : "pq") +
                                  std::to_string(test.param.signal);
                         });

// A phone's clip, its transfer named in the pictures only: blue sky, a white roof in the sun, an orange wall.
TEST(HdrStillOf, APhonesClipHasItsColours) {
  const auto file =
      fs::path(PANSLATE_SOURCE_DIR) / "../shared/media/clips/hdr10-video-with-sdr-container.mp4";
  if (!fs::exists(file)) GTEST_SKIP() << "the shared clips are not here";
  const auto still = take_still(file, MediaTime::from_ms(500), 320);
  ASSERT_TRUE(still);
  const auto jpeg = samples::folder() / "phone_hdr.jpg";
  std::ofstream(jpeg, std::ios::binary) << still->jpeg;
  const auto rgb = outside::frame_rgb(jpeg, 0, 320, 180);
  const auto at = [&](std::size_t x, std::size_t y, std::size_t channel) {
    return static_cast<int>(static_cast<unsigned char>(rgb.at((y * 320 + x) * 3 + channel)));
  };
  EXPECT_GT(at(160, 20, 2), at(160, 20, 0) + 100) << "the sky is blue";
  EXPECT_GT(at(310, 80, 0), at(310, 80, 2) + 100) << "the wall is orange";
  // Shown as it is, without toning down, no pixel is darker than 20 or brighter than 200.
  const auto [darkest, brightest] = std::minmax_element(rgb.begin(), rgb.end(), [](char a, char b) {
    return static_cast<unsigned char>(a) < static_cast<unsigned char>(b);
  });
  EXPECT_LT(static_cast<unsigned char>(*darkest), 20);
  EXPECT_GT(static_cast<unsigned char>(*brightest), 240);
}

}  // namespace
}  // namespace panslate
