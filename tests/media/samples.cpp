#include "media/samples.h"

#include <cstdio>
#include <cstdlib>
#include <system_error>

#include <unistd.h>

namespace panslate::samples {

namespace fs = std::filesystem;

namespace {

class Folder {
 public:
  Folder() : path_(fs::temp_directory_path() / ("panslate_media_" + std::to_string(getpid()))) {
    fs::create_directories(path_);
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

std::string with_tone(std::string_view pictures) {
  return std::string(pictures) + "[v];" + std::string(kTone) + "[a]";
}

}  // namespace

const fs::path& folder() {
  static const Folder made;
  return made.path();
}

RenderSpec spec(std::string_view graph, std::int64_t ms, FrameRate rate) {
  RenderSpec made;
  made.graph = graph;
  made.duration = MediaTime::from_ms(ms);
  made.rate = rate;
  return made;
}

std::string counting_grey(FrameRate rate) {
  return "color=s=64x48:r=" + std::to_string(rate.num) + "/" + std::to_string(rate.den) +
         ",format=yuv420p,geq=lum='16+8*mod(N,25)':cb=128:cr=128";
}

fs::path make(const std::string& name, const RenderSpec& wanted) {
  auto file = folder() / name;
  if (fs::exists(file)) return file;
  NoProgress progress;
  if (const auto made = render_film(wanted, file, progress); !made) {
    std::fprintf(stderr, "%s\n", render(made.error()).c_str());
    std::abort();
  }
  return file;
}

fs::path camera_mp4() {
  return make("camera.mp4", spec(with_tone(counting_grey({25, 1})), 2000));
}

fs::path phone_mp4() {
  auto wanted = spec(with_tone("testsrc=s=240x320:r=30000/1001,drawbox=x=0:y=0:w=80:h=60:color=red:t=fill"),
                     1001, {30000, 1001});
  wanted.rotation = 90;
  wanted.recorded = "2024-05-04T10:12:00Z";
  return make("phone.mp4", wanted);
}

fs::path timecode_mov() {
  auto wanted = spec(counting_grey({30000, 1001}) + "[v]", 1001, {30000, 1001});
  wanted.timecode = "01:00:00;00";
  return make("timecode.mov", wanted);
}

fs::path film_mkv() {
  return make("film.mkv", spec(with_tone(counting_grey({24000, 1001})), 2002, {24000, 1001}));
}
fs::path broadcast_ts() {
  return make("broadcast.ts", spec(with_tone(counting_grey({25, 1})), 2000));
}
fs::path old_avi() {
  return make("old.avi", spec(with_tone(counting_grey({25, 1})), 2000));
}

fs::path varying_mp4() {
  auto wanted = spec("testsrc=s=64x48:r=25,select='lt(n,20)+not(mod(n,3))'[v]", 3000);
  wanted.timing = PictureTiming::AsDrawn;
  return make("varying.mp4", wanted);
}

fs::path narration_wav() {
  return make("narration.wav", spec(std::string(kTone) + "[a]", 1500));
}
fs::path silent_mov() {
  return make("silent.mov", spec(counting_grey({24, 1}) + "[v]", 1500, {24, 1}));
}

}  // namespace panslate::samples
