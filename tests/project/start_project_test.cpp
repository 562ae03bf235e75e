#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/media/content_key.h"
#include "panslate/project/project.h"

#include "project/sample_folder.h"
#include "support/fake_file_system.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;
using testing::FakeFileSystem;
using ::testing::IsEmpty;
using testing::SampleFolder;

constexpr std::string_view kRecipe =
    "# Lentils\n\n## Ingredients\n\n- 200 g lentils\n\n## Method\n\n1. Rinse the lentils.\n";
constexpr std::string_view kCaptions = "WEBVTT\n\n00:00.000 --> 00:01.000\nRinse the lentils\n";
constexpr std::string_view kTitles = "1\n00:00:00,000 --> 00:00:01,000\n200 g\n";

// Everything that a shoot leaves in a folder.
void fill(const SampleFolder& folder) {
  folder.write("recipes/Lentil pot.md", kRecipe);
  folder.film("footage/pan 2.mp4", 1000, {}, "2024-05-04T10:00:00Z");
  folder.film("footage/pan 1.mp4", 480, {}, "2024-05-04T11:00:00Z");
  folder.film("footage/lid.mov", 520);
  folder.film("footage/lid.mkv", 520);
  folder.film("footage/final.mp4", 1000);
  folder.film("footage/edit-v1.mp4", 1000);
  folder.film("footage/edit-v2.mp4", 1000);
  folder.sound("footage/voice.wav", 1000);
  folder.write("footage/broken.mp4", "no film");
  folder.write("footage/edit-v2.en.vtt", kCaptions);
  folder.write("footage/edit-v2.srt", kTitles);
  folder.write("footage/voice.srt", kTitles);
  folder.write("footage/titles.srt", kTitles);
  folder.write("footage/odd.srt", "no captions");
  folder.write("footage/shopping.txt", "bread, milk");
  folder.write("footage/plate.jpg", "no photo");
}

TEST(StartProject, TakesInWhatLiesInTheFolder) {
  const SampleFolder folder;
  fill(folder);
  NoProgress progress;
  const auto started = start_project(
      real_file_system(),
      {folder.path() / "video/lentils", folder.path() / "recipes/Lentil pot.md", folder.path() / "footage"},
      progress);
  ASSERT_TRUE(started.has_value()) << render(started.error());
  EXPECT_EQ(started->file, folder.path() / "video/lentils/Lentil pot.json");
  std::vector<std::string> left_out;
  for (const auto& left : started->left_out) left_out.push_back(fs::path(left.file).filename().string());
  EXPECT_THAT(left_out, ::testing::Contains("broken.mp4"));
  auto text = folder.read("video/lentils/Lentil pot.json");
  // FFmpeg's own words may change.
  const auto why = text.find("\"why\": \"", text.find("broken.mp4")) + 8;
  text.replace(why, text.find('"', why) - why, "…");
  for (const auto* clip : {"pan 2.mp4", "pan 1.mp4", "lid.mkv", "lid.mov"}) {
    const auto key = content_key(folder.path() / "footage" / clip);
    ASSERT_TRUE(key);
    EXPECT_THAT(text, ::testing::HasSubstr("\"content\": \"" + *key + "\""));
  }
  for (auto at = text.find(",\n      \"content\""); at != std::string::npos;
       at = text.find(",\n      \"content\""))
    text.erase(at, text.find('\n', at + 2) - at);
  EXPECT_EQ(text, R"({
  "panslate_project": 1,
  "recipe": "../../recipes/Lentil pot.md",
  "media": [
    {
      "id": "pan-2",
      "file": "../../footage/pan 2.mp4",
      "role": "camera"
    },
    {
      "id": "pan-1",
      "file": "../../footage/pan 1.mp4",
      "role": "camera"
    },
    {
      "id": "lid",
      "file": "../../footage/lid.mkv",
      "role": "camera"
    },
    {
      "id": "lid-2",
      "file": "../../footage/lid.mov",
      "role": "camera"
    },
    {
      "id": "voice",
      "file": "../../footage/voice.wav",
      "role": "narration"
    },
    {
      "id": "edit-v2",
      "file": "../../footage/edit-v2.mp4",
      "role": "edit"
    }
  ],
  "segments": [
    {
      "id": "s1",
      "clip": "pan-2",
      "in": "00:00:00.000",
      "out": "00:00:01.000"
    },
    {
      "id": "s2",
      "clip": "pan-1",
      "in": "00:00:00.000",
      "out": "00:00:00.480"
    },
    {
      "id": "s3",
      "clip": "lid",
      "in": "00:00:00.000",
      "out": "00:00:00.520"
    },
    {
      "id": "s4",
      "clip": "lid-2",
      "in": "00:00:00.000",
      "out": "00:00:00.520"
    }
  ],
  "captions": [
    {
      "file": "../../footage/edit-v2.en.vtt",
      "clock": "edit-v2"
    },
    {
      "file": "../../footage/voice.srt",
      "clock": "voice"
    }
  ],
  "on_screen_text": [
    {
      "file": "../../footage/titles.srt",
      "clock": "edit-v2"
    }
  ],
  "left_out": [
    {
      "file": "../../footage/broken.mp4",
      "why": "…"
    },
    {
      "file": "../../footage/edit-v1.mp4",
      "why": "looks like another export of the edit"
    },
    {
      "file": "../../footage/final.mp4",
      "why": "looks like another export of the edit"
    },
    {
      "file": "../../footage/edit-v2.srt",
      "why": "edit-v2.en.vtt is taken for the same clip"
    },
    {
      "file": "../../footage/odd.srt",
      "why": "neither SubRip, WebVTT nor text with [m:ss] marks"
    }
  ]
}
)");

  auto project = load_project(real_file_system(), started->file);
  ASSERT_TRUE(project.has_value()) << render(project.error()[0]);
  EXPECT_THAT(project->to_decide, IsEmpty());
  const auto footage = measure_footage(*project, progress);
  ASSERT_TRUE(footage.has_value());
  EXPECT_THAT(footage->unusable, IsEmpty());
  EXPECT_THAT(footage->mistakes, IsEmpty());
}

TEST(StartProject, NeedsNoFootage) {
  FakeFileSystem disk;
  disk.add("/home/recipe.md", std::string(kRecipe));
  NoProgress progress;
  const auto started = start_project(disk, {"/home/pot", "/home/recipe.md", std::nullopt}, progress);
  ASSERT_TRUE(started.has_value()) << render(started.error());
  EXPECT_EQ(started->file, "/home/pot/recipe.json");
  EXPECT_EQ(disk.files().at("/home/pot/recipe.json"), R"({
  "panslate_project": 1,
  "recipe": "../recipe.md",
  "media": [],
  "segments": [],
  "captions": [],
  "on_screen_text": []
}
)");
  EXPECT_TRUE(load_project(disk, started->file).has_value());
}

TEST(StartProject, NeverOverwrites) {
  FakeFileSystem disk;
  disk.add("/home/recipe.md", std::string(kRecipe)).add("/home/pot/recipe.json", "mine");
  NoProgress progress;
  const auto started = start_project(disk, {"/home/pot", "/home/recipe.md", std::nullopt}, progress);
  ASSERT_FALSE(started.has_value());
  EXPECT_EQ(render(started.error()),
            "/home/pot/recipe.json: error: there is a project already\n"
            "  hint: go on with it, or start the new one in another folder");
  EXPECT_EQ(started.error().code, ErrorCode::Exists);
  EXPECT_EQ(disk.files().at("/home/pot/recipe.json"), "mine");
  EXPECT_THAT(disk.calls(), IsEmpty());
}

// Fails each writing call in turn: nothing half-written is left, and nothing that was there is harmed.
TEST(StartProject, LeavesNothingBehindWhenTheDiskFails) {
  int failures = 0;
  for (int n = 1;; ++n) {
    SCOPED_TRACE(n);
    ASSERT_LT(n, 10);
    FakeFileSystem disk;
    disk.add("/home/recipe.md", std::string(kRecipe)).add("/home/pot/other.json", "mine");
    const auto before = disk.files();
    disk.fail_write_call(n);
    NoProgress progress;
    const auto started = start_project(disk, {"/home/pot", "/home/recipe.md", std::nullopt}, progress);
    if (started.has_value()) break;
    ++failures;
    EXPECT_EQ(started.error().code, ErrorCode::WriteFailed);
    EXPECT_EQ(disk.files(), before);
  }
  EXPECT_EQ(failures, 3) << "the folder, the temporary file, the renaming";
}

TEST(StartProject, TellsWhatIsMissing) {
  struct Case {
    NewProject start;
    std::string told;
  };
  const Case cases[] = {
      {{"/home/pot", "/home/no.md", std::nullopt},
       "/home/no.md: error: there is no such file\n  hint: check the name and the folder"},
      {{"/home/pot", "/home/recipe.md", "/home/clips"},
       "/home/clips: error: the folder cannot be read: No such file or directory"},
      {{"/home/pot", "/home/recipe.md", "/home/recipe.md"},
       "/home/recipe.md: error: this is a file, a folder with clips is needed"},
  };
  for (const auto& [start, told] : cases) {
    SCOPED_TRACE(told);
    FakeFileSystem disk;
    disk.add("/home/recipe.md", std::string(kRecipe));
    NoProgress progress;
    const auto started = start_project(disk, start, progress);
    ASSERT_FALSE(started.has_value());
    EXPECT_EQ(render(started.error()), told);
    EXPECT_EQ(disk.files().size(), 1U);
  }
}

TEST(StartProject, WantsARecipeThatCanBeRead) {
  FakeFileSystem disk;
  disk.add("/home/list.md", "bread\n");
  NoProgress progress;
  const auto started = start_project(disk, {"/home/pot", "/home/list.md", std::nullopt}, progress);
  ASSERT_FALSE(started.has_value());
  EXPECT_EQ(started.error().code, ErrorCode::Malformed);
  EXPECT_EQ(disk.files().size(), 1U);
}

}  // namespace
}  // namespace panslate
