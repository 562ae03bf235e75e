// The program from outside: exit statuses, what goes to which stream, closed pipes and Ctrl-C.
#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "support/shell.h"

namespace {

namespace fs = std::filesystem;

using panslate::testing::Ran;
using panslate::testing::shell;

class Program : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("panslate-program-" + std::to_string(::getpid()));
    fs::create_directories(folder_);
    std::ofstream(folder_ / "pot.md")
        << "# Pot\n\n## Ingredients\n\n- 250 g pearl barley\n- 2 leeks\n\n## Method\n\n"
           "1. Rinse the barley and slice the leeks.\n";
    std::ofstream(folder_ / "right.srt")
        << "1\n00:00:01,000 --> 00:00:05,000\nRinse two hundred and fifty grams of "
           "pearl barley and slice two leeks.\n";
    std::ofstream(folder_ / "wrong.srt")
        << "1\n00:00:01,000 --> 00:00:05,000\nRinse two hundred grams of pearl "
           "barley and slice two leeks.\n";
  }
  void TearDown() override { fs::remove_all(folder_); }

  [[nodiscard]] Ran panslate(const std::string& arguments) const {
    return shell("cd '" + folder_.string() + "' && '" PANSLATE_PROGRAM "' " + arguments);
  }

  fs::path folder_;
};

// Statuses by the contract of the check report.
TEST_F(Program, EndsWithTheStatusOfTheContract) {
  EXPECT_EQ(panslate("check --recipe pot.md --captions right.srt >/dev/null").status, 0);
  EXPECT_EQ(panslate("check --recipe pot.md --captions wrong.srt >/dev/null").status, 1);
  EXPECT_EQ(panslate("check --recipe pot.md --captions right.srt --video none.mp4 >/dev/null").status, 1);
  EXPECT_EQ(panslate("check 2>/dev/null").status, 2);
  EXPECT_EQ(panslate("chekc 2>/dev/null").status, 2);
  EXPECT_EQ(panslate("check --recipe none.md --captions right.srt 2>/dev/null").status, 3);
  EXPECT_EQ(panslate("check none.json 2>/dev/null").status, 3);
  EXPECT_EQ(panslate("--version >/dev/null").status, 0);
}

TEST_F(Program, JsonOutputHoldsTheReportAndNothingElse) {
  const auto ran = panslate("check --recipe pot.md --captions wrong.srt --json --out results");
  EXPECT_EQ(ran.status, 1);
  EXPECT_TRUE(ran.out.starts_with("{\n")) << ran.out.substr(0, 40);
  EXPECT_TRUE(ran.out.ends_with("\n}\n"));
  EXPECT_TRUE(fs::exists(folder_ / "results" / "report.html"));
}

// A copy of the program without its module for footage: words are checked, footage is refused with a reason.
TEST_F(Program, WithoutTheModuleForFootageOnlyWordsAreChecked) {
  fs::copy_file(PANSLATE_PROGRAM, folder_ / "panslate-alone");
  const auto alone = [&](const std::string& arguments) {
    return shell("cd '" + folder_.string() + "' && ./panslate-alone " + arguments);
  };
  EXPECT_EQ(alone("check --recipe pot.md --captions right.srt >/dev/null").status, 0);
  std::ofstream(folder_ / "clip.mp4") << "no film";
  const auto ran = alone("check --recipe pot.md --captions right.srt --video clip.mp4 --json");
  EXPECT_EQ(ran.status, 1);
  EXPECT_NE(ran.out.find("the part of panslate that reads footage cannot be loaded"), std::string::npos)
      << ran.out;
}

TEST_F(Program, ErrorsLeaveStandardOutputEmpty) {
  EXPECT_EQ(panslate("check --recipe none.md --captions right.srt --json 2>/dev/null").out, "");
  EXPECT_EQ(panslate("check --recipe none.md --captions right.srt 2>&1 >/dev/null").out,
            "none.md: error: there is no such file\n  hint: check the name and the folder\n");
}

TEST_F(Program, WithoutATerminalThereIsNoColourAndNoProgress) {
  const auto ran = panslate("check --recipe pot.md --captions wrong.srt --out results 2>&1");
  EXPECT_EQ(ran.out.find('\x1b'), std::string::npos);
  EXPECT_EQ(ran.out.find('\r'), std::string::npos);
}

TEST_F(Program, AClosedPipeIsQuiet) {
  const auto ran = panslate("check --recipe pot.md --captions wrong.srt 2>&1 >&- | cat");
  EXPECT_EQ(ran.out.find("internal error"), std::string::npos) << ran.out;
  EXPECT_EQ(panslate("plan pot.md 2>&1 | head -c 1 | wc -c").out.find_first_of("1"), 0U);
}

TEST_F(Program, NothingIsWrittenUnasked) {
  const auto count = [&] { return std::distance(fs::directory_iterator(folder_), fs::directory_iterator()); };
  const auto before = count();
  for (const auto* arguments : {"check --recipe pot.md --captions wrong.srt", "plan pot.md",
                                "overlay --recipe pot.md --captions wrong.srt"})
    (void)panslate(std::string(arguments) + " >/dev/null");
  EXPECT_EQ(count(), before);
}

TEST_F(Program, RunsTheSameTwice) {
  for (const auto* arguments : {"check --recipe pot.md --captions wrong.srt --json", "plan pot.md --json"})
    EXPECT_EQ(panslate(arguments).out, panslate(arguments).out);
}

}  // namespace
