// The desk as a program: what it said to be saved is there, also where it is killed at any moment.
#include <atomic>
#include <chrono>
#include <csignal>
#include <string>
#include <thread>

#include <gmock/gmock.h>
#include <httplib.h>
#include <nlohmann/json.hpp>
#include <spawn.h>
#include <sys/wait.h>

#include "support/program_folder.h"

extern char** environ;

namespace panslate {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;

class DeskProgram : public testing::ProgramFolder {
 protected:
  void SetUp() override {
    ProgramFolder::SetUp();
    shell_ok("ffmpeg -v error -f lavfi -i testsrc2=s=320x180:r=25:d=20 -c:v mpeg4 -q:v 6 pan.avi");
    write("recipe.md",
          "# Pot\n\n## Ingredients\n\n- 200 g red lentils\n- 40 g sugar\n\n## Method\n\n1. Rinse the "
          "lentils.\n");
    write(
        "p.json",
        R"({"panslate_project": 1, "recipe": "recipe.md", "media": [{"id": "pan", "file": "pan.avi", "role": "camera"}]})");
  }
  void TearDown() override {
    if (desk_ > 0) end(SIGKILL);
    ProgramFolder::TearDown();
  }

  void open() {
    const auto told = folder_ / "told.txt";
    std::filesystem::remove(told);
    const auto command =
        "cd '" + folder_.string() + "' && exec '" PANSLATE_PROGRAM "' desk p.json > told.txt 2>&1";
    const char* words[] = {"sh", "-c", command.c_str(), nullptr};
    ASSERT_EQ(::posix_spawnp(&desk_, "sh", nullptr, nullptr, const_cast<char* const*>(words), environ), 0);
    std::string text;
    for (int i = 0; i < 1200 && text.find("saved at once") == std::string::npos; ++i) {
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
      text = read("told.txt");
    }
    const auto at = text.find("http://127.0.0.1:");
    ASSERT_NE(at, std::string::npos) << text;
    const auto address = text.substr(at + 7, text.find('\n', at) - at - 7);
    front_ = address.substr(address.find('/'));
    port_ = std::stoi(address.substr(address.find(':') + 1));
  }
  int end(int signal) {
    int status = 0;
    ::kill(desk_, signal);
    ::waitpid(desk_, &status, 0);
    desk_ = 0;
    return status;
  }
  [[nodiscard]] httplib::Client client() const {
    httplib::Client client("127.0.0.1", port_);
    client.set_read_timeout(60);
    return client;
  }
  httplib::Result post(httplib::Client& client, const std::string& route, const json& body) const {
    return client.Post(front_ + route, {{"Origin", "http://127.0.0.1:" + std::to_string(port_)}}, body.dump(),
                       "application/json");
  }

  pid_t desk_ = 0;
  int port_ = 0;
  std::string front_;
};

TEST_F(DeskProgram, KeepsEveryDecisionThatItSaidIsSaved) {
  int saved = 0;
  for (int round = 0; round < 3; ++round) {
    open();
    if (HasFatalFailure()) return;
    std::atomic<int> known{saved};
    std::thread marking([&] {
      auto hers = client();
      for (int i = 0; saved + i < 450; ++i) {
        const auto reply = post(hers, "part",
                                {{"id", ""},
                                 {"was", ""},
                                 {"clip", "pan"},
                                 {"in", 0.04 * (saved + i)},
                                 {"out", 0.04 * (saved + i) + 0.03},
                                 {"steps", json::array()},
                                 {"shows", json::array()},
                                 {"framing", ""},
                                 {"note", ""}});
        if (!reply || reply->status != 200) return;
        ++known;
      }
    });
    for (int i = 0; i < 10'000 && known < saved + 3; ++i)
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
    EXPECT_GE(known, saved + 3);
    std::this_thread::sleep_for(std::chrono::milliseconds(17 * round));
    end(SIGKILL);
    marking.join();
    const auto project = json::parse(read("p.json"), nullptr, false);
    ASSERT_TRUE(project.is_object()) << "torn: " << read("p.json");
    const auto parts = static_cast<int>(project.at("segments").size());
    // The last one may be saved without its answer having come through.
    EXPECT_GE(parts, known);
    EXPECT_LE(parts, known + 1);
    saved = parts;
  }
}

// A clip that no browser plays gets its copy once, by the worker, and Ctrl-C leaves none that is half.
TEST_F(DeskProgram, MakesTheCopyThatPlaysOnce) {
  shell_ok("ffmpeg -v error -y -f lavfi -i testsrc2=s=640x360:r=25:d=90 -c:v mpeg4 -q:v 6 pan.avi");
  const auto proxies = folder_ / ".panslate" / "proxies";
  const auto entries = [&] {
    return std::distance(std::filesystem::directory_iterator(proxies), std::filesystem::directory_iterator());
  };
  open();
  if (HasFatalFailure()) return;
  auto hers = client();
  const auto how_far = [&] { return json::parse(hers.Get(front_ + "proxy?clip=pan")->body); };
  EXPECT_EQ(how_far().at("is"), "none");
  ASSERT_EQ(post(hers, "proxy", {{"clip", "pan"}})->status, 200);
  while (how_far().at("is") == "waiting" || (how_far().at("is") == "making" && how_far().at("percent") < 1))
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  EXPECT_EQ(how_far().at("is"), "making");
  // Everything else answers meanwhile.
  EXPECT_EQ(hers.Get(front_ + "state")->status, 200);
  EXPECT_EQ(hers.Get(front_ + "still?clip=pan&ms=1000")->status, 200);
  const auto status = end(SIGINT);
  EXPECT_TRUE(WIFEXITED(status)) << status;
  EXPECT_EQ(entries(), 0) << "half a copy";

  write(
      "p.json",
      R"({"panslate_project": 1, "recipe": "recipe.md", "media": [{"id": "pan", "file": "pan.avi", "role": "camera"}]})");
  shell_ok("ffmpeg -v error -y -f lavfi -i testsrc2=s=320x180:r=25:d=2 -c:v mpeg4 -q:v 6 pan.avi");
  open();
  if (HasFatalFailure()) return;
  auto again = client();
  ASSERT_EQ(post(again, "proxy", {{"clip", "pan"}})->status, 200);
  const auto state = [&] {
    return json::parse(again.Get(front_ + "proxy?clip=pan")->body).at("is").get<std::string>();
  };
  for (int i = 0; i < 600 && state() != "ready" && state() != "failed"; ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  ASSERT_EQ(state(), "ready");
  EXPECT_EQ(entries(), 1);
  const auto copy = again.Get(front_ + "clip?id=pan&as=proxy");
  ASSERT_EQ(copy->status, 200);
  EXPECT_EQ(copy->body.substr(4, 4), "ftyp");
  EXPECT_EQ(end(SIGINT), 0);
}

TEST_F(DeskProgram, SharesWithNobodyUnasked) {
  open();
  if (HasFatalFailure()) return;
  EXPECT_THAT(read("told.txt"), HasSubstr("for this machine alone"));
  EXPECT_EQ(json::parse(client().Get(front_ + "phone")->body), nullptr);
  // No other address of this machine answers.
  EXPECT_FALSE(httplib::Client("127.0.0.2", port_).Get("/"));
}

}  // namespace
}  // namespace panslate
