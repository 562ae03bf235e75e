// One desk at a time: judged by another process, and by flock(1) of util-linux.
#include "panslate/desk/desk_lock.h"

#include <gtest/gtest.h>

#include "desk/desk_folder.h"
#include "support/shell.h"

namespace panslate {
namespace {

TEST(DeskLock, IsHeldByOneDeskAtATime) {
  testing::DeskFolder folder;
  const auto project = folder.path() / "project.json";
  const auto lock_file = folder.path() / ".panslate" / "project-desk.lock";
  const auto tried = "flock --nonblock '" + lock_file.string() + "' true";
  {
    const auto first = lock_desk(project);
    ASSERT_TRUE(first);
    EXPECT_GE(first->get(), 0);
    const auto second = lock_desk(project);
    ASSERT_FALSE(second);
    EXPECT_EQ(second.error().code, ErrorCode::Exists);
    EXPECT_EQ(second.error().message, "this project is open at a desk already");
    EXPECT_EQ(testing::shell(tried).status, 1) << "flock(1): 1 where the lock is held";
    // Another project in the same folder is another's business.
    folder.write("other.json", "{}");
    const auto other = lock_desk(folder.path() / "other.json");
    ASSERT_TRUE(other);
    EXPECT_GE(other->get(), 0);
  }
  EXPECT_EQ(testing::shell(tried).status, 0);
  const auto again = lock_desk(project);
  ASSERT_TRUE(again);
  EXPECT_GE(again->get(), 0);
}

// By whatever name it is opened, it is one project.
TEST(DeskLock, IsOneForAProjectAndALinkToIt) {
  testing::DeskFolder folder;
  const auto link = folder.path() / "elsewhere" / "link.json";
  std::filesystem::create_directories(link.parent_path());
  std::filesystem::create_symlink(folder.path() / "project.json", link);
  const auto first = lock_desk(folder.path() / "project.json");
  ASSERT_TRUE(first);
  const auto second = lock_desk(link);
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error().code, ErrorCode::Exists);
}

TEST(DeskLock, MakesNothingWhereThereIsNoProject) {
  testing::DeskFolder folder;
  const auto none = lock_desk(folder.path() / "nowhere" / "project.json");
  ASSERT_TRUE(none);
  EXPECT_LT(none->get(), 0);
  EXPECT_FALSE(std::filesystem::exists(folder.path() / "nowhere"));
}

}  // namespace
}  // namespace panslate
