#include "panslate/deliver/output_folder.h"

#include <gtest/gtest.h>

#include "support/fake_file_system.h"

namespace panslate {
namespace {

using testing::FakeFileSystem;

const std::vector<OutputFile> kTwo{{"a.srt", "one", {}}, {"b.vtt", "two", {}}};

TEST(OutputFolder, MakesTheFolderAndSavesAll) {
  FakeFileSystem disk;
  ASSERT_TRUE(save_outputs(disk, "out", kTwo, Replace::Never));
  EXPECT_EQ(disk.files().at("out/a.srt"), "one");
  EXPECT_EQ(disk.files().at("out/b.vtt"), "two");
}

TEST(OutputFolder, WritesNothingWhenOneFileMightBeTheUsers) {
  FakeFileSystem disk;
  disk.add("out/b.vtt", "her own");
  const auto saved = save_outputs(disk, "out", kTwo, Replace::Never);
  ASSERT_FALSE(saved);
  EXPECT_EQ(saved.error().code, ErrorCode::Exists);
  EXPECT_EQ(render(saved.error()),
            "out/b.vtt: error: this file is there already, and may have been changed since\n"
            "  hint: add --overwrite to replace it, or choose another folder with --out");
  EXPECT_EQ(disk.files().at("out/b.vtt"), "her own");
  EXPECT_FALSE(disk.files().contains("out/a.srt"));
}

TEST(OutputFolder, ReplacesWhenAsked) {
  FakeFileSystem disk;
  disk.add("out/b.vtt", "older");
  ASSERT_TRUE(save_outputs(disk, "out", kTwo, Replace::WhenAsked));
  EXPECT_EQ(disk.files().at("out/b.vtt"), "two");
}

TEST(OutputFolder, LeavesAFileOfTheSameBytesAlone) {
  FakeFileSystem disk;
  disk.add("out/a.srt", "one").add("out/b.vtt", "two");
  const auto calls = disk.calls().size();
  ASSERT_TRUE(save_outputs(disk, "out", kTwo, Replace::Never));
  for (auto i = calls; i < disk.calls().size(); ++i)
    EXPECT_FALSE(disk.calls()[i].starts_with("write")) << disk.calls()[i];
}

TEST(OutputFolder, RenewsItsOwnPageButNoOther) {
  const std::vector<OutputFile> page{{"report.html", std::string(kPageMark) + "new", std::string(kPageMark)}};
  FakeFileSystem disk;
  disk.add("out/report.html", std::string(kPageMark) + "old");
  ASSERT_TRUE(save_outputs(disk, "out", page, Replace::Never));
  EXPECT_EQ(disk.files().at("out/report.html"), std::string(kPageMark) + "new");

  FakeFileSystem other;
  other.add("out/report.html", "<p>my own page</p>");
  const auto saved = save_outputs(other, "out", page, Replace::WhenAsked);
  ASSERT_FALSE(saved);
  EXPECT_EQ(render(saved.error()),
            "out/report.html: error: this file was not made by panslate, so it is not replaced\n"
            "  hint: move it away, or choose another folder with --out");
  EXPECT_EQ(other.files().at("out/report.html"), "<p>my own page</p>");
}

TEST(OutputFolder, AFileInTheWayIsToldAsSuch) {
  FakeFileSystem disk;
  disk.add("out", "a file");
  const auto saved = save_outputs(disk, "out", kTwo, Replace::Never);
  ASSERT_FALSE(saved);
  EXPECT_EQ(saved.error().message, "this is a file, a folder is needed");
}

TEST(OutputFolder, AFailingDiskLeavesWhatWasThere) {
  for (int n = 1; n < 20; ++n) {
    FakeFileSystem disk;
    disk.add("out/a.srt", "older a").add("out/b.vtt", "older b");
    disk.fail_write_call(n);
    if (save_outputs(disk, "out", kTwo, Replace::WhenAsked)) {
      EXPECT_GT(n, 4);  // two writes and two renames at least were tried
      return;
    }
    for (const auto& [file, bytes] : disk.files())
      EXPECT_TRUE(bytes == "older a" || bytes == "older b" || bytes == "one" || bytes == "two")
          << file << ": " << bytes;
    EXPECT_EQ(disk.files().size(), 2U) << "a temporary file was left";
  }
  FAIL() << "never succeeded";
}

TEST(OutputFolder, SeesFilesFromWhereItWillBe) {
  struct Case {
    const char *folder, *file, *seen;
  };
  for (const auto& [folder, file, seen] :
       {Case{"not-there-yet", "footage/a.mp4", "../footage/a.mp4"},
        Case{"", "footage/a.mp4", "footage/a.mp4"}, Case{"footage/out", "footage/a.mp4", "../a.mp4"},
        Case{"/nowhere/out", "/nowhere/a b.mp4", "../a b.mp4"},
        Case{"/nowhere/out", "/nowhere/out/a.mp4", "a.mp4"}})
    EXPECT_EQ(path_seen_from(folder, file), seen) << folder;
}

}  // namespace
}  // namespace panslate
