// What is logged once, and when it stops.
#include "panslate/project/log_footage.h"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/project/store.h"

#include "project/sample_folder.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;
using testing::SampleFolder;

// Records how much there is to be read; asks to stop from the start, if at all.
class Recorder final : public Progress {
 public:
  explicit Recorder(bool stops = false) : stops_(stops) {}
  void step(std::string_view phase, std::int64_t, std::int64_t total) override {
    if (phase.starts_with("reading the footage")) megabytes = std::max(megabytes, total);
  }
  [[nodiscard]] bool cancelled() const noexcept override { return stops_; }
  std::int64_t megabytes = 0;

 private:
  bool stops_;
};

TEST(LogFootage, DecodesWhatIsThereTwiceOnce) {
  const SampleFolder folder;
  folder.sound("a.wav", 25'000);
  const auto size = static_cast<std::int64_t>(fs::file_size(folder.path() / "a.wav"));
  ASSERT_GT(size, 2'000'000);
  std::vector<fs::path> files{folder.path() / "a.wav"};
  for (const char* copy : {"b.wav", "c.wav"}) {
    fs::copy_file(files.front(), folder.path() / copy);
    files.push_back(folder.path() / copy);
  }
  FootageWorkers workers;
  auto& disk = real_file_system();
  for (const bool keeps : {true, false}) {
    Store store = keeps ? Store(disk, files.front()) : Store();
    Recorder progress;
    const auto clips = log_footage(files, workers, store, progress);
    ASSERT_TRUE(clips);
    EXPECT_EQ(progress.megabytes, size / 1'000'000);
    ASSERT_EQ(clips->size(), files.size());
    for (std::size_t i = 0; i < files.size(); ++i) {
      const auto& clip = (*clips)[i];
      EXPECT_EQ(clip.file, files[i]);
      ASSERT_TRUE(clip.log) << files[i];
      EXPECT_EQ(clip.log->facts.file, files[i]);
      EXPECT_EQ(clip.log->levels.size(), 2'500U);
      EXPECT_EQ(clip.content, clips->front().content);
      EXPECT_EQ(store.key_of(files[i]), keeps ? std::optional(clip.content) : std::nullopt) << files[i];
    }
  }
  // Kept under each name: nothing is read again.
  Store store(disk, files.front());
  Recorder progress;
  ASSERT_TRUE(log_footage(files, workers, store, progress));
  EXPECT_EQ(progress.megabytes, 0);
}

TEST(LogFootage, TellsOfEachCopyThatItCannotBeRead) {
  const SampleFolder folder;
  std::vector<fs::path> files;
  for (const char* name : {"x.mp4", "y.mp4"}) {
    folder.write(name, "no film at all");
    files.push_back(folder.path() / name);
  }
  FootageWorkers workers;
  Store store;
  NoProgress progress;
  const auto clips = log_footage(files, workers, store, progress);
  ASSERT_TRUE(clips);
  for (std::size_t i = 0; i < files.size(); ++i) {
    const auto& clip = (*clips)[i];
    EXPECT_FALSE(clip.log);
    ASSERT_TRUE(clip.why);
    ASSERT_TRUE(clip.why->place);
    EXPECT_EQ(clip.why->place->file, files[i]);
  }
}

// Also where all is known, as with many clips on a slow disk.
TEST(LogFootage, StopsWhileClipsAreLookedUp) {
  const SampleFolder folder;
  folder.sound("a.wav", 1'000);
  const std::vector<fs::path> files{folder.path() / "a.wav"};
  FootageWorkers workers;
  auto& disk = real_file_system();
  Store store(disk, files.front());
  Recorder goes_on;
  ASSERT_TRUE(log_footage(files, workers, store, goes_on));
  Recorder stops(true);
  const auto clips = log_footage(files, workers, store, stops);
  ASSERT_FALSE(clips);
  EXPECT_EQ(clips.error().code, ErrorCode::Cancelled);
}

}  // namespace
}  // namespace panslate
