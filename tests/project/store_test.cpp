#include "panslate/project/store.h"

#include <filesystem>
#include <string>

#include <gtest/gtest.h>

#include "panslate/media/content_key.h"
#include "panslate/project/project.h"

#include "project/sample_folder.h"
#include "support/fake_file_system.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;
using testing::FakeFileSystem;
using testing::SampleFolder;

ClipFacts some_facts() {
  ClipFacts facts;
  facts.duration = MediaTime::from_ms(12'345);
  facts.duration_source = DurationSource::Packets;
  facts.container = "mov,mp4";
  facts.picture = PictureFacts{
      1920, 1080, 1080, 1920, 90, true, {30'000, 1001}, true, 370, MediaTime::from_ms(12'345), "h264", true};
  facts.sound.push_back({2, 48'000, "stereo", "aac", MediaTime::from_ms(-20), MediaTime::from_ms(12'300)});
  facts.timecode = "01:00:00;00";
  facts.recorded = "2026-05-04T10:20:30Z";
  facts.warnings = {"the sound starts late", "a \"quoted\" word"};
  return facts;
}

void expect_same(const ClipFacts& a, const ClipFacts& b) {
  EXPECT_EQ(a.duration, b.duration);
  EXPECT_EQ(a.duration_source, b.duration_source);
  EXPECT_EQ(a.container, b.container);
  ASSERT_EQ(a.picture.has_value(), b.picture.has_value());
  if (a.picture) {
    EXPECT_EQ(a.picture->shown_height, b.picture->shown_height);
    EXPECT_EQ(a.picture->rotation, b.picture->rotation);
    EXPECT_EQ(a.picture->mirrored, b.picture->mirrored);
    EXPECT_EQ(a.picture->frame_rate, b.picture->frame_rate);
    EXPECT_EQ(a.picture->frames, b.picture->frames);
    EXPECT_EQ(a.picture->hdr, b.picture->hdr);
  }
  ASSERT_EQ(a.sound.size(), b.sound.size());
  for (std::size_t i = 0; i < a.sound.size(); ++i) {
    EXPECT_EQ(a.sound[i].begin, b.sound[i].begin);
    EXPECT_EQ(a.sound[i].layout, b.sound[i].layout);
  }
  EXPECT_EQ(a.timecode, b.timecode);
  EXPECT_EQ(a.recorded, b.recorded);
  EXPECT_EQ(a.warnings, b.warnings);
}

TEST(Store, HasWhatWasKept) {
  FakeFileSystem disk;
  disk.add("film/p.json", "{}").add("film/clips/a.mp4", "picture");
  Store store(disk, "film/p.json");
  EXPECT_FALSE(store.key_of("film/clips/a.mp4"));
  store.keep("film/clips/a.mp4", *disk.stamp("film/clips/a.mp4"), "7-abc", some_facts());
  Still still{"\xFF\xD8\xFF jpeg \n \xFF\xD9", 320, 180, MediaTime::from_ms(500)};
  store.keep_still("7-abc", MediaTime::from_ms(512), 320, still);
  store.keep_last_check("{}");

  const Store again(disk, "film/p.json");
  EXPECT_EQ(again.key_of("film/clips/a.mp4"), "7-abc");
  EXPECT_EQ(again.key_of("film/./clips/../clips/a.mp4"), "7-abc");
  const auto facts = again.facts("7-abc", "film/renamed.mp4");
  ASSERT_TRUE(facts);
  expect_same(*facts, some_facts());
  EXPECT_EQ(facts->file, "film/renamed.mp4");
  const auto kept = again.still("7-abc", MediaTime::from_ms(512), 320);
  ASSERT_TRUE(kept);
  EXPECT_EQ(kept->jpeg, still.jpeg);
  EXPECT_EQ(kept->time, still.time);
  EXPECT_EQ(kept->width, 320);
  EXPECT_FALSE(again.still("7-abc", MediaTime::from_ms(513), 320));
  EXPECT_FALSE(again.still("7-abc", MediaTime::from_ms(512), 640));
  EXPECT_EQ(again.last_check(), "{}");
  // The mark of https://bford.info/cachedir/ (version 0.6).
  EXPECT_EQ(disk.files().at("film/.panslate/CACHEDIR.TAG").substr(0, 43),
            "Signature: 8a477f597d28d172789f06886806bc55");
}

TEST(Store, NoticesThatAFileChanged) {
  FakeFileSystem disk;
  disk.add("p.json", "{}").add("a.mp4", "picture");
  Store store(disk, "p.json");
  store.keep("a.mp4", *disk.stamp("a.mp4"), "7-abc", some_facts());
  EXPECT_EQ(store.key_of("a.mp4"), "7-abc");
  disk.add("a.mp4", "another");
  EXPECT_FALSE(store.key_of("a.mp4"));
  ASSERT_TRUE(store.last_seen("a.mp4"));
  EXPECT_EQ(store.last_seen("a.mp4")->key, "7-abc");
}

// Every call that changes the disk fails in turn: the store has the entry or has it not, and nothing else.
TEST(Store, IsNeverSpoiltByAFailure) {
  for (int n = 1; n < 12; ++n) {
    FakeFileSystem disk;
    disk.add("p.json", "{}").add("a.mp4", "picture");
    disk.fail_write_call(n);
    Store store(disk, "p.json");
    store.keep("a.mp4", *disk.stamp("a.mp4"), "7-abc", some_facts());
    const Store again(disk, "p.json");
    if (const auto key = again.key_of("a.mp4")) {
      EXPECT_EQ(*key, "7-abc");
      ASSERT_TRUE(again.facts(*key, "a.mp4"));
      expect_same(*again.facts(*key, "a.mp4"), some_facts());
    }
    EXPECT_EQ(disk.files().at("p.json"), "{}");
    EXPECT_EQ(disk.files().at("a.mp4"), "picture");
  }
}

TEST(Store, CountsWhatIsDamagedAsNotThere) {
  FakeFileSystem disk;
  disk.add("p.json", "{}").add("a.mp4", "picture");
  {
    Store store(disk, "p.json");
    store.keep("a.mp4", *disk.stamp("a.mp4"), "7-abc", some_facts());
    store.keep_still("7-abc", {}, 320, {"\xFF\xD8\xFF\xE0 \xFF\xD9", 320, 180, {}});
  }
  fs::path entry;
  fs::path still;
  for (const auto& [file, bytes] : disk.files()) {
    if (file.parent_path() == ".panslate/clips") entry = file;
    if (file.parent_path() == ".panslate/stills") still = file;
  }
  ASSERT_FALSE(entry.empty());
  ASSERT_FALSE(still.empty());
  const auto whole = disk.files().at(entry);
  const auto picture = disk.files().at(still);
  // Cut anywhere, and with each number, word and brace spoilt.
  for (std::size_t cut = 0; cut < whole.size() - 1; ++cut) {
    disk.add(entry, whole.substr(0, cut));
    EXPECT_FALSE(Store(disk, "p.json").key_of("a.mp4")) << cut;
  }
  for (std::size_t at = 0; at < whole.size(); ++at)
    for (const char c : {'"', '{', '-', '9', '\0', '\xFF'}) {
      auto spoilt = whole;
      spoilt[at] = c;
      disk.add(entry, spoilt);
      const Store store(disk, "p.json");
      const auto key = store.key_of("a.mp4");
      EXPECT_TRUE(!key || store.facts(*key, "a.mp4"));
    }
  for (std::size_t cut = 0; cut < picture.size(); ++cut) {
    disk.add(still, picture.substr(0, cut));
    EXPECT_FALSE(Store(disk, "p.json").still("7-abc", {}, 320)) << cut;
  }
}

TEST(Store, KeepsNothingWhereItMayNot) {
  Store none;
  none.keep("a.mp4", {}, "7-abc", some_facts());
  none.keep_last_check("{}");
  EXPECT_FALSE(none.last_check());
  EXPECT_FALSE(none.still("7-abc", {}, 320));
}

struct Shoot {
  SampleFolder folder;
  Shoot() {
    folder.write("recipe.md", "Lentils\n\nIngredients\n200 g lentils\n\nMethod\nRinse the lentils.\n");
    folder.film("clips/pan.mov", 2000);
    folder.sound("clips/voice.wav", 1500);
  }
  [[nodiscard]] Result<Footage> measure(const std::string& media, std::vector<MediaEntry>* entries = nullptr,
                                        FootageWorkers& workers = footage_in_this_process()) {
    folder.write("p.json", R"({"panslate_project": 1, "recipe": "recipe.md", "media": [)" + media + "]}");
    auto project = load_project(real_file_system(), folder.path() / "p.json");
    EXPECT_TRUE(project) << (project ? "" : render(project.error().front()));
    NoProgress progress;
    Store store(real_file_system(), folder.path() / "p.json");
    auto footage = measure_footage(*project, progress, workers, store);
    if (entries != nullptr) *entries = project->media;
    return footage;
  }
};

const std::string kPan = R"({"id": "pan", "file": "clips/pan.mov", "role": "camera"})";

TEST(MeasureFootage, OpensNothingThatDidNotChange) {
  Shoot shoot;
  const auto first = shoot.measure(kPan);
  ASSERT_TRUE(first && first->clips[0]);
  // A worker that cannot read anything: were the clip opened, it could not be used.
  FootageWorkers useless(FootageWorkers::Setup{.program = "/bin/false", .count = 1, .limits = {}});
  const auto second = shoot.measure(kPan, nullptr, useless);
  ASSERT_TRUE(second && second->clips[0]);
  expect_same(*second->clips[0], *first->clips[0]);
  EXPECT_EQ(second->contents[0], *content_key(shoot.folder.path() / "clips/pan.mov"));
  // Deleting the store loses nothing.
  fs::remove_all(shoot.folder.path() / ".panslate");
  const auto without = shoot.measure(kPan, nullptr, useless);
  ASSERT_TRUE(without);
  EXPECT_FALSE(without->clips[0]) << "the check above can fail";
  const auto third = shoot.measure(kPan);
  ASSERT_TRUE(third && third->clips[0]);
  expect_same(*third->clips[0], *first->clips[0]);
}

TEST(MeasureFootage, FindsAClipThatWasRenamedOrMoved) {
  for (const auto* target : {"clips/a new name.mov", "clips/monday/pan.mov", "pan.mov"}) {
    Shoot shoot;
    ASSERT_TRUE(shoot.measure(kPan));
    fs::create_directories((shoot.folder.path() / target).parent_path());
    fs::rename(shoot.folder.path() / "clips/pan.mov", shoot.folder.path() / target);
    std::vector<MediaEntry> entries;
    const auto footage = shoot.measure(kPan, &entries);
    ASSERT_TRUE(footage && footage->clips[0]) << target;
    EXPECT_TRUE(footage->unusable.empty());
    ASSERT_EQ(footage->moved.size(), 1U);
    EXPECT_NE(footage->moved[0].message.find("found as \"" + std::string(target) + "\""), std::string::npos)
        << footage->moved[0].message;
    EXPECT_TRUE(fs::equivalent(entries[0].file, shoot.folder.path() / target));
  }
}

TEST(MeasureFootage, FindsItByTheProjectsOwnKeyWithoutTheStore) {
  Shoot shoot;
  const auto key = content_key(shoot.folder.path() / "clips/pan.mov");
  ASSERT_TRUE(key);
  fs::rename(shoot.folder.path() / "clips/pan.mov", shoot.folder.path() / "clips/other.mov");
  const auto footage = shoot.measure(
      R"({"id": "pan", "file": "clips/pan.mov", "role": "camera", "content": ")" + *key + "\"}");
  ASSERT_TRUE(footage && footage->clips[0]);
  EXPECT_EQ(footage->moved.size(), 1U);
}

// A clip cut shorter after the decision: the check goes on, and the part is to be decided again.
TEST(MeasureFootage, AsksAgainWhereAClipIsAnotherNow) {
  Shoot shoot;
  const auto file = shoot.folder.path() / "clips/pan.mov";
  const auto before = content_key(file);
  ASSERT_TRUE(before);
  shoot.folder.film("clips/shorter.mov", 1000);
  fs::rename(shoot.folder.path() / "clips/shorter.mov", file);
  for (const bool told : {true, false}) {
    const std::string content = told ? ", \"content\": \"" + *before + "\"" : "";
    shoot.folder.write("p.json", R"({"panslate_project": 1, "recipe": "recipe.md", "media": [
{"id": "pan", "file": "clips/pan.mov", "role": "camera")" +
                                     content + R"(}],
"segments": [{"id": "s1", "clip": "pan", "in": "00:00:00.500", "out": "00:00:01.800", "step": "Rinse"},
{"id": "s2", "clip": "pan", "in": "00:00:01.900", "out": "00:00:02.000"}]})");
    auto project = load_project(real_file_system(), shoot.folder.path() / "p.json");
    ASSERT_TRUE(project);
    NoProgress progress;
    const auto footage = measure_footage(*project, progress);
    ASSERT_TRUE(footage);
    EXPECT_EQ(footage->mistakes.size(), told ? 0U : 2U);
    EXPECT_EQ(project->to_decide.size(), told ? 2U : 0U);
    EXPECT_EQ(project->segments[0].range.end, MediaTime::from_ms(told ? 1000 : 1800));
  }
}

TEST(MeasureFootage, TakesNoOtherClipForAMissingOne) {
  Shoot shoot;
  ASSERT_TRUE(shoot.measure(kPan));
  fs::remove(shoot.folder.path() / "clips/pan.mov");
  shoot.folder.film("clips/pan-2.mov", 2100);
  const auto footage = shoot.measure(kPan);
  ASSERT_TRUE(footage);
  EXPECT_FALSE(footage->clips[0]);
  EXPECT_EQ(footage->unusable.size(), 1U);
  EXPECT_TRUE(footage->moved.empty());
}

}  // namespace
}  // namespace panslate
