// Probing the clips of a shoot, against starting ffprobe once for each of them in the same run. The clips are
// made here; the ratio of the two times is the figure that matters.
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

#include "panslate/media/clip_facts.h"
#include "panslate/media/render.h"

#include "../media/run_program.h"

namespace {

namespace fs = std::filesystem;
using panslate::MediaTime;

constexpr int kClips = 200;

// As a camera, a phone and a screen recorder write them: MP4 with sound, QuickTime with timecode, turned MP4,
// Matroska.
class Shoot {
 public:
  Shoot() : folder_(fs::temp_directory_path() / ("panslate_shoot_" + std::to_string(getpid()))) {
    fs::create_directories(folder_);
    panslate::RenderSpec spec;
    spec.graph = "testsrc2=s=1920x1080:r=30000/1001[v];sine=f=440[a]";
    spec.duration = MediaTime::from_seconds(4);
    spec.rate = {30000, 1001};
    const fs::path camera = made("camera.mp4", spec);
    spec.rotation = 90;
    const fs::path phone = made("phone.mp4", spec);
    spec.rotation = 0;
    spec.timecode = "10:00:00;00";
    const fs::path timecode = made("timecode.mov", spec);
    spec.timecode.reset();
    const fs::path recorder = made("recorder.mkv", spec);
    const std::vector<fs::path> kinds{camera, phone, timecode, recorder};
    for (int i = 0; i < kClips; ++i) {
      const auto& kind = kinds[static_cast<std::size_t>(i) % kinds.size()];
      const auto clip = folder_ / ("clip" + std::to_string(i) + kind.extension().string());
      fs::copy_file(kind, clip);
      clips_.push_back(clip);
    }
  }
  ~Shoot() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  Shoot(const Shoot&) = delete;
  Shoot& operator=(const Shoot&) = delete;
  [[nodiscard]] const std::vector<fs::path>& clips() const { return clips_; }

 private:
  [[nodiscard]] fs::path made(const std::string& name, const panslate::RenderSpec& spec) const {
    panslate::NoProgress progress;
    auto file = folder_ / name;
    if (const auto done = panslate::render_film(spec, file, progress); !done) {
      std::fprintf(stderr, "%s\n", panslate::render(done.error()).c_str());
      std::exit(1);
    }
    return file;
  }

  fs::path folder_;
  std::vector<fs::path> clips_;
};

const Shoot& shoot() {
  static const Shoot made;
  return made;
}

using Clock = std::chrono::steady_clock;

// The best time of ProbeClips, for the ratio that the baseline reports.
Clock::duration& best_probing() {
  static Clock::duration best = Clock::duration::max();
  return best;
}

void ProbeClips(benchmark::State& state) {
  const auto& clips = shoot().clips();
  for (auto _ : state) {
    const auto begin = Clock::now();
    for (const auto& clip : clips) {
      const auto facts = panslate::probe_clip(clip);
      if (!facts) state.SkipWithError("a clip could not be probed");
      benchmark::DoNotOptimize(facts);
    }
    best_probing() = std::min(best_probing(), Clock::now() - begin);
  }
  state.SetItemsProcessed(state.iterations() * kClips);
}

void BaselineStartFfprobe(benchmark::State& state) {
  const auto& clips = shoot().clips();
  for (auto _ : state) {
    const auto begin = Clock::now();
    for (const auto& clip : clips) {
      const auto ran = panslate::outside::run_program(
          {"ffprobe", "-v", "quiet", "-of", "json", "-show_format", "-show_streams", clip.string()});
      if (ran.status != 0) state.SkipWithError("ffprobe could not be run");
    }
    using Seconds = std::chrono::duration<double>;
    state.counters["times_as_long_as_ProbeClips"] = Seconds(Clock::now() - begin) / Seconds(best_probing());
  }
  state.SetItemsProcessed(state.iterations() * kClips);
}

BENCHMARK(ProbeClips)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(BaselineStartFfprobe)->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(1);

}  // namespace
