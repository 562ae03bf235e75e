#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/project/project.h"

#include "project/sample_folder.h"

namespace panslate {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testing::SampleFolder;

constexpr std::string_view kRecipe =
    "# Lentils\n\n## Ingredients\n\n- 200 g lentils\n\n## Method\n\n1. Rinse the lentils.\n";

std::vector<std::string> told(const std::vector<Error>& errors, const std::filesystem::path& folder) {
  std::vector<std::string> out;
  for (const auto& error : errors) {
    auto text = render(error);
    const auto prefix = folder.string() + "/";
    for (auto at = text.find(prefix); at != std::string::npos; at = text.find(prefix))
      text.erase(at, prefix.size());
    out.push_back(text);
  }
  return out;
}

Project load(const SampleFolder& folder, std::string_view project) {
  folder.write("recipe.md", kRecipe);
  folder.write("p.json", project);
  auto loaded = load_project(real_file_system(), folder.path() / "p.json");
  EXPECT_TRUE(loaded.has_value()) << (loaded ? "" : render(loaded.error()[0]));
  return loaded ? *std::move(loaded) : Project{};
}

// Records what it is told; asks to stop after some steps.
class Recorder final : public Progress {
 public:
  explicit Recorder(int steps_until_stop = -1) : left_(steps_until_stop) {}
  void step(std::string_view phase, std::int64_t done, std::int64_t total) override {
    steps.push_back(std::string(phase) + " " + std::to_string(done) + "/" + std::to_string(total));
    if (left_ > 0) --left_;
  }
  [[nodiscard]] bool cancelled() const noexcept override { return left_ == 0; }
  std::vector<std::string> steps;

 private:
  int left_;
};

TEST(MeasureFootage, MeasuresEveryClipAndSettlesTimes) {
  const SampleFolder folder;
  folder.film("pan.mov", 2000, "10:00:00:00");
  folder.sound("voice.wav", 1500);
  folder.write("broken.mp4", "this is no film");
  auto project = load(folder, R"({"panslate_project": 1, "recipe": "recipe.md", "media": [
{"id": "pan", "file": "pan.mov", "role": "camera"},
{"id": "gone", "file": "gone.mp4", "role": "camera"},
{"id": "broken", "file": "broken.mp4", "role": "camera"},
{"id": "voice", "file": "voice.wav", "role": "narration"}],
"segments": [
{"id": "s1", "clip": "pan", "in": "10:00:00:10", "out": "10:00:01:00", "step": "Rinse"},
{"id": "s2", "clip": "pan", "in": "0:01"},
{"id": "v1", "clip": "voice", "out": "0:03"},
{"id": "g1", "clip": "gone", "in": "00:00:00:10"}]})");
  Recorder progress;
  const auto footage = measure_footage(project, progress);
  ASSERT_TRUE(footage.has_value());
  ASSERT_EQ(footage->clips.size(), 4U);
  ASSERT_TRUE(footage->clips[0].has_value());
  EXPECT_EQ(footage->clips[0]->duration, MediaTime::from_ms(2000));
  EXPECT_EQ(footage->clips[0]->timecode, "10:00:00:00");
  EXPECT_FALSE(footage->clips[1].has_value());
  EXPECT_FALSE(footage->clips[2].has_value());
  ASSERT_TRUE(footage->clips[3].has_value());
  EXPECT_EQ(footage->clips[3]->duration, MediaTime::from_ms(1500));

  EXPECT_EQ(footage->unusable.size(), 2U);
  const auto unusable = told(footage->unusable, folder.path());
  ASSERT_EQ(unusable.size(), 2U);
  EXPECT_EQ(unusable[0],
            "p.json:3:24: error: clip \"gone\" (gone.mp4) cannot be used: there is no such file\n"
            "  hint: check the name, or whether the card or disk is connected");
  EXPECT_THAT(unusable[1],
              ::testing::StartsWith("p.json:4:26: error: clip \"broken\" (broken.mp4) cannot be used: "));
  EXPECT_EQ(footage->unusable[0].code, ErrorCode::NotFound);
  EXPECT_EQ(footage->unusable[1].code, ErrorCode::NotMedia);

  EXPECT_THAT(
      told(footage->mistakes, folder.path()),
      ElementsAre("p.json:9:38: error: part \"v1\": ends at 00:00:03.000, past the end of clip \"voice\", "
                  "which is 00:00:01.500 long\n  hint: without \"out\" it goes to the end of the clip"));
  EXPECT_EQ(project.segments[0].range, (TimeRange{MediaTime::from_ms(400), MediaTime::from_ms(1000)}));
  EXPECT_EQ(project.segments[1].range, (TimeRange{MediaTime::from_ms(1000), MediaTime::from_ms(2000)}));
  EXPECT_TRUE(project.segments[3].in.pending);

  EXPECT_THAT(progress.steps, ElementsAre("measuring clips 0/4", "measuring clips 1/4", "measuring clips 2/4",
                                          "measuring clips 3/4", "measuring clips 4/4"));
}

TEST(MeasureFootage, StopsWhenAskedAndLeavesTheProjectAsItWas) {
  const SampleFolder folder;
  folder.sound("voice.wav", 1000);
  auto project = load(folder, R"({"panslate_project": 1, "recipe": "recipe.md", "media": [
{"id": "a", "file": "voice.wav", "role": "narration"}, {"id": "b", "file": "voice.wav", "role": "narration"},
{"id": "c", "file": "voice.wav", "role": "narration"}, {"id": "d", "file": "voice.wav", "role": "narration"}],
"segments": [{"id": "s1", "clip": "a"}]})");
  for (int steps : {1, 2, 3, 4}) {
    Recorder progress(steps);
    const auto footage = measure_footage(project, progress);
    // A stop that comes when nothing is left to do finds the work done.
    if (footage.has_value()) {
      EXPECT_GE(steps, 3);
      continue;
    }
    EXPECT_EQ(render(footage.error()), "error: stopped while measuring the clips");
    EXPECT_EQ(footage.error().code, ErrorCode::Cancelled);
    EXPECT_TRUE(project.segments[0].out.pending);
  }
}

TEST(MeasureFootage, HasNothingToDoWithoutMedia) {
  const SampleFolder folder;
  auto project = load(folder, R"({"panslate_project": 1, "recipe": "recipe.md"})");
  NoProgress progress;
  const auto footage = measure_footage(project, progress);
  ASSERT_TRUE(footage.has_value());
  EXPECT_THAT(footage->clips, IsEmpty());
  EXPECT_THAT(footage->unusable, IsEmpty());
  EXPECT_THAT(footage->mistakes, IsEmpty());
}

// An outside clip whose timecode track another program wrote: 29.97 drop-frame from 00:00:00;00.
TEST(MeasureFootage, ReadsTheTimecodeOfCamerasClips) {
  const auto clip = std::filesystem::path(PANSLATE_SOURCE_DIR) /
                    "../shared/media/clips/VideoAndTimecodeTrack_29_97i_Start-00-00-00-00.mov";
  if (!std::filesystem::exists(clip)) GTEST_SKIP() << "no such clip here";
  const SampleFolder folder;
  auto project = load(folder, R"({"panslate_project": 1, "recipe": "recipe.md", "media": [
{"id": "pan", "file": ")" + clip.string() +
                                  R"(", "role": "camera"}],
"segments": [{"id": "s1", "clip": "pan", "in": "00:00:00:05"}]})");
  NoProgress progress;
  const auto footage = measure_footage(project, progress);
  ASSERT_TRUE(footage.has_value());
  ASSERT_TRUE(footage->clips[0].has_value());
  ASSERT_TRUE(footage->clips[0]->timecode.has_value());
  EXPECT_THAT(told(footage->mistakes, folder.path()), IsEmpty());
  EXPECT_EQ(project.segments[0].range.begin, MediaTime::from_frames(5, {30000, 1001}));
}

}  // namespace
}  // namespace panslate
