// Any bytes as a clip: measured, and a still taken from its middle. The libraries read files, so the bytes
// become one that lives in memory only.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/render.h"
#include "panslate/media/still.h"

namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLargest = 256 * 1024;

// One tiny clip of each kind that panslate writes.
void draw_seeds(const fs::path& folder) {
  fs::create_directories(folder);
  panslate::NoProgress progress;
  panslate::RenderSpec spec;
  spec.duration = panslate::MediaTime::from_ms(400);
  spec.rate = {5, 1};
  spec.sample_rate = 8000;
  spec.graph = "testsrc=s=32x32:r=5[v];sine=r=8000[a]";
  for (const char* ending : {".mp4", ".mov", ".mkv", ".avi", ".ts"})
    (void)render_film(spec, folder / (std::string("seed") + ending), progress);
  spec.graph = "sine=r=8000[a]";
  for (const char* ending : {".wav", ".flac", ".m4a"})
    (void)render_film(spec, folder / (std::string("seed") + ending), progress);
  spec.graph = "testsrc=s=32x16:r=5[v]";
  spec.rotation = 90;
  spec.timecode = "01:00:00:00";
  (void)render_film(spec, folder / "turned.mp4", progress);
}

}  // namespace

extern "C" int LLVMFuzzerInitialize(int* count, char*** words) {
  bool has_corpus = false;
  for (int i = 1; i < *count; ++i) has_corpus = has_corpus || fs::is_directory((*words)[i]);
  if (!has_corpus) return 0;
  static std::string folder =
      (fs::temp_directory_path() / ("panslate_seeds_" + std::to_string(getpid()))).string();
  draw_seeds(folder);
  std::atexit([] {
    std::error_code ignored;
    fs::remove_all(folder, ignored);
  });
  static std::vector<char*> longer(*words, *words + *count);
  longer.push_back(folder.data());
  longer.push_back(nullptr);
  *words = longer.data();
  ++*count;
  return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > kLargest) return 0;
  static const int memory = memfd_create("clip", 0);
  if (memory < 0 || ftruncate(memory, 0) != 0) return 0;
  if (pwrite(memory, data, size, 0) != static_cast<ssize_t>(size)) return 0;
  const std::string file = "/proc/self/fd/" + std::to_string(memory);
  const auto facts = panslate::probe_clip(file);
  const auto middle = facts ? facts->duration / 2 : panslate::MediaTime{};
  (void)panslate::take_still(file, middle, 64);
  return 0;
}
