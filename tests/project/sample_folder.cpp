#include "project/sample_folder.h"

#include <atomic>
#include <fstream>
#include <iterator>
#include <system_error>
#include <utility>

#include <gtest/gtest.h>
#include <unistd.h>

namespace panslate::testing {

namespace fs = std::filesystem;

SampleFolder::SampleFolder() {
  static std::atomic<int> count{0};
  path_ = fs::temp_directory_path() /
          ("panslate-project-" + std::to_string(::getpid()) + "-" + std::to_string(count++));
  fs::create_directories(path_);
}

SampleFolder::~SampleFolder() {
  std::error_code error;
  fs::remove_all(path_, error);
}

void SampleFolder::write(const fs::path& name, std::string_view bytes) const {
  fs::create_directories((path_ / name).parent_path());
  std::ofstream(path_ / name, std::ios::binary) << bytes;
}

std::string SampleFolder::read(const fs::path& name) const {
  std::ifstream in(path_ / name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

namespace {

void render(const RenderSpec& spec, const fs::path& out) {
  fs::create_directories(out.parent_path());
  NoProgress progress;
  const auto made = render_film(spec, out, progress);
  ASSERT_TRUE(made.has_value()) << panslate::render(made.error());
}

}  // namespace

void SampleFolder::film(const fs::path& name, std::int64_t ms, std::optional<std::string> timecode,
                        std::optional<std::string> recorded) const {
  RenderSpec spec;
  spec.graph = "color=c=0x305030:s=64x48:r=25[v]";
  spec.duration = MediaTime::from_ms(ms);
  spec.timecode = std::move(timecode);
  spec.recorded = std::move(recorded);
  render(spec, path_ / name);
}

void SampleFolder::sound(const fs::path& name, std::int64_t ms) const {
  RenderSpec spec;
  spec.graph = "sine=frequency=440:sample_rate=48000[a]";
  spec.duration = MediaTime::from_ms(ms);
  render(spec, path_ / name);
}

}  // namespace panslate::testing
