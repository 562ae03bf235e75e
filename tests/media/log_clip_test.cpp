// Logs of clips whose content is known, against ffprobe and against what was drawn.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>

#include <gtest/gtest.h>

#include "panslate/media/clip_log.h"
#include "panslate/media/measured_bytes.h"

#include "media/judge.h"
#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

ClipLog log_of(const fs::path& file) {
  auto log = log_clip(file, {}, {});
  EXPECT_TRUE(log) << file;
  return log.value_or(ClipLog{});
}

std::vector<TimeRange> stretches(const ClipLog& log, FaultKind kind) {
  std::vector<TimeRange> out;
  for (const auto& fault : log.faults)
    if (fault.kind == kind) out.push_back(fault.when);
  return out;
}

TEST(LogClip, CountsFramesAsFfprobeDoes) {
  for (const auto& file :
       {samples::camera_mp4(), samples::phone_mp4(), samples::timecode_mov(), samples::film_mkv(),
        samples::broadcast_ts(), samples::old_avi(), samples::varying_mp4(), samples::silent_mov()}) {
    const auto answers = outside::ffprobe(file, outside::Count::Frames);
    const auto log = log_of(file);
    EXPECT_EQ(std::to_string(log.frames), answers.at("stream.nb_read_frames")) << file;
    EXPECT_EQ(log.damage(), nullptr) << file;
    ASSERT_FALSE(log.shots.empty()) << file;
    EXPECT_EQ(log.shots.back().last_frame, log.frames - 1) << file;
  }
}

TEST(LogClip, CountsFramesOfRealClipsAsFfprobeDoes) {
  const auto folder = fs::path(PANSLATE_SOURCE_DIR) / "../shared/media/clips";
  if (!fs::exists(folder)) GTEST_SKIP() << "no real clips beside the project";
  for (const auto& entry : fs::directory_iterator(folder)) {
    const auto log = log_clip(entry.path(), {}, {});
    if (!log || !log->facts.picture) continue;
    const auto answers = outside::ffprobe(entry.path(), outside::Count::Frames);
    const auto counted = answers.find("stream.nb_read_frames");
    if (counted == answers.end() || counted->second == "N/A") continue;
    EXPECT_EQ(std::to_string(log->frames), counted->second) << entry.path();
  }
}

struct FaultCase {
  const char* name;
  FaultKind kind;
  const char* graph;
  double begin, end;
};

class PictureFault : public testing::TestWithParam<FaultCase> {};

TEST_P(PictureFault, IsFoundWhereItIs) {
  const auto& one = GetParam();
  const auto log =
      log_of(samples::make(std::string("fault-") + one.name + ".mp4", samples::spec(one.graph, 8000)));
  const auto found = stretches(log, one.kind);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found.front().begin.seconds(), one.begin, 0.3);
  EXPECT_NEAR(found.front().end.seconds(), one.end, 0.3);
}

// The second, third … to the sixth of eight seconds are at fault.
INSTANTIATE_TEST_SUITE_P(
    Drawn, PictureFault,
    testing::Values(
        FaultCase{"black", FaultKind::Black,
                  "mandelbrot=s=320x180:r=25,drawbox=t=fill:c=black:enable='between(t,3,5.99)'[v]", 3, 6},
        FaultCase{"frozen", FaultKind::Frozen,
                  "testsrc2=s=320x180:r=25,split[x][y];[x][y]freezeframes=first=75:last=149:replace=75[v]", 3,
                  6},
        FaultCase{"blurred", FaultKind::Blurred,
                  "mandelbrot=s=640x360:r=25:start_scale=1,gblur=sigma=9:enable='between(t,3,5.99)'[v]", 3,
                  6},
        FaultCase{"dark", FaultKind::Dark,
                  "mandelbrot=s=320x180:r=25,eq=gamma=0.1:brightness=-0.25:contrast=0.35:enable='between(t,3,"
                  "5.99)'[v]",
                  3, 6},
        FaultCase{"bright", FaultKind::Bright,
                  "mandelbrot=s=320x180:r=25,eq=brightness=0.75:contrast=0.3:enable='between(t,3,5.99)'[v]",
                  3, 6},
        FaultCase{"shaky", FaultKind::Shaky,
                  "mandelbrot=s=480x270:r=25:end_scale=1,crop=320:180:x='80+if(between(t,3,5.99),9*sin(n*2.1)"
                  "+5*sin(n*4.4),0)':y='45+if(between(t,3,5.99),7*sin(n*2.7),0)'[v]",
                  3, 6}),
    [](const auto& one) { return std::string(one.param.name); });

TEST(LogClip, TellsSoundThatEndsEarly) {
  auto spec = samples::spec("testsrc=s=320x180:r=25[v];sine=f=440:d=1[a]", 3000);
  const auto whole = samples::make("short-sound-whole.mp4", spec);
  const auto file = samples::folder() / "short-sound.mp4";
  (void)outside::shell("ffmpeg -v error -y -i '" + whole.string() + "' -t 1 -i '" + whole.string() +
                       "' -map 0:v -map 1:a -c copy '" + file.string() + "' </dev/null");
  const auto found = stretches(log_of(file), FaultKind::ShortSound);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found.front().begin.seconds(), 1, 0.1);
  EXPECT_NEAR(found.front().end.seconds(), 3, 0.1);
}

TEST(LogClip, TellsWhereATruncatedClipEnds) {
  const auto whole =
      samples::make("to-cut.mp4", samples::spec("testsrc2=s=320x180:r=25[v];sine=f=440[a]", 6000));
  const auto front = samples::folder() / "to-cut-front.mp4";
  (void)outside::shell("ffmpeg -v error -y -i '" + whole.string() + "' -c copy -movflags +faststart '" +
                       front.string() + "' </dev/null");
  std::error_code error;
  fs::resize_file(front, fs::file_size(front) / 2, error);
  ASSERT_FALSE(error);
  const auto log = log_of(front);
  ASSERT_NE(log.damage(), nullptr);
  EXPECT_GT(log.frames, 20);
  EXPECT_LT(log.frames, 150);
  EXPECT_GT(log.damage()->when.begin.seconds(), 0.5);
}

TEST(LogClip, ComesBackFromItsBytes) {
  const auto log = log_of(samples::camera_mp4());
  const auto bytes = bytes_of(log);
  const auto back = clip_log_from(bytes, samples::camera_mp4());
  ASSERT_TRUE(back);
  EXPECT_EQ(bytes_of(*back), bytes);
  EXPECT_EQ(back->frames, log.frames);
  for (const std::size_t size : {std::size_t{0}, std::size_t{1}, bytes.size() / 2, bytes.size() - 1})
    EXPECT_FALSE(clip_log_from(bytes.substr(0, size), {})) << size;
  EXPECT_FALSE(clip_log_from(bytes + "x", {}));
}

// Every sample cut short and with bytes flipped: something is reported, or an error, and never more time than
// reading it whole may take.
TEST(LogClip, OutlivesDamage) {
  std::mt19937 random(7);
  for (const auto& file : {samples::camera_mp4(), samples::film_mkv(), samples::broadcast_ts(),
                           samples::old_avi(), samples::narration_wav()}) {
    std::ifstream in(file, std::ios::binary);
    const std::string bytes((std::istreambuf_iterator<char>(in)), {});
    const auto broken = samples::folder() / ("broken" + file.extension().string());
    for (int i = 0; i < 60; ++i) {
      auto damaged = bytes;
      if (i < 25) {
        damaged.resize(bytes.size() * static_cast<std::size_t>(i) / 25);
      } else {
        for (int k = 0; k < 20; ++k) damaged[random() % damaged.size()] = static_cast<char>(random());
      }
      std::ofstream(broken, std::ios::binary | std::ios::trunc) << damaged;
      const auto log = log_clip(broken, {}, {});
      if (!log) continue;
      for (const auto& fault : log->faults) EXPECT_LE(fault.when.begin, fault.when.end);
      EXPECT_TRUE(clip_log_from(bytes_of(*log), broken)) << file << " " << i;
    }
  }
}

}  // namespace
}  // namespace panslate
