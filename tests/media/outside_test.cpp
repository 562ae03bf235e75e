// Real clips that nobody of this project made, where they are present.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/still.h"

#include "media/judge.h"
#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

fs::path shared(const std::string& folder) {
  return fs::path(PANSLATE_SOURCE_DIR) / "../shared/media" / folder;
}

std::vector<fs::path> files_of(const std::string& folder) {
  std::vector<fs::path> files;
  if (!fs::is_directory(shared(folder))) return files;
  for (const auto& entry : fs::directory_iterator(shared(folder))) {
    const auto name = entry.path().filename().string();
    if (entry.is_regular_file() && !name.starts_with("LICENSE") && !name.starts_with("README"))
      files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

// "30000/1001" as a number; 0 where it is none.
double rate_of(const std::string& text) {
  const auto slash = text.find('/');
  if (slash == std::string::npos) return 0;
  const std::map<std::string, std::string> parts{{"num", text.substr(0, slash)},
                                                 {"den", text.substr(slash + 1)}};
  const double den = outside::seconds(parts, "den").value_or(0);
  return den > 0 ? outside::seconds(parts, "num").value_or(0) / den : 0;
}

void expect_same_picture(const PictureFacts& picture, std::map<std::string, std::string>& judged) {
  EXPECT_EQ(picture.codec, judged["stream.codec_name"]);
  EXPECT_EQ(std::to_string(picture.width), judged["stream.width"]);
  EXPECT_EQ(std::to_string(picture.height), judged["stream.height"]);
  EXPECT_EQ(std::to_string(picture.frames.value_or(-1)), judged["stream.nb_read_frames"]);
  const auto turned = outside::seconds(judged, "stream.rotation");
  if (!picture.mirrored) {
    EXPECT_EQ(picture.rotation, (360 - static_cast<int>(turned.value_or(0))) % 360);
  }
  // ffprobe's average counts the last picture's stay, and its other rate is a guess: one of the two must be
  // near.
  const double average = rate_of(judged["stream.avg_frame_rate"]);
  const double guess = rate_of(judged["stream.r_frame_rate"]);
  const double ours = picture.frame_rate.per_second();
  const double off = std::min(
      {std::abs(ours - average) / ours, std::abs(ours - guess) / ours, std::abs(2 * ours - guess) / ours});
  EXPECT_LT(off, picture.variable_rate ? 0.35 : 0.001) << ours << " against " << average << " and " << guess;
}

TEST(OutsideClips, AgreeWithFfprobe) {
  const auto files = files_of("clips");
  if (files.empty()) GTEST_SKIP() << "the shared clips are not here";
  for (const auto& file : files) {
    SCOPED_TRACE(file.filename().string());
    const auto facts = probe_clip(file);
    auto judged = outside::ffprobe(file, outside::Count::Frames);
    ASSERT_TRUE(facts) << render(facts.error());
    const double lead = outside::seconds(judged, "stream.start_time").value_or(0) -
                        outside::seconds(judged, "format.start_time").value_or(0);
    if (facts->duration_source == DurationSource::Header) {
      EXPECT_NEAR(facts->duration.seconds(), outside::seconds(judged, "format.duration").value_or(-1) - lead,
                  0.0011);
    }
    if (const auto end = outside::packets_end(file)) {
      EXPECT_NEAR(facts->duration.seconds(), *end,
                  facts->duration_source == DurationSource::Header ? 0.501 : 0.002);
    }
    if (facts->picture) expect_same_picture(*facts->picture, judged);
    if (facts->picture && !facts->picture->variable_rate) {
      EXPECT_EQ(facts->timecode.value_or(""), judged["stream.timecode"]);
    }
  }
}

struct Known {
  std::string file;
  std::string timecode;
  int rotation;
  bool mirrored;
  bool variable;
};

// What the files' own names and notes say.
TEST(OutsideClips, SayWhatTheirNamesSay) {
  if (files_of("clips").empty()) GTEST_SKIP() << "the shared clips are not here";
  const std::vector<Known> all{
      {"TimecodeTrack_24_Start-00-58-40-00.mov", "00:58:40:00", 0, false, false},
      {"TimecodeTrack_23_976_Start-00-58-40-00.mov", "00:58:40:00", 0, false, false},
      {"VideoAndTimecodeTrack_29_97i_Start-00-00-00-00.mov", "00:00:00:00", 0, false, false},
      {"internal_emulator_transformer_output_180_rotated.mp4", "", 180, false, false},
      {"internal_emulator_transformer_output_270_rotated.mp4", "", 270, false, false},
      {"sample_rotate_and_reflect.mp4", "", 90, true, false},
      {"VideoTrack_25_VFR_1sec.mov", "", 0, false, true},
      {"VideoTrack_25_VFR_2sec.mov", "", 0, false, true},
  };
  for (const auto& known : all) {
    SCOPED_TRACE(known.file);
    if (!fs::exists(shared("clips") / known.file)) continue;
    const auto facts = probe_clip(shared("clips") / known.file);
    ASSERT_TRUE(facts);
    EXPECT_EQ(facts->timecode.value_or(""), known.timecode);
    EXPECT_EQ(facts->picture ? facts->picture->rotation : 0, known.rotation);
    EXPECT_EQ(facts->picture && facts->picture->mirrored, known.mirrored);
    EXPECT_EQ(facts->picture && facts->picture->variable_rate, known.variable);
  }
}

// The picture ffmpeg gives for the same frame, which it turns upright too. It guesses BT.601 where a file
// says nothing, we BT.709 for high definition; and it does not tone down HDR.
TEST(OutsideClips, GiveTheStillsThatFfmpegGives) {
  const auto files = files_of("clips");
  if (files.empty()) GTEST_SKIP() << "the shared clips are not here";
  int compared = 0;
  for (const auto& file : files) {
    SCOPED_TRACE(file.filename().string());
    const auto facts = probe_clip(file);
    ASSERT_TRUE(facts);
    if (!facts->picture || facts->picture->hdr) continue;
    auto judged = outside::ffprobe(file, outside::Count::Nothing);
    const double lead = outside::seconds(judged, "stream.start_time").value_or(0) -
                        outside::seconds(judged, "format.start_time").value_or(0);
    const auto still = take_still(file, facts->picture->duration / 2, 320);
    ASSERT_TRUE(still) << render(still.error());
    EXPECT_LE(still->time, facts->picture->duration / 2);
    const auto jpeg = samples::folder() / "outside.jpg";
    std::ofstream(jpeg, std::ios::binary) << still->jpeg;
    const auto ours = outside::frame_rgb(jpeg, 0, still->width, still->height);
    const auto theirs = outside::frame_rgb(file, std::max(0.0, still->time.seconds() + lead - 0.001),
                                           still->width, still->height);
    EXPECT_LT(outside::difference(ours, theirs), 6.0) << "at " << still->time.seconds();
    ++compared;
  }
  EXPECT_GT(compared, 20);
}

// Pictures that can be started from lie between B pictures that refer across them: after a seek to one of
// those, the B pictures before it are lost. ffprobe, which reads from the beginning, shows one at every
// second.
TEST(OutsideClips, AreFoundToThePicture) {
  const auto file = shared("clips") / "iibbibb_editlist_videoonly.mp4";
  if (!fs::exists(file)) GTEST_SKIP() << "the shared clips are not here";
  for (std::int64_t second = 0; second < 12; ++second) {
    const auto still = take_still(file, MediaTime::from_ms(second * 1000 + 500), 64);
    ASSERT_TRUE(still);
    EXPECT_EQ(still->time, MediaTime::from_seconds(second));
  }
}

// Malformed on purpose: each gives facts and a still, or an error with a reason.
TEST(OutsideDamage, GivesFactsOrAReason) {
  const auto files = files_of("broken");
  if (files.empty()) GTEST_SKIP() << "the shared broken files are not here";
  for (const auto& file : files) {
    SCOPED_TRACE(file.filename().string());
    const auto facts = probe_clip(file);
    if (facts) {
      EXPECT_GT(facts->duration, MediaTime{});
      EXPECT_LT(facts->duration, MediaTime::from_seconds(86400));
      EXPECT_TRUE(facts->picture || !facts->sound.empty());
    } else {
      EXPECT_EQ(facts.error().code, ErrorCode::NotMedia);
      EXPECT_GT(facts.error().message.size(), 10U);
    }
    const auto still = take_still(file, MediaTime::from_ms(500), 160);
    if (still) {
      EXPECT_TRUE(still->jpeg.starts_with("\xFF\xD8\xFF"));
      EXPECT_LE(std::max(still->width, still->height), 160);
    } else {
      EXPECT_EQ(still.error().code, ErrorCode::NotMedia);
    }
  }
}

}  // namespace
}  // namespace panslate
