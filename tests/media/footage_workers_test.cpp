// Footage read by worker processes: a real worker gives what this process gives; one that misbehaves costs
// its clip a message, and nothing else.
#include "panslate/media/footage_workers.h"

#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <ostream>
#include <string>
#include <thread>

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "media/samples.h"
#include "media/worker_process.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using testing::HasSubstr;

FootageWorkers::Setup odd(unsigned count) {
  FootageWorkers::Setup setup;
  setup.program = ODD_WORKER;
  setup.count = count;
  return setup;
}

fs::path odd_clip(const std::string& name, std::string_view bytes = "") {
  auto file = samples::folder() / name;
  std::ofstream(file, std::ios::binary) << bytes;
  return file;
}

// Every child this process ever had is gone and waited for.
void expect_no_children() {
  EXPECT_EQ(::waitpid(-1, nullptr, WNOHANG), -1);
  EXPECT_EQ(errno, ECHILD);
}

bool is_running(pid_t id) {
  std::ifstream in("/proc/" + std::to_string(id) + "/stat");
  std::string text;
  std::getline(in, text);
  const auto close = text.rfind(')');
  return close != std::string::npos && text.size() > close + 2 && text[close + 2] != 'Z';
}

std::optional<pid_t> written_id(const fs::path& clip) {
  for (int i = 0; i < 500; ++i) {
    pid_t id = 0;
    if (std::ifstream(clip.string() + ".pid") >> id) return id;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return std::nullopt;
}

// Stops as soon as it is asked, after some time.
class StopsAfter final : public Progress {
 public:
  explicit StopsAfter(std::chrono::milliseconds patience) : end_(Clock::now() + patience) {}
  void step(std::string_view /*phase*/, std::int64_t /*done*/, std::int64_t /*total*/) override {}
  [[nodiscard]] bool cancelled() const noexcept override { return Clock::now() > end_; }

 private:
  Clock::time_point end_;
};

class Recorder final : public Progress {
 public:
  void step(std::string_view phase, std::int64_t done, std::int64_t total) override {
    EXPECT_TRUE(steps.empty() || done > last_);
    last_ = done;
    steps.push_back(std::string(phase) + " " + std::to_string(done) + "/" + std::to_string(total));
  }
  [[nodiscard]] bool cancelled() const noexcept override { return false; }
  std::vector<std::string> steps;

 private:
  std::int64_t last_ = -1;
};

void expect_same(const ClipFacts& a, const ClipFacts& b) {
  EXPECT_EQ(a.file, b.file);
  EXPECT_EQ(a.duration, b.duration);
  EXPECT_EQ(a.duration_source, b.duration_source);
  EXPECT_EQ(a.container, b.container);
  EXPECT_EQ(a.timecode, b.timecode);
  EXPECT_EQ(a.recorded, b.recorded);
  EXPECT_EQ(a.warnings, b.warnings);
  ASSERT_EQ(a.picture.has_value(), b.picture.has_value());
  if (a.picture) {
    const auto& p = *a.picture;
    const auto& q = *b.picture;
    EXPECT_EQ(
        std::tie(p.width, p.height, p.shown_width, p.shown_height, p.rotation, p.mirrored, p.frame_rate),
        std::tie(q.width, q.height, q.shown_width, q.shown_height, q.rotation, q.mirrored, q.frame_rate));
    EXPECT_EQ(std::tie(p.variable_rate, p.frames, p.duration, p.codec, p.hdr),
              std::tie(q.variable_rate, q.frames, q.duration, q.codec, q.hdr));
  }
  ASSERT_EQ(a.sound.size(), b.sound.size());
  for (std::size_t i = 0; i < a.sound.size(); ++i) {
    const auto& s = a.sound[i];
    const auto& t = b.sound[i];
    EXPECT_EQ(std::tie(s.channels, s.sample_rate, s.layout, s.codec, s.begin, s.end),
              std::tie(t.channels, t.sample_rate, t.layout, t.codec, t.begin, t.end));
  }
}

std::vector<fs::path> sample_clips() {
  return {samples::camera_mp4(),  samples::phone_mp4(),     samples::timecode_mov(),
          samples::film_mkv(),    samples::broadcast_ts(),  samples::old_avi(),
          samples::varying_mp4(), samples::narration_wav(), samples::silent_mov()};
}

// Facts and errors alike.
TEST(FootageWorkers, MeasureAsThisProcessDoes) {
  auto files = sample_clips();
  files.push_back(samples::folder() / "missing.mp4");
  files.push_back(samples::folder());
  files.push_back(odd_clip("text.mp4", "no film"));
  FootageWorkers workers(odd(3));
  NoProgress progress;
  const auto found = workers.probe_all(files, progress);
  ASSERT_TRUE(found);
  const auto here = footage_in_this_process().probe_all(files, progress);
  ASSERT_TRUE(here);
  for (std::size_t i = 0; i < files.size(); ++i) {
    SCOPED_TRACE(files[i]);
    ASSERT_EQ((*found)[i].has_value(), (*here)[i].has_value());
    if ((*found)[i])
      expect_same(*(*found)[i], *(*here)[i]);
    else
      EXPECT_EQ(render((*found)[i].error()), render((*here)[i].error()));
  }
}

TEST(FootageWorkers, TellHowFarTheyAre) {
  const std::vector<fs::path> files{odd_clip("who-a"), odd_clip("who-b")};
  FootageWorkers workers(odd(1));
  Recorder progress;
  ASSERT_TRUE(workers.probe_all(files, progress));
  EXPECT_THAT(progress.steps,
              testing::ElementsAre("measuring clips 0/2", "measuring clips 1/2", "measuring clips 2/2"));
  const std::vector<StillWanted> wanted{{odd_clip("any"), {}}};
  Recorder of_stills;
  ASSERT_TRUE(workers.stills(wanted, 64, of_stills));
  EXPECT_THAT(of_stills.steps, testing::ElementsAre("taking stills 0/1", "taking stills 1/1"));
  NoProgress of_nothing;
  EXPECT_TRUE(workers.probe_all({}, of_nothing)->empty());
  EXPECT_TRUE(workers.stills({}, 64, of_nothing)->empty());
}

struct Misbehaviour {
  std::string name;
  std::string said;
};

void PrintTo(const Misbehaviour& how, std::ostream* out) {
  *out << how.name;
}

class OddWorker : public testing::TestWithParam<Misbehaviour> {};

// Beside good clips, on few workers: each good one is measured all the same.
TEST_P(OddWorker, CostsItsOwnClipOnly) {
  if (!worker::kAddressesAreCounted && GetParam().name == "eats.mp4")
    GTEST_SKIP() << "memory is not limited under AddressSanitizer";
  auto setup = odd(2);
  setup.limits.wall = std::chrono::milliseconds(1500);
  if (GetParam().name == "spins.mp4") {  // ended by its processor time, not by the clock
    setup.limits.wall = std::chrono::seconds(60);
    setup.limits.processor = std::chrono::seconds(1);
  }
  FootageWorkers workers(setup);
  std::vector<fs::path> files;
  for (int i = 0; i < 6; ++i) {
    files.push_back(samples::camera_mp4());
    if (i % 2 == 0) files.push_back(odd_clip(GetParam().name));
  }
  NoProgress progress;
  const auto begin = Clock::now();
  const auto found = workers.probe_all(files, progress);
  EXPECT_LT(Clock::now() - begin, std::chrono::seconds(20));
  ASSERT_TRUE(found);
  for (std::size_t i = 0; i < files.size(); ++i) {
    if (files[i] == samples::camera_mp4()) {
      ASSERT_TRUE((*found)[i]) << render((*found)[i].error());
      EXPECT_EQ((*found)[i]->duration, MediaTime::from_seconds(2));
      continue;
    }
    ASSERT_FALSE((*found)[i]);
    EXPECT_EQ((*found)[i].error().code, ErrorCode::NotMedia);
    EXPECT_EQ(
        render((*found)[i].error()),
        files[i].string() + ": error: " + GetParam().said +
            "; it may be damaged\n  hint: play it to its end in a player: if it stops there too, copy it "
            "from the camera again, else export it again as .mp4");
  }
}

INSTANTIATE_TEST_SUITE_P(
    That, OddWorker,
    testing::Values(Misbehaviour{"dies.mp4", "the clip breaks off while it is read"},
                    Misbehaviour{"aborts.mp4", "the clip breaks off while it is read"},
                    Misbehaviour{"leaves.mp4", "the clip breaks off while it is read"},
                    Misbehaviour{"floods.mp4", "the clip breaks off while it is read"},
                    Misbehaviour{"hangs.mp4", "the clip takes too long to read"},
                    Misbehaviour{"spins.mp4", "the clip takes too long to read"},
                    Misbehaviour{"eats.mp4", "reading the clip takes more memory than there is for it"}),
    [](const auto& test) { return test.param.name.substr(0, test.param.name.find('.')); });

// A clip before may have left the worker's memory in disorder: a fresh worker decides.
TEST(FootageWorkers, BlameNoClipForTheOneBefore) {
  FootageWorkers workers(odd(1));
  NoProgress progress;
  const std::vector<fs::path> files{odd_clip("who-first"), odd_clip("dies-if-used")};
  const auto found = workers.probe_all(files, progress);
  ASSERT_TRUE(found);
  EXPECT_TRUE((*found)[1]);
}

TEST(FootageWorkers, LeaveAClipAloneThatEndedTwoOfThem) {
  FootageWorkers workers(odd(2));
  NoProgress progress;
  const auto bad = odd_clip("dies-at-second");
  const auto good = odd_clip("good");
  std::vector<StillWanted> wanted;
  for (const std::int64_t second : {5, 4, 3, 2, 1, 0}) {
    wanted.push_back({bad, MediaTime::from_seconds(second)});
    wanted.push_back({good, MediaTime::from_seconds(second)});
  }
  const auto found = workers.stills(wanted, 64, progress);
  ASSERT_TRUE(found);
  std::string went;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const auto& still = (*found)[i];
    if (wanted[i].file == bad) {
      went += still ? '+' : '-';
    } else {
      ASSERT_TRUE(still);
    }
    if (still) {
      EXPECT_EQ(still->time, wanted[i].time);
    }
  }
  // In order of time: one taken, one lost with its worker, one taken, one lost, and no more tries.
  EXPECT_EQ(went, "---+-+");
}

TEST(FootageWorkers, WorkAtTheSameTime) {
  FootageWorkers workers(odd(4));
  NoProgress progress;
  std::vector<fs::path> files;
  for (int i = 0; i < 16; ++i) files.push_back(odd_clip("slow" + std::to_string(i)));
  const auto begin = Clock::now();
  ASSERT_TRUE(workers.probe_all(files, progress));
  EXPECT_GE(Clock::now() - begin, std::chrono::milliseconds(1200)) << "4 × 300 ms";
  EXPECT_LT(Clock::now() - begin, std::chrono::milliseconds(3000)) << "one after the other it is 4.8 s";
}

TEST(FootageWorkers, ReadManyClipsAtOnce) {
  FootageWorkers workers(odd(4));
  NoProgress progress;
  std::vector<fs::path> files;
  for (int i = 0; i < 300; ++i)
    files.push_back(i % 25 == 24 ? odd_clip("dies.mp4") : odd_clip("who" + std::to_string(i)));
  const auto found = workers.probe_all(files, progress);
  ASSERT_TRUE(found);
  for (std::size_t i = 0; i < files.size(); ++i) {
    EXPECT_EQ((*found)[i].has_value(), i % 25 != 24) << i;
    if ((*found)[i]) {
      EXPECT_EQ((*found)[i]->file, files[i]);
    }
  }
}

// The kernel ends a worker with the thread that started it: that must not be the caller's.
TEST(FootageWorkers, OutliveTheThreadThatAskedFirst) {
  FootageWorkers workers(odd(1));
  std::string first;
  std::thread([&] { first = workers.probe(odd_clip("who"))->container; }).join();
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  EXPECT_EQ(workers.probe(odd_clip("who"))->container, first);
}

TEST(FootageWorkers, CanBeAskedFromManyThreads) {
  FootageWorkers workers(odd(2));
  std::atomic<int> good{0};
  std::vector<std::thread> threads;
  for (int i = 0; i < 4; ++i)
    threads.emplace_back([&] {
      for (int j = 0; j < 20; ++j)
        if (workers.probe(samples::folder() / "who")) ++good;
    });
  for (auto& thread : threads) thread.join();
  EXPECT_EQ(good, 80);
}

TEST(FootageWorkers, GetNothingButTheirSocket) {
  const int kept = ::open("/dev/zero", O_RDONLY);  // without close-on-exec, as a careless library has it
  ASSERT_GE(kept, 0);
  FootageWorkers workers(odd(1));
  const auto facts = workers.probe(odd_clip("descriptors"));
  ::close(kept);
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->container, "0=socket 1=socket 2=/dev/null ");
}

TEST(FootageWorkers, AreQuiet) {
  testing::internal::CaptureStderr();
  FootageWorkers workers(odd(1));
  EXPECT_TRUE(workers.probe(odd_clip("prints")));
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

TEST(FootageWorkers, AreEndedWhenTheUserStops) {
  FootageWorkers workers(odd(2));
  const std::vector<fs::path> files{odd_clip("hangs-a"), odd_clip("hangs-b"), odd_clip("who")};
  StopsAfter progress(std::chrono::milliseconds(300));
  const auto begin = Clock::now();
  const auto found = workers.probe_all(files, progress);
  EXPECT_LT(Clock::now() - begin, std::chrono::seconds(2));
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().code, ErrorCode::Cancelled);
  expect_no_children();
  EXPECT_TRUE(workers.probe(odd_clip("who"))) << "and can be asked again";
}

TEST(FootageWorkers, EndWithTheirOwner) {
  {
    FootageWorkers workers(odd(2));
    EXPECT_TRUE(workers.probe(odd_clip("who")));
  }
  expect_no_children();
}

// The program is killed, and cannot clean up.
TEST(FootageWorkers, LeaveNoOrphans) {
  const auto clip = odd_clip("hangs-orphan");
  fs::remove(clip.string() + ".pid");
  const pid_t program = ::fork();
  if (program == 0) {
    FootageWorkers workers(odd(1));
    (void)workers.probe(clip);
    ::_exit(0);
  }
  const auto worker = written_id(clip);
  ASSERT_TRUE(worker);
  EXPECT_TRUE(is_running(*worker));
  ::kill(program, SIGKILL);
  ::waitpid(program, nullptr, 0);
  for (int i = 0; i < 200 && is_running(*worker); ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  EXPECT_FALSE(is_running(*worker));
}

struct NoWorker {
  std::string name;
  fs::path program;
};

class UnstartableWorker : public testing::TestWithParam<NoWorker> {};

TEST_P(UnstartableWorker, IsNoFaultOfTheClips) {
  FootageWorkers::Setup setup;
  setup.program = GetParam().program;
  setup.limits.wall = std::chrono::seconds(1);
  FootageWorkers workers(setup);
  NoProgress progress;
  const std::vector<fs::path> files(20, samples::camera_mp4());
  const auto begin = Clock::now();
  const auto found = workers.probe_all(files, progress);
  EXPECT_LT(Clock::now() - begin, std::chrono::seconds(5)) << "it is not tried for every clip";
  ASSERT_TRUE(found);
  for (const auto& one : *found) {
    ASSERT_FALSE(one);
    EXPECT_EQ(one.error().code, ErrorCode::Internal);
    EXPECT_THAT(render(one.error()), HasSubstr("the part of panslate that reads footage"));
  }
}

INSTANTIATE_TEST_SUITE_P(Because, UnstartableWorker,
                         testing::Values(NoWorker{"there_is_none", "/nowhere/panslate"},
                                         NoWorker{"it_ends", "/bin/true"},
                                         NoWorker{"it_babbles", "/usr/bin/yes"},
                                         NoWorker{"it_is_no_program", "/etc/passwd"}),
                         [](const auto& test) { return test.param.name; });

TEST(FootageWorkers, ThatNeverSayTheyAreReadyAreGivenUp) {
  ::setenv("ODD_WORKER_MUTE", "1", 1);  // NOLINT(concurrency-mt-unsafe): there is one thread
  auto setup = odd(1);
  setup.limits.wall = std::chrono::milliseconds(300);
  FootageWorkers workers(setup);
  const auto facts = workers.probe(odd_clip("who"));
  ::unsetenv("ODD_WORKER_MUTE");  // NOLINT(concurrency-mt-unsafe)
  ASSERT_FALSE(facts);
  EXPECT_EQ(facts.error().code, ErrorCode::Internal);
}

// Sound that a worker breaks off over is silent for a minute, and told; the rest is there.
TEST(FootageWorkers, ReadSoundStretchByStretch) {
  NoProgress progress;
  FootageWorkers workers(odd(1));
  const auto duration = MediaTime::from_seconds(150);
  const auto good = workers.speech_sound(odd_clip("good.mp4"), duration, progress);
  ASSERT_TRUE(good) << render(good.error());
  ASSERT_EQ(good->samples.size(), 150U * kSpeechRate);
  EXPECT_TRUE(good->unreadable.empty());
  for (const std::size_t minute : {0U, 1U, 2U})
    EXPECT_EQ(good->samples[minute * 60 * kSpeechRate], minute + 1);

  FootageWorkers dying(odd(1));
  const auto rest = dying.speech_sound(odd_clip("dies-at-second.mp4"), duration, progress);
  ASSERT_TRUE(rest) << render(rest.error());
  ASSERT_EQ(rest->unreadable.size(), 1U);
  EXPECT_EQ(rest->unreadable[0], (TimeRange{MediaTime::from_seconds(60), MediaTime::from_seconds(120)}));
  EXPECT_EQ(rest->samples[0], 1);
  EXPECT_EQ(rest->samples[60 * kSpeechRate], 0);
  EXPECT_EQ(rest->samples[120 * kSpeechRate], 3);

  for (const char* name : {"aborts.mp4", "short-sound.mp4"}) {
    const auto none = workers.speech_sound(odd_clip(name), duration, progress);
    ASSERT_FALSE(none) << name;
    EXPECT_EQ(none.error().code, ErrorCode::NotMedia);
  }
}

}  // namespace
}  // namespace panslate
