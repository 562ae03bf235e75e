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
    EXPECT_TRUE(lock_desk(folder.path() / "other.json"));
  }
  EXPECT_EQ(testing::shell(tried).status, 0);
  EXPECT_TRUE(lock_desk(project));
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
