// Logs of clips whose content is known, against ffprobe and against what was drawn.
#include <algorithm>
#include <chrono>
#include <cstdint>
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
  int compared = 0;
  for (const auto& entry : fs::directory_iterator(folder)) {
    const auto answers = outside::ffprobe(entry.path(), outside::Count::Frames);
    const auto counted = answers.find("stream.nb_read_frames");
    if (answers.count("stream.width") == 0 || counted == answers.end() || counted->second == "N/A") continue;
    const auto log = log_clip(entry.path(), {}, {});
    ASSERT_TRUE(log) << entry.path();
    if (!log->facts.picture) continue;  // a cover is no picture of the clip
    EXPECT_EQ(std::to_string(log->frames), counted->second) << entry.path();
    ++compared;
  }
  EXPECT_GT(compared, 25);
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

struct CutCase {
  const char* name;
  const char* graph;
  int seconds;
  int percent;  // of the file that is there
};

class CutShort : public testing::TestWithParam<CutCase> {};

// As a copy that broke off: the header lists everything.
TEST_P(CutShort, IsToldWithTheWholeOfWhatIsMissing) {
  const auto& one = GetParam();
  const auto name = std::string("to-cut-") + one.name;
  const auto whole = samples::make(name + ".mp4", samples::spec(one.graph, one.seconds * 1000));
  const auto front = samples::folder() / (name + "-front.mp4");
  (void)outside::shell("ffmpeg -v error -y -i '" + whole.string() + "' -c copy -movflags +faststart '" +
                       front.string() + "' </dev/null");
  std::error_code error;
  fs::resize_file(front, fs::file_size(front) * static_cast<std::uintmax_t>(one.percent) / 100, error);
  ASSERT_FALSE(error);
  const auto log = log_of(front);
  ASSERT_NE(log.damage(), nullptr);
  const auto& damage = *log.damage();
  // What is left of it, as ffprobe decodes it: the last one may be half there.
  const auto left = std::stol(outside::ffprobe(front, outside::Count::Frames).at("stream.nb_read_frames"));
  ASSERT_GT(left, 20);
  EXPECT_NEAR(static_cast<double>(log.frames), static_cast<double>(left), 1);
  EXPECT_NEAR(damage.when.begin.seconds(), static_cast<double>(left) / 25, 0.25);
  EXPECT_NEAR(damage.when.end.seconds(), one.seconds, 0.1);
  EXPECT_NE(damage.detail.find("breaks off at"), std::string::npos) << damage.detail;
  const auto should = "should last until 0:" + std::string(one.seconds < 10 ? "0" : "");
  EXPECT_NE(damage.detail.find(should + std::to_string(one.seconds)), std::string::npos) << damage.detail;
}

INSTANTIATE_TEST_SUITE_P(LogClip, CutShort,
                         testing::Values(CutCase{"sound", "testsrc2=s=320x180:r=25[v];sine=f=440[a]", 6, 50},
                                         CutCase{"picture", "testsrc2=s=320x180:r=25[v]", 6, 50},
                                         CutCase{"most", "testsrc2=s=320x180:r=25[v];sine=f=440[a]", 20, 40},
                                         CutCase{"little", "testsrc2=s=320x180:r=25[v]", 20, 90}),
                         [](const auto& one) { return std::string(one.param.name); });

struct SoundCutCase {
  const char* ending;
  bool is_counted;  // the header says how long it is
};

class SoundCutShort : public testing::TestWithParam<SoundCutCase> {};

// Where it breaks off as ffprobe's last packet ends; a fifth is missing, and a moment.
TEST_P(SoundCutShort, IsToldWhere) {
  const auto& one = GetParam();
  const auto whole = samples::folder() / (std::string("to-cut.") + one.ending);
  // More than half a second is told anyway; RF64 as a long recording is written.
  (void)outside::shell("ffmpeg -v error -y -f lavfi -i 'anoisesrc=r=48000:a=0.1:d=10' " +
                       std::string(one.ending == std::string_view("rf64.wav") ? "-rf64 always " : "") + "'" +
                       whole.string() + "' </dev/null");
  EXPECT_EQ(log_of(whole).damage(), nullptr);
  for (const std::uintmax_t percent : {std::uintmax_t{80}, std::uintmax_t{98}}) {
    const auto cut = samples::folder() / (std::string("cut.") + one.ending);
    fs::copy_file(whole, cut, fs::copy_options::overwrite_existing);
    fs::resize_file(cut, fs::file_size(cut) * percent / 100);
    const auto log = log_of(cut);
    ASSERT_NE(log.damage(), nullptr) << percent;
    const auto& damage = *log.damage();
    const auto left = outside::packet_times(cut, "a:0");
    ASSERT_TRUE(left);
    EXPECT_NEAR(damage.when.begin.seconds(), left->second - left->first, 0.05) << percent;
    if (one.is_counted) {
      EXPECT_NEAR(damage.when.end.seconds(), 10, 0.01) << percent;
    }
    EXPECT_NE(damage.detail.find("breaks off at 0:0"), std::string::npos) << damage.detail;
  }
}

INSTANTIATE_TEST_SUITE_P(LogClip, SoundCutShort,
                         testing::Values(SoundCutCase{"wav", true}, SoundCutCase{"rf64.wav", true},
                                         SoundCutCase{"caf", true}, SoundCutCase{"ogg", false},
                                         SoundCutCase{"opus", false}),
                         [](const auto& one) {
                           std::string name = one.param.ending;
                           std::replace(name.begin(), name.end(), '.', '_');
                           return name;
                         });

// Recorders that were switched off leave it open how much there is.
TEST(LogClip, TellsNothingMissingWhereTheHeaderLeavesItOpen) {
  const auto file = samples::folder() / "open.wav";
  (void)outside::shell("ffmpeg -v error -f lavfi -i 'anoisesrc=r=48000:a=0.1:d=3' -f wav - </dev/null >'" +
                       file.string() + "'");
  const auto log = log_of(file);
  EXPECT_EQ(log.damage(), nullptr);
  EXPECT_NEAR(log.facts.duration.seconds(), 3, 0.01);
}

struct LossCase {
  const char* name;
  const char* kept;  // frames of 200, as a filter selects them
  int lost;
  double begin, end;  // from the last frame before to the first after, s
};

class LostFrames : public testing::TestWithParam<LossCase> {};

TEST_P(LostFrames, AreToldInContainersOfAllKinds) {
  const auto& one = GetParam();
  for (const std::string ending : {".mp4", ".mkv"}) {
    const auto file = samples::folder() / (std::string("lost-") + one.name + ending);
    (void)outside::shell("ffmpeg -v error -y -f lavfi -i \"testsrc2=s=320x180:r=25:d=8,select='" +
                         std::string(one.kept) + "'\" -vsync passthrough -c:v libx264 -preset veryfast '" +
                         file.string() + "' </dev/null");
    const auto log = log_of(file);
    ASSERT_EQ(log.frames, 200 - one.lost) << file;
    const auto found = std::find_if(log.faults.begin(), log.faults.end(), [](const ClipFault& fault) {
      return fault.kind == FaultKind::DroppedFrames;
    });
    ASSERT_EQ(stretches(log, FaultKind::DroppedFrames).size(), 1U) << file;
    EXPECT_EQ(found->detail,
              std::to_string(one.lost) + (one.lost == 1 ? " frame is" : " frames are") + " missing");
    EXPECT_NEAR(found->when.begin.seconds(), one.begin, 0.003) << file;
    EXPECT_NEAR(found->when.end.seconds(), one.end, 0.003) << file;
  }
}

INSTANTIATE_TEST_SUITE_P(LogClip, LostFrames,
                         testing::Values(LossCase{"one", "not(eq(n,50))", 1, 1.96, 2.04},
                                         LossCase{"three", "not(between(n,50,52))", 3, 1.96, 2.12},
                                         LossCase{"ten", "not(between(n,100,109))", 10, 3.96, 4.4},
                                         LossCase{"several", "not(eq(n,50)+eq(n,55)+between(n,60,61))", 4,
                                                  1.96, 2.48}),
                         [](const auto& one) { return std::string(one.param.name); });

TEST(LogClip, TellsNoFramesMissingWhereTheRateVaries) {
  EXPECT_TRUE(stretches(log_of(samples::varying_mp4()), FaultKind::DroppedFrames).empty());
  for (const std::string ending : {".mp4", ".mkv"}) {
    const auto file = samples::folder() / ("by-turns" + ending);
    (void)outside::shell(
        "ffmpeg -v error -y -f lavfi -i \"testsrc2=s=320x180:r=30:d=6,select='mod(n,3)'\" "
        "-vsync passthrough -c:v libx264 -preset veryfast '" +
        file.string() + "' </dev/null");
    const auto log = log_of(file);
    EXPECT_EQ(log.frames, 120) << file;
    EXPECT_TRUE(log.facts.picture && log.facts.picture->variable_rate) << file;
    EXPECT_TRUE(stretches(log, FaultKind::DroppedFrames).empty()) << file;
  }
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

// Where the first of two tracks is silent, as of a camera beside a recorder, the clip is not.
TEST(LogClip, ListensToTheTrackInWhichSomethingIsSaid) {
  const auto file = samples::folder() / "two-tracks.mkv";
  (void)outside::shell(
      "ffmpeg -v error -y -f lavfi -i testsrc2=s=320x180:r=25:d=6 -f lavfi -i "
      "anullsrc=cl=stereo:r=48000:d=6 -f lavfi -i \"flite=voice=slt:text=warm the oil and add "
      "two onions then stir until they are soft,aresample=48000,apad=whole_dur=6\" -map 0 -map "
      "1 -map 2 -t 6 -c:a:0 aac -c:a:1 pcm_s16le '" +
      file.string() + "' </dev/null");
  const auto log = log_of(file);
  ASSERT_EQ(log.facts.sound.size(), 2U);
  EXPECT_EQ(log.sound_track, 1U);
  EXPECT_FALSE(log.speech.empty());
  EXPECT_TRUE(log.loudness && log.loudness->integrated);
  for (const auto& silence : stretches(log, FaultKind::Silent)) EXPECT_LT(silence.duration().seconds(), 5);
  EXPECT_EQ(log.damage(), nullptr);
  const auto back = clip_log_from(bytes_of(log), file);
  ASSERT_TRUE(back);
  EXPECT_EQ(back->sound_track, 1U);
}

// The name of the coding in its header is one that nobody knows.
TEST(LogClip, TellsNoDamageWhereACodingIsNotKnown) {
  const auto whole =
      samples::make("coding.mkv", samples::spec("testsrc2=s=320x180:r=25[v];sine=f=440[a]", 3000));
  std::ifstream in(whole, std::ios::binary);
  const std::string bytes((std::istreambuf_iterator<char>(in)), {});
  for (const std::string coding : {"V_MPEG4", "A_"}) {
    auto unknown = bytes;
    const auto place = unknown.find(coding);
    ASSERT_NE(place, std::string::npos);
    unknown.replace(place + 2, 2, "ZQ");
    const auto file = samples::folder() / ("unknown-" + coding + ".mkv");
    std::ofstream(file, std::ios::binary | std::ios::trunc) << unknown;
    const auto log = log_of(file);
    EXPECT_EQ(log.damage(), nullptr) << (log.damage() != nullptr ? log.damage()->detail : "");
    EXPECT_FALSE(log.facts.warnings.empty()) << file;
    EXPECT_EQ(log.frames, coding == "A_" ? 75 : 0);
    EXPECT_EQ(log.loudness.has_value(), coding != "A_");
  }
}

// How much of a clip was seen and heard.
MediaTime reached(const ClipLog& log) {
  const auto heard = MediaTime::from_ms(static_cast<std::int64_t>(log.levels.size()) * 10);
  return std::max(heard, log.shots.empty() ? MediaTime{} : log.shots.back().when.end);
}

// Every sample cut short and with bytes flipped: an error, or what is left, never more time than one clip may
// hold up the others; and what is lost of a clip whose header says how long it is is told as damage.
TEST(LogClip, OutlivesDamage) {
  std::mt19937 random(7);
  int told = 0;
  for (const auto& file : {samples::camera_mp4(), samples::film_mkv(), samples::broadcast_ts(),
                           samples::old_avi(), samples::narration_wav()}) {
    std::ifstream in(file, std::ios::binary);
    const std::string bytes((std::istreambuf_iterator<char>(in)), {});
    const auto whole = reached(log_of(file));
    const auto broken = samples::folder() / ("broken" + file.extension().string());
    for (int i = 0; i < 60; ++i) {
      auto damaged = bytes;
      const bool is_cut = i < 25;
      if (is_cut) {
        damaged.resize(bytes.size() * static_cast<std::size_t>(i) / 25);
      } else {
        for (int k = 0; k < 20; ++k) damaged[random() % damaged.size()] = static_cast<char>(random());
      }
      std::ofstream(broken, std::ios::binary | std::ios::trunc) << damaged;
      const auto begin = std::chrono::steady_clock::now();
      const auto log = log_clip(broken, {}, {});
      const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - begin;
      EXPECT_LT(passed.count(), 30) << file << " " << i;
      if (!log) {
        EXPECT_FALSE(log.error().message.empty());
        continue;
      }
      for (const auto& fault : log->faults) EXPECT_LE(fault.when.begin, fault.when.end);
      EXPECT_TRUE(clip_log_from(bytes_of(*log), broken)) << file << " " << i;
      // A transport stream says nowhere how long it should be, and what a WAV says FFmpeg corrects by the
      // size of the file. Headers and what is in the file agree within half a second and the last frame.
      const bool says = file.extension() != ".ts" && file.extension() != ".wav";
      const auto lost = whole - reached(*log);
      if (!is_cut || !says || lost < MediaTime::from_ms(550)) continue;
      EXPECT_NE(log->damage(), nullptr) << file << " " << i << ", " << lost.seconds() << " s are lost";
      ++told;
    }
  }
  EXPECT_GT(told, 20);
}

}  // namespace
}  // namespace panslate
