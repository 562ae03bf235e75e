// What comes of a copy whose clip is replaced while it waits or is made, and of one that found no room.
#include "app/proxies.h"

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <thread>

#include <gtest/gtest.h>
#include <unistd.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/content_key.h"

namespace panslate::app {
namespace {

namespace fs = std::filesystem;
using State = DeskProxy::State;

class CopiesOfAClip : public ::testing::Test {
 protected:
  CopiesOfAClip() {
    fs::create_directories(folder_ / "copies");
    film("clip.mkv", "testsrc2=s=640x360:r=25:d=20");
    facts_.file = folder_ / "clip.mkv";
    facts_.duration = MediaTime::from_seconds(20);
    content_ = content_key(facts_.file).value_or("");
  }
  ~CopiesOfAClip() override { fs::remove_all(folder_); }

  void film(const std::string& name, const std::string& picture) const {
    const auto command = "ffmpeg -v error -y -f lavfi -i " + picture + " -c:v mpeg4 -q:v 6 '" +
                         (folder_ / name).string() + "'";
    ASSERT_EQ(std::system(command.c_str()), 0);  // NOLINT(cert-env33-c,concurrency-mt-unsafe): a test's own
  }
  DeskProxy ended(const fs::path& out, const std::string& content) {
    auto now = proxies_.look(out, content, facts_, true);
    while (now.state == State::Waiting || now.state == State::Making) {
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
      now = proxies_.look(out, content, facts_, false);
    }
    return now;
  }

  fs::path folder_ = fs::temp_directory_path() / ("panslate-proxies-" + std::to_string(::getpid()));
  fs::path out_ = folder_ / "copies" / "copy.mp4";
  ClipFacts facts_;
  std::string content_;
  Proxies proxies_{footage_in_this_process()};
};

TEST_F(CopiesOfAClip, IsNotMadeOfAnotherClip) {
  const auto another = ended(out_, "what was there before");
  EXPECT_EQ(another.state, State::None);
  EXPECT_NE(another.why, "");
  EXPECT_FALSE(fs::exists(out_));
  EXPECT_EQ(ended(out_, content_).state, State::Ready);
}

TEST_F(CopiesOfAClip, GoesWhereTheClipIsReplacedMeanwhile) {
  film("other.mkv", "color=red:s=640x360:r=25:d=20");
  auto now = proxies_.look(out_, content_, facts_, true);
  while (now.state == State::Waiting || (now.state == State::Making && now.percent == 0)) {
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
    now = proxies_.look(out_, content_, facts_, false);
  }
  ASSERT_EQ(now.state, State::Making);
  fs::rename(folder_ / "other.mkv", facts_.file);
  EXPECT_EQ(ended(out_, content_).state, State::None);
  EXPECT_TRUE(fs::is_empty(folder_ / "copies"));
}

// A folder that is not there stands for a disk without room.
TEST_F(CopiesOfAClip, IsTriedAgainWhereItCouldNotBeWritten) {
  const auto out = folder_ / "later" / "copy.mp4";
  const auto failed = ended(out, content_);
  EXPECT_EQ(failed.state, State::Failed);
  EXPECT_NE(failed.why.find("write"), std::string::npos) << failed.why;
  fs::create_directories(out.parent_path());
  EXPECT_EQ(ended(out, content_).state, State::Ready);
}

}  // namespace
}  // namespace panslate::app
