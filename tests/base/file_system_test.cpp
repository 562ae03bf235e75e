#include "panslate/base/file_system.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include "support/fake_file_system.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

// A folder of its own for each test, gone afterwards.
class RealDisk : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::temp_directory_path() /
              ("panslate-base-" + std::string(test->name()) + "-" + std::to_string(::getpid()));
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> found;
    for (const auto& entry : fs::directory_iterator(folder_))
      found.push_back(entry.path().filename().string());
    return found;
  }

  FileSystem& disk_ = real_file_system();
  fs::path folder_;
};

TEST_F(RealDisk, SavesANewFileAndReplacesAnOldOne) {
  const auto file = folder_ / "dinner.json";
  ASSERT_TRUE(save_atomically(disk_, file, "one"));
  EXPECT_EQ(disk_.read(file, 100).value(), "one");
  ASSERT_TRUE(save_atomically(disk_, file, std::string("tw\0", 3)));
  EXPECT_EQ(disk_.read(file, 100).value(), std::string("tw\0", 3));
  ASSERT_TRUE(save_atomically(disk_, file, ""));
  EXPECT_EQ(disk_.read(file, 100).value(), "");
  EXPECT_THAT(names(), ::testing::ElementsAre("dinner.json")) << "no temporary file stays";
}

TEST_F(RealDisk, AFailedSaveLeavesEverythingAsItWas) {
  const auto target = folder_ / "kept";
  fs::create_directories(target / "inside");  // a folder that is not empty cannot be replaced by a file
  const auto status = save_atomically(disk_, target, "new");
  ASSERT_FALSE(status);
  EXPECT_EQ(render(status.error()), target.string() + ": error: cannot be saved: Is a directory");
  EXPECT_TRUE(fs::is_directory(target / "inside"));
  EXPECT_THAT(names(), ::testing::ElementsAre("kept"));
}

TEST_F(RealDisk, SavingIntoAFolderThatIsNotThereSaysSo) {
  const auto target = folder_ / "away" / "dinner.json";
  const auto status = save_atomically(disk_, target, "new");
  ASSERT_FALSE(status);
  EXPECT_EQ(status.error().code, ErrorCode::WriteFailed);
  EXPECT_EQ(render(status.error()),
            target.string() +
                ": error: cannot be written: No such file or directory\n"
                "  hint: check the free space and whether you may write in this folder");
  EXPECT_THAT(names(), ::testing::IsEmpty());
}

TEST_F(RealDisk, TwoWhoSaveAtOnceLeaveOneWholeFile) {
  const auto file = folder_ / "dinner.json";
  const std::string first(200'000, 'a');
  const std::string second(200'000, 'b');
  const auto save_often = [&](const std::string& bytes) {
    for (int i = 0; i < 5; ++i) EXPECT_TRUE(save_atomically(disk_, file, bytes));
  };
  std::thread other(save_often, first);
  save_often(second);
  other.join();
  const auto bytes = disk_.read(file, 1'000'000).value();
  EXPECT_TRUE(bytes == first || bytes == second);
  EXPECT_THAT(names(), ::testing::ElementsAre("dinner.json"));
}

TEST_F(RealDisk, WritesOnlyFilesThatAreNotThereYet) {
  const auto file = folder_ / "a.txt";
  ASSERT_TRUE(disk_.write_and_sync(file, "mine"));
  const auto again = disk_.write_and_sync(file, "other");
  ASSERT_FALSE(again);
  EXPECT_EQ(render(again.error()),
            file.string() +
                ": error: cannot be written: File exists\n"
                "  hint: check the free space and whether you may write in this folder");
  EXPECT_EQ(disk_.read(file, 100).value(), "mine");
}

TEST_F(RealDisk, TellsWhyAFileCannotBeRead) {
  const auto missing = disk_.read(folder_ / "no.md", 100);
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().code, ErrorCode::NotFound);
  EXPECT_EQ(render(missing.error()), (folder_ / "no.md").string() +
                                         ": error: there is no such file\n"
                                         "  hint: check the name and the folder");
  const auto folder = disk_.read(folder_, 100);
  ASSERT_FALSE(folder);
  EXPECT_EQ(folder.error().code, ErrorCode::Unreadable);
  EXPECT_EQ(render(folder.error()), folder_.string() + ": error: this is a folder, a file is needed");
}

TEST_F(RealDisk, RefusesAFileBeyondTheLimitByName) {
  constexpr std::uintmax_t kLimit = std::uintmax_t{1024} * 1024;
  const auto file = folder_ / "large.md";
  ASSERT_TRUE(disk_.write_and_sync(file, std::string(kLimit, 'x')));
  EXPECT_EQ(disk_.read(file, kLimit).value().size(), kLimit) << "the limit itself still fits";
  const auto larger = disk_.read(file, kLimit - 1);
  ASSERT_FALSE(larger);
  EXPECT_EQ(larger.error().code, ErrorCode::Unreadable);
  const auto next = folder_ / "larger.md";
  ASSERT_TRUE(disk_.write_and_sync(next, std::string(kLimit + 1, 'x')));
  EXPECT_EQ(render(disk_.read(next, kLimit).error()),
            next.string() + ": error: larger than 1 MB, so not read");
}

TEST_F(RealDisk, ReadsTextThroughTheUtf8Edge) {
  const auto file = folder_ / "a.md";
  ASSERT_TRUE(disk_.write_and_sync(file, "\xEF\xBB\xBF\xBDleek"));
  EXPECT_EQ(read_text(disk_, file).value(), "\xEF\xBF\xBDleek");
  EXPECT_FALSE(read_text(disk_, folder_ / "no.md"));
}

TEST_F(RealDisk, ListsTheFilesOfAFolderByName) {
  for (const auto* name : {"b.mp4", "a.mp4"}) ASSERT_TRUE(disk_.write_and_sync(folder_ / name, ""));
  ASSERT_TRUE(disk_.create_directories(folder_ / "deep" / "er"));
  EXPECT_THAT(disk_.list(folder_).value(), ::testing::ElementsAre(folder_ / "a.mp4", folder_ / "b.mp4"));
  EXPECT_TRUE(disk_.is_directory(folder_ / "deep"));
  EXPECT_FALSE(disk_.is_directory(folder_ / "a.mp4"));
  EXPECT_TRUE(disk_.exists(folder_ / "a.mp4"));
  EXPECT_FALSE(disk_.exists(folder_ / "c.mp4"));

  const auto missing = disk_.list(folder_ / "no");
  ASSERT_FALSE(missing);
  EXPECT_EQ(render(missing.error()),
            (folder_ / "no").string() + ": error: the folder cannot be read: No such file or directory");
  EXPECT_EQ(missing.error().code, ErrorCode::NotFound);
  const auto no_folder = disk_.list(folder_ / "a.mp4");
  ASSERT_FALSE(no_folder);
  EXPECT_EQ(no_folder.error().code, ErrorCode::Unreadable);
}

TEST_F(RealDisk, AFolderCannotBeMadeWhereAFileIs) {
  ASSERT_TRUE(disk_.write_and_sync(folder_ / "a", ""));
  const auto status = disk_.create_directories(folder_ / "a" / "b");
  ASSERT_FALSE(status);
  EXPECT_EQ(render(status.error()),
            (folder_ / "a" / "b").string() + ": error: the folder cannot be made: Not a directory");
}

TEST_F(RealDisk, RemovingWhatIsNotThereIsNothing) {
  disk_.remove(folder_ / "no");
  ASSERT_TRUE(disk_.write_and_sync(folder_ / "a", ""));
  disk_.remove(folder_ / "a");
  EXPECT_THAT(names(), ::testing::IsEmpty());
}

// Saving makes two calls that change the disk: the temporary file, and the renaming of it.
TEST(FailingDisk, EachCallFailedInTurnLeavesTheOldFileIntact) {
  using panslate::testing::FakeFileSystem;
  const std::string reasons[] = {"cannot be written: No space left on device",
                                 "cannot be saved: Input/output error"};
  for (int n = 1; n <= 3; ++n) {
    FakeFileSystem disk;
    disk.add("film/dinner.json", "old");
    disk.fail_write_call(n);
    const auto status = save_atomically(disk, "film/dinner.json", "new");
    if (n == 3) {
      EXPECT_TRUE(status) << "there is no third call";
      EXPECT_EQ(disk.files().at("film/dinner.json"), "new");
    } else {
      ASSERT_FALSE(status) << n;
      EXPECT_EQ(status.error().code, ErrorCode::WriteFailed);
      EXPECT_EQ(render(status.error()), "film/dinner.json: error: " + reasons[n - 1]);
      EXPECT_EQ(disk.files().at("film/dinner.json"), "old");
    }
    EXPECT_EQ(disk.files().size(), 1U) << "no temporary file stays";
  }
}

}  // namespace
}  // namespace panslate
