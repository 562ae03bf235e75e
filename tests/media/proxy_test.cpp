// Copies that browsers play, of what they do not: judged by ffprobe and by the pictures that ffmpeg gives.
#include "panslate/media/proxy.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <unistd.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/footage_workers.h"

#include "media/judge.h"
#include "media/run_program.h"
#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

constexpr double kFrame = 1.0 / 25;

struct Foreign {
  const char* name;
  std::vector<std::string> coding;  ///< ffmpeg's words for it
};

// What cameras and editors write and browsers do not play.
const Foreign kForeign[] = {
    {"hevc.mp4",
     {"-c:v", "libx265", "-preset", "ultrafast", "-x265-params", "log-level=none", "-c:a", "aac"}},
    {"prores.mov", {"-c:v", "prores_ks", "-c:a", "pcm_s16le"}},
    {"pcm.mov", {"-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p", "-c:a", "pcm_s16le"}},
    {"mpeg2.mpg", {"-c:v", "mpeg2video", "-flags", "+ildct+ilme", "-top", "1", "-b:v", "4M", "-c:a", "mp2"}},
    {"old.avi", {"-c:v", "mpeg4", "-q:v", "3", "-c:a", "libmp3lame"}},
    {"late.mts", {"-c:v", "libx264", "-preset", "ultrafast", "-c:a", "ac3", "-output_ts_offset", "7"}},
};

// Two seconds, a clap at 1 s: white for one picture, and a tone for 40 ms.
fs::path clap(const Foreign& as) {
  const auto file = samples::folder() / as.name;
  std::vector<std::string> words{
      "ffmpeg", "-v",
      "error",  "-y",
      "-f",     "lavfi",
      "-i",     "color=c=0x303030:s=1280x720:r=25:d=2,drawbox=enable='eq(n,25)':c=white:t=fill",
      "-f",     "lavfi",
      "-i",     "aevalsrc='if(between(t,1,1.04),0.8*sin(2*PI*1000*t),0)':s=48000:d=2"};
  words.insert(words.end(), as.coding.begin(), as.coding.end());
  words.push_back(file.string());
  return outside::run_program(words).status == 0 ? file : fs::path();
}

double first_in(const std::string& text, const std::string& name) {
  const auto at = text.find(name);
  return at == std::string::npos ? -1 : std::strtod(text.c_str() + at + name.size(), nullptr);
}

// When the white picture is shown, from the first picture on.
double white_at(const fs::path& file) {
  const auto told =
      outside::shell("ffprobe -v error -f lavfi -i \"movie='" + file.string() +
                     "',setpts=PTS-STARTPTS,format=yuv420p,signalstats\" -show_entries "
                     "frame=pts_time:frame_tags=lavfi.signalstats.YAVG -of csv=p=0 | awk -F, '$2 > 150 "
                     "{ print \"white \" $1; exit }'");
  return first_in(told, "white ");
}

TEST(Proxy, PlaysWhatWasForeignOnTheSameClock) {
  for (const auto& one : kForeign) {
    SCOPED_TRACE(one.name);
    const auto clip = clap(one);
    if (clip.empty()) {
      ADD_FAILURE() << "ffmpeg does not write it";
      continue;
    }
    auto out = clip;
    out += ".proxy.mp4";
    NoProgress quiet;
    const auto made = make_proxy(clip, out, quiet);
    ASSERT_TRUE(made) << render(made.error());
    const auto told = outside::ffprobe(out, outside::Count::Frames);
    EXPECT_EQ(outside::shell("ffprobe -v error -select_streams v:0 -show_entries "
                             "stream=codec_name,width,height,pix_fmt -of csv=p=0 '" +
                             out.string() + "'"),
              "h264,960,540,yuv420p\n");
    const auto facts = probe_clip(clip);
    ASSERT_TRUE(facts);
    EXPECT_NEAR(*outside::seconds(told, "format.duration"), facts->duration.seconds(), 0.05);
    // The clap, seen and heard: where it was, to the picture.
    // Coders may move the clap by a picture: it is where ffmpeg sees it in the clip.
    EXPECT_NEAR(white_at(out), white_at(clip), 0.001);
    EXPECT_NEAR(white_at(out), 1.0, 1.5 * kFrame);
    const auto heard = outside::shell("ffmpeg -hide_banner -nostdin -i '" + out.string() +
                                      "' -af silencedetect=n=-30dB:d=0.3 -f null - 2>&1");
    EXPECT_NE(heard.find("Audio: aac"), std::string::npos);
    // AAC's frames are 21 ms, and the foreign coders spread the tone as far.
    EXPECT_NEAR(first_in(heard, "silence_end: "), 1.0, 0.045) << heard.substr(heard.size() / 2);
  }
}

TEST(Proxy, StandsUpright) {
  const auto phone = samples::phone_mp4();
  const auto out = samples::folder() / "phone.proxy.mp4";
  NoProgress quiet;
  const auto made = make_proxy(phone, out, quiet);
  ASSERT_TRUE(made) << render(made.error());
  const auto facts = probe_clip(out);
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->picture->rotation, 0);
  EXPECT_EQ(facts->picture->width, 240);
  EXPECT_EQ(facts->picture->height, 320);
  // ffmpeg turns the phone's picture by itself.
  EXPECT_LT(outside::difference(outside::frame_rgb(phone, 0.5, 60, 80), outside::frame_rgb(out, 0.5, 60, 80)),
            8);
}

TEST(Proxy, KeepsTheTimesOfAVaryingRate) {
  const auto clip = samples::varying_mp4();
  const auto out = samples::folder() / "varying.proxy.mp4";
  NoProgress quiet;
  ASSERT_TRUE(make_proxy(clip, out, quiet));
  const auto times = [](const fs::path& file) {
    return outside::shell("ffprobe -v error -select_streams v:0 -show_entries frame=pts_time -of csv=p=0 '" +
                          file.string() + "'");
  };
  EXPECT_EQ(times(out), times(clip));
}

// What is half belongs to whoever has the number in its name: a living one's is never taken away.
TEST(Proxy, RemovesTheHalfCopiesOfTheDead) {
  const auto folder = samples::folder() / "halves";
  fs::create_directories(folder);
  // The number of a process that was there, and has ended and been waited for.
  const auto dead = outside::shell("sh -c 'echo $$'");
  const auto number = dead.substr(0, dead.find('\n'));
  const auto alive = std::to_string(::getpid());
  for (const auto& name : {"a.mp4." + number + ".part", "b.mp4." + alive + ".part", std::string("c.mp4"),
                           std::string("d.part"), std::string("e.mp4.x1.part"), "f.mp4." + number})
    std::ofstream(folder / name) << "half";
  remove_half_copies(folder);
  EXPECT_FALSE(fs::exists(folder / ("a.mp4." + number + ".part")));
  EXPECT_EQ(std::distance(fs::directory_iterator(folder), fs::directory_iterator()), 5);
  remove_half_copies(folder / "none");
}

// A folder that is not there stands for a disk without room.
TEST(Proxy, TellsThatItCannotBeWritten) {
  ::setenv("ODD_WORKER_PLAIN", "1", 1);  // NOLINT(concurrency-mt-unsafe): there is one thread
  FootageWorkers workers({ODD_WORKER, 1, {}});
  NoProgress quiet;
  const auto made = workers.proxy(samples::phone_mp4(), MediaTime::from_seconds(1),
                                  samples::folder() / "none" / "phone.mp4", quiet);
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().code, ErrorCode::WriteFailed) << made.error().message;
  ::unsetenv("ODD_WORKER_PLAIN");  // NOLINT(concurrency-mt-unsafe)
}

TEST(Proxy, LeavesNothingWhereItFailsOrIsStopped) {
  const auto folder = samples::folder() / "proxies";
  fs::create_directories(folder);
  const auto entries = [&] {
    return std::distance(fs::directory_iterator(folder), fs::directory_iterator());
  };
  ::setenv("ODD_WORKER_PLAIN", "1", 1);  // NOLINT(concurrency-mt-unsafe): there is one thread
  FootageWorkers workers({ODD_WORKER, 1, {}});
  NoProgress quiet;
  const auto none = samples::folder() / "none.txt";
  (void)outside::shell("echo this is no film > '" + none.string() + "'");
  const auto failed = workers.proxy(none, MediaTime::from_seconds(1), folder / "none.mp4", quiet);
  ASSERT_FALSE(failed);
  EXPECT_EQ(failed.error().code, ErrorCode::NotMedia);
  EXPECT_EQ(entries(), 0);

  // Stopped once it is at work: half a minute of film takes longer than that.
  class Stopping final : public Progress {
   public:
    void step(std::string_view, std::int64_t done, std::int64_t total) override {
      at_work = at_work || (done > 0 && done < total);
    }
    [[nodiscard]] bool cancelled() const noexcept override { return at_work; }
    bool at_work = false;
  } stopping;
  const auto clip = samples::make("half.mkv", samples::spec("testsrc2=s=640x360[v];sine[a]", 30'000));
  const auto stopped = workers.proxy(clip, MediaTime::from_seconds(30), folder / "half.mp4", stopping);
  ASSERT_TRUE(stopping.at_work);
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().code, ErrorCode::Cancelled);
  EXPECT_EQ(entries(), 0);
  // And the worker after it works.
  EXPECT_TRUE(workers.proxy(samples::phone_mp4(), MediaTime::from_seconds(1), folder / "phone.mp4", quiet));
  EXPECT_EQ(entries(), 1);
  ::unsetenv("ODD_WORKER_PLAIN");  // NOLINT(concurrency-mt-unsafe)
}

}  // namespace
}  // namespace panslate
