// Twenty stills of one clip and of four clips, by workers, against ffmpeg seeking to the same times in one
// command in the same run. The clip is made here; the ratio of the two times is the figure that matters.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <system_error>
#include <vector>

#include <benchmark/benchmark.h>
#include <unistd.h>

#include "panslate/media/footage_workers.h"
#include "panslate/media/render.h"

#include "../media/run_program.h"

namespace {

namespace fs = std::filesystem;
using panslate::MediaTime;

constexpr int kSeconds = 60;
constexpr int kStills = 20;
constexpr int kSide = 320;

// A minute as a camera writes it: 1080p30 H.264, a picture to start from every 250 pictures at the most.
class Clip {
 public:
  Clip() : folder_(fs::temp_directory_path() / ("panslate_stills_" + std::to_string(getpid()))) {
    fs::create_directories(folder_);
    panslate::RenderSpec spec;
    spec.graph = "testsrc2=s=1920x1080:r=30000/1001[v];sine=f=440[a]";
    spec.duration = MediaTime::from_seconds(kSeconds);
    spec.rate = {30000, 1001};
    panslate::NoProgress progress;
    if (const auto done = panslate::render_film(spec, file(0), progress); !done) {
      std::fprintf(stderr, "%s\n", panslate::render(done.error()).c_str());
      std::exit(1);
    }
    for (int i = 1; i < 4; ++i) fs::copy_file(file(0), file(i));
  }
  ~Clip() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  Clip(const Clip&) = delete;
  Clip& operator=(const Clip&) = delete;
  [[nodiscard]] fs::path file(int i) const { return folder_ / ("clip" + std::to_string(i) + ".mp4"); }
  [[nodiscard]] const fs::path& folder() const { return folder_; }

 private:
  fs::path folder_;
};

const Clip& clip() {
  static const Clip made;
  return made;
}

// Evenly over the clips, none on a picture to start from.
std::vector<panslate::StillWanted> wanted(int clips) {
  std::vector<panslate::StillWanted> all;
  for (int i = 0; i < kStills; ++i)
    all.push_back(
        {clip().file(i % clips), MediaTime::from_ms(std::int64_t{kSeconds} * 1000 * i / kStills + 1234)});
  return all;
}

using Clock = std::chrono::steady_clock;
using Seconds = std::chrono::duration<double>;

// The best time for so many clips, for the ratio that the baseline reports.
Seconds& best(int clips) {
  static Seconds of[5] = {Seconds::max(), Seconds::max(), Seconds::max(), Seconds::max(), Seconds::max()};
  return of[clips];
}

// With the start of the workers: that is what a command pays.
void StillsByWorkers(benchmark::State& state) {
  const int clips = static_cast<int>(state.range(0));
  const auto all = wanted(clips);
  for (auto _ : state) {
    const auto begin = Clock::now();
    panslate::FootageWorkers workers({PANSLATE_PROGRAM, 0, {}});
    panslate::NoProgress progress;
    const auto stills = workers.stills(all, kSide, progress);
    for (const auto& still : *stills)
      if (!still) state.SkipWithError(render(still.error()).c_str());
    best(clips) = std::min(best(clips), Seconds(Clock::now() - begin));
  }
  state.SetItemsProcessed(state.iterations() * kStills);
}

void BaselineOneFfmpeg(benchmark::State& state) {
  const int clips = static_cast<int>(state.range(0));
  std::vector<std::string> words{"ffmpeg", "-v", "quiet", "-y"};
  std::vector<std::string> outputs;
  int number = 0;
  for (const auto& [file, time] : wanted(clips)) {
    words.insert(words.end(), {"-ss", std::to_string(time.seconds()), "-i", file.string()});
    const auto still = clip().folder() / ("still" + std::to_string(number) + ".jpg");
    outputs.insert(outputs.end(), {"-map", std::to_string(number) + ":v", "-frames:v", "1", "-vf",
                                   "scale=" + std::to_string(kSide) + ":-2", "-q:v", "3", still.string()});
    ++number;
  }
  words.insert(words.end(), outputs.begin(), outputs.end());
  Seconds fastest = Seconds::max();
  for (auto _ : state) {
    const auto begin = Clock::now();
    if (panslate::outside::run_program(words).status != 0) state.SkipWithError("ffmpeg could not be run");
    fastest = std::min(fastest, Seconds(Clock::now() - begin));
  }
  state.counters["times_as_long_as_workers"] = fastest / best(clips);
  state.SetItemsProcessed(state.iterations() * kStills);
}

BENCHMARK(StillsByWorkers)->Arg(1)->Arg(4)->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(5);
BENCHMARK(BaselineOneFfmpeg)->Arg(1)->Arg(4)->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(3);

}  // namespace
