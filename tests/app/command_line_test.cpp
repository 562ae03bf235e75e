// The whole program on a disk in memory: statuses, messages, and what is saved.
#include <sstream>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

#include "app/commands.h"
#include "support/fake_file_system.h"

namespace panslate::app {
namespace {

using panslate::testing::FakeFileSystem;

constexpr const char* kRecipe =
    "# Marsh Barley Pot\n\nServes 4\n\n## Ingredients\n\n- 250 g pearl barley\n- 2 leeks\n\n## Method\n\n"
    "1. Rinse the barley.\n2. Slice the leeks and simmer for 40 minutes.\n";
constexpr const char* kCaptions =
    "1\n00:00:01,000 --> 00:00:04,000\nRinse two hundred grams of pearl barley.\n\n"
    "2\n00:00:05,000 --> 00:00:09,000\nSlice two leeks and simmer for forty minutes. Serves four.\n";

struct Ran {
  ExitStatus status = ExitStatus::Ok;
  std::string out;
  std::string messages;
};

Ran run(std::vector<std::string> arguments, FakeFileSystem& disk) {
  std::ostringstream out, messages;
  ProgressLine progress(messages, 80, ProgressLine::Draw::No);
  Context context{disk, out, messages, {80, false}, progress, footage_in_this_process()};
  Ran ran;
  ran.status = run_command_line(std::move(arguments), context);
  ran.out = out.str();
  ran.messages = messages.str();
  return ran;
}

Ran run(std::vector<std::string> arguments) {
  FakeFileSystem disk;
  disk.add("pot.md", kRecipe).add("pot.srt", kCaptions);
  return run(std::move(arguments), disk);
}

struct StatusCase {
  std::vector<std::string> arguments;
  ExitStatus status;
  std::string message;  ///< the whole of what is said about it
};

class Statuses : public ::testing::TestWithParam<StatusCase> {};

TEST_P(Statuses, AndMessages) {
  const auto ran = run(GetParam().arguments);
  EXPECT_EQ(ran.status, GetParam().status);
  EXPECT_EQ(ran.messages, GetParam().message);
  EXPECT_EQ(ran.out, "");
}

INSTANTIATE_TEST_SUITE_P(
    WrongUsage, Statuses,
    ::testing::Values(
        StatusCase{{"check"},
                   ExitStatus::Usage,
                   "error: nothing to look at was named\n  hint: give a project file, or --recipe FILE and "
                   "--captions FILE\n"},
        StatusCase{{"check", "a.json", "--recipe", "pot.md"},
                   ExitStatus::Usage,
                   "error: a project names its recipe and captions itself\n"
                   "  hint: give either the project file or --recipe and --captions, not both\n"},
        StatusCase{{"check", "--recipe", "pot.md"},
                   ExitStatus::Usage,
                   "error: the captions are not named\n"
                   "  hint: add --captions FILE (SubRip, WebVTT, or text with [m:ss] marks)\n"},
        StatusCase{{"overlay", "--captions", "pot.srt"},
                   ExitStatus::Usage,
                   "error: the written recipe is not named\n  hint: add --recipe FILE\n"},
        StatusCase{{"check", "--wrong"},
                   ExitStatus::Usage,
                   "error: The following argument was not expected: --wrong\n"
                   "  hint: panslate check --help shows how it is used\n"},
        StatusCase{{"read"}, ExitStatus::Usage, "error: no recipe was named\n  hint: panslate read RECIPE\n"},
        StatusCase{{"read", "pot.md", "--serves", "many"},
                   ExitStatus::Usage,
                   "error: 'many' is no number of servings\n  hint: give a number such as --serves 6\n"},
        StatusCase{{"read", "pot.md", "--serves", "0"},
                   ExitStatus::Usage,
                   "error: '0' is no number of servings\n  hint: give a number such as --serves 6\n"},
        StatusCase{{"plan"},
                   ExitStatus::Usage,
                   "error: nothing to plan was named\n  hint: give a project file or a written recipe\n"},
        StatusCase{{"new", "dir"},
                   ExitStatus::Usage,
                   "error: the written recipe is not named\n  hint: add --recipe FILE\n"},
        StatusCase{{"new", "dir", "--out", "dir", "--recipe", "pot.md"},
                   ExitStatus::Usage,
                   "error: one folder is needed for the project\n  hint: panslate new DIR --recipe FILE\n"}));

INSTANTIATE_TEST_SUITE_P(
    Unreadable, Statuses,
    ::testing::Values(
        StatusCase{{"check", "--recipe", "none.md", "--captions", "pot.srt"},
                   ExitStatus::Failed,
                   "none.md: error: there is no such file\n  hint: check the name and the folder\n"},
        StatusCase{{"check", "--recipe", "pot.md", "--captions", "none.srt", "--json"},
                   ExitStatus::Failed,
                   "none.srt: error: there is no such file\n  hint: check the name and the folder\n"},
        StatusCase{{"check", "--recipe", "pot.md", "--captions", "pot.srt", "--text", "none.srt"},
                   ExitStatus::Failed,
                   "none.srt: error: there is no such file\n  hint: check the name and the folder\n"},
        StatusCase{{"read", "none.md"},
                   ExitStatus::Failed,
                   "none.md: error: there is no such file\n  hint: check the name and the folder\n"},
        StatusCase{{"read", "pot.md", "--limits", "none.csv"},
                   ExitStatus::Failed,
                   "none.csv: error: there is no such file\n  hint: check the name and the folder\n"},
        StatusCase{{"read", "pot.md", "--limits", "pot.srt"},
                   ExitStatus::Failed,
                   "pot.srt:1: error: this is no table of limits\n"
                   "  1\n"
                   "  hint: the first line must read: food,amount per serving,note,source,checked on\n"},
        StatusCase{{"plan", "none.md"},
                   ExitStatus::Failed,
                   "none.md: error: there is no such file\n  hint: check the name and the folder\n"}));

TEST(Program, WithoutAVerbShowsItsHelpAsWrongUsage) {
  const auto ran = run({});
  EXPECT_EQ(ran.status, ExitStatus::Usage);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.messages.find("check"), std::string::npos);
}

TEST(Program, HelpFitsAScreen) {
  for (const auto& arguments : std::vector<std::vector<std::string>>{{"--help"},
                                                                     {"new", "--help"},
                                                                     {"check", "--help"},
                                                                     {"read", "--help"},
                                                                     {"plan", "--help"},
                                                                     {"overlay", "--help"},
                                                                     {"desk", "--help"}}) {
    const auto ran = run(arguments);
    EXPECT_EQ(ran.status, ExitStatus::Ok);
    const auto lines = split_lines(ran.out);
    EXPECT_LE(lines.size(), 24U) << ran.out;
    for (const auto& line : lines) EXPECT_LE(character_count(line.text), 80U) << line.text;
  }
}

TEST(Program, TellsItsVersion) {
  EXPECT_TRUE(run({"--version"}).out.starts_with("panslate 0."));
}

TEST(Check, SomethingToAttendToIsStatusOne) {
  const auto ran = run({"check", "--recipe", "pot.md", "--captions", "pot.srt"});
  EXPECT_EQ(ran.status, ExitStatus::Attention);
  EXPECT_NE(ran.out.find("said differently: 200\u00A0g"), std::string::npos) << ran.out;
  EXPECT_EQ(ran.messages, "");
}

TEST(Check, JsonIsAllThatIsPrinted) {
  const auto ran = run({"check", "--recipe", "pot.md", "--captions", "pot.srt", "--json"});
  EXPECT_EQ(ran.status, ExitStatus::Attention);
  EXPECT_TRUE(ran.out.starts_with("{\n  \"panslate_report\": 2,"));
  EXPECT_TRUE(ran.out.ends_with("\n}\n"));
  EXPECT_EQ(ran.messages, "");
}

TEST(Check, QuietPrintsNothing) {
  const auto ran = run({"check", "--recipe", "pot.md", "--captions", "pot.srt", "--quiet"});
  EXPECT_EQ(ran.status, ExitStatus::Attention);
  EXPECT_EQ(ran.out + ran.messages, "");
}

TEST(Check, AMissingVideoIsAWarningNotAFailure) {
  const auto ran =
      run({"check", "--recipe", "pot.md", "--captions", "pot.srt", "--video", "/nowhere/pot.mp4"});
  EXPECT_EQ(ran.status, ExitStatus::Attention);
  EXPECT_NE(ran.out.find("/nowhere/pot.mp4"), std::string::npos);
}

TEST(Check, WritesOnlyWhereOutSays) {
  FakeFileSystem disk;
  disk.add("pot.md", kRecipe).add("pot.srt", kCaptions);
  const auto before = disk.files().size();
  (void)run({"check", "--recipe", "pot.md", "--captions", "pot.srt"}, disk);
  EXPECT_EQ(disk.files().size(), before);
  const auto ran = run({"check", "--recipe", "pot.md", "--captions", "pot.srt", "--out", "results"}, disk);
  EXPECT_EQ(ran.status, ExitStatus::Attention);
  EXPECT_EQ(ran.messages, "saved results/report.html\nsaved results/pickups.csv\n");
  EXPECT_TRUE(disk.files().at("results/report.html").starts_with("<!DOCTYPE html>"));
}

constexpr const char* kMisheard =
    "1\r\n00:00:01,000 --> 00:00:04,000\r\nRinse two hundred and fifty grams of pearl bar\r\nley "
    "well.\r\n\r\n"
    "2\r\n00:00:05,000 --> 00:00:09,000\r\nSlice <i>two leaks</i> and simmer for forty minutes. Serves "
    "four.\r\n";
constexpr const char* kPutRight =
    "1\r\n00:00:01,000 --> 00:00:04,000\r\nRinse two hundred and fifty grams of pearl barley\r\nwell.\r\n\r\n"
    "2\r\n00:00:05,000 --> 00:00:09,000\r\nSlice <i>two leeks</i> and simmer for forty minutes. Serves "
    "four.\r\n";

TEST(Check, PutsMisheardCaptionsRightInAnotherFile) {
  FakeFileSystem disk;
  disk.add("pot.md", kRecipe).add("pot.srt", kMisheard);
  const std::vector<std::string> base{"check", "--recipe", "pot.md", "--captions", "pot.srt"};
  auto plain = run(base, disk);
  EXPECT_EQ(plain.status, ExitStatus::Ok);
  EXPECT_NE(plain.out.find("Words the captions misheard (2)\n\n"
                           "  0:02        \"pearl bar ley\", meant: pearl barley\n"
                           "  0:05        \"leaks\", meant: leeks\n"),
            std::string::npos)
      << plain.out;
  EXPECT_EQ(disk.files().size(), 2U) << "nothing is changed unless asked";

  auto with = base;
  with.insert(with.end(), {"--corrected", "new.srt"});
  auto ran = run(with, disk);
  EXPECT_EQ(ran.status, ExitStatus::Ok);
  EXPECT_EQ(ran.messages, "saved new.srt, with 2 words put right\n");
  EXPECT_EQ(disk.files().at("new.srt"), kPutRight);
  EXPECT_EQ(disk.files().at("pot.srt"), kMisheard);
  EXPECT_EQ(run(with, disk).status, ExitStatus::Ok) << "the same once more changes nothing";

  disk.add("hers.srt", "hers");
  with.back() = "hers.srt";
  ran = run(with, disk);
  EXPECT_EQ(ran.status, ExitStatus::Failed);
  EXPECT_EQ(ran.messages,
            "hers.srt: error: this file is there already, and may have been changed since\n"
            "  hint: add --overwrite to replace it, or choose another name with --corrected\n");
  EXPECT_EQ(disk.files().at("hers.srt"), "hers");
  auto with_page = with;
  with_page.insert(with_page.end(), {"--out", "results"});
  EXPECT_EQ(run(with_page, disk).status, ExitStatus::Failed);
  EXPECT_FALSE(disk.files().contains("results/report.html")) << "refused before anything is written";
  with.back() = "pot.srt";
  ran = run(with, disk);
  EXPECT_EQ(ran.status, ExitStatus::Failed);
  EXPECT_EQ(ran.messages,
            "pot.srt: error: these are the captions that were read\n"
            "  hint: choose another name with --corrected, or add --overwrite to replace them\n");
  EXPECT_EQ(disk.files().at("pot.srt"), kMisheard);
  with.emplace_back("--overwrite");
  EXPECT_EQ(run(with, disk).status, ExitStatus::Ok);
  EXPECT_EQ(disk.files().at("pot.srt"), kPutRight);
  EXPECT_EQ(run(with, disk).messages, "saved pot.srt, with every word as it was\n");
}

// Each writing call fails in turn: the captions are whole at every point.
TEST(Check, LosesNoCaptionsWhenTheDiskFails) {
  int failed = 0;
  for (int n = 1; n < 20; ++n) {
    FakeFileSystem disk;
    disk.add("pot.md", kRecipe).add("pot.srt", kMisheard);
    disk.fail_write_call(n);
    const auto ran =
        run({"check", "--recipe", "pot.md", "--captions", "pot.srt", "--corrected", "pot.srt", "--overwrite"},
            disk);
    const auto& now = disk.files().at("pot.srt");
    if (ran.status == ExitStatus::Ok) {
      EXPECT_EQ(now, kPutRight);
      break;
    }
    EXPECT_EQ(now, kMisheard);
    ++failed;
  }
  EXPECT_GE(failed, 2);
}

TEST(Overlay, ReplacesOnlyWhenAsked) {
  FakeFileSystem disk;
  disk.add("pot.md", kRecipe).add("pot.srt", kCaptions).add("results/overlay.vtt", "hers");
  const std::vector<std::string> base{"overlay", "--recipe", "pot.md", "--captions",
                                      "pot.srt", "--out",    "results"};
  auto ran = run(base, disk);
  EXPECT_EQ(ran.status, ExitStatus::Failed);
  EXPECT_EQ(ran.messages,
            "results/overlay.vtt: error: this file is there already, and may have been changed since\n"
            "  hint: add --overwrite to replace it, or choose another folder with --out\n");
  EXPECT_EQ(disk.files().at("results/overlay.vtt"), "hers");
  auto with = base;
  with.emplace_back("--overwrite");
  ran = run(with, disk);
  EXPECT_EQ(ran.status, ExitStatus::Ok);
  EXPECT_TRUE(disk.files().at("results/overlay.vtt").starts_with("WEBVTT"));
  EXPECT_EQ(run(base, disk).status, ExitStatus::Ok) << "the same once more changes nothing";
}

TEST(Read, ACleanRecipeIsStatusZero) {
  const auto ran = run({"read", "pot.md"});
  EXPECT_EQ(ran.status, ExitStatus::Ok) << ran.out;
  EXPECT_NE(ran.out.find("Nothing to put right"), std::string::npos);
  EXPECT_NE(ran.out.find("cereals containing gluten (EU): pearl barley (line 7)"), std::string::npos)
      << ran.out;
}

TEST(Read, TellsFaultsAndWritesOnlyWhereOutSays) {
  FakeFileSystem disk;
  disk.add("pot.md", std::string(kRecipe) + "3. Stir in the okra.\n").add("results/reading.json", "hers");
  auto ran = run({"read", "pot.md", "--json"}, disk);
  EXPECT_EQ(ran.status, ExitStatus::Attention);
  EXPECT_TRUE(ran.out.starts_with("{\n  \"panslate_reading\": 1,"));
  EXPECT_EQ(ran.messages, "");
  EXPECT_EQ(disk.files().size(), 2U);
  ran = run({"read", "pot.md", "--out", "results"}, disk);
  EXPECT_EQ(ran.status, ExitStatus::Failed);
  EXPECT_EQ(disk.files().at("results/reading.json"), "hers");
  EXPECT_FALSE(disk.files().contains("results/reading.html")) << "refused before anything is written";
  ran = run({"read", "pot.md", "--out", "other"}, disk);
  EXPECT_EQ(ran.status, ExitStatus::Attention);
  EXPECT_EQ(ran.messages, "saved other/reading.html\nsaved other/reading.json\n");
  EXPECT_EQ(run({"read", "pot.md", "--serves", "6", "--out", "other"}, disk).status, ExitStatus::Attention)
      << "its own results are renewed";
}

TEST(Read, WritesForOtherServings) {
  const auto ran = run({"read", "pot.md", "--serves", "6"});
  EXPECT_NE(ran.out.find("375 g pearl barley"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("3 leeks"), std::string::npos) << ran.out;
}

TEST(Plan, WorksFromARecipeAlone) {
  FakeFileSystem disk;
  disk.add("pot.md", kRecipe);
  const auto ran = run({"plan", "pot.md", "--out", "results", "--quiet"}, disk);
  EXPECT_EQ(ran.status, ExitStatus::Ok);
  for (const auto* name : {"results/shot-list.html", "results/shot-list.csv", "results/shot-list.txt"})
    EXPECT_TRUE(disk.files().contains(name)) << name;
  EXPECT_TRUE(run({"plan", "pot.md", "--json"}, disk).out.starts_with("{\n  \"panslate_plan\": 1,"));
}

// Each kind of failure has its status, by the contract of the check report; 70 is EX_SOFTWARE of sysexits.h.
TEST(ExitStatus, OfEveryKindOfFailure) {
  const std::vector<std::pair<ErrorCode, int>> table{
      {ErrorCode::Usage, 2},     {ErrorCode::NotFound, 3},    {ErrorCode::Unreadable, 3},
      {ErrorCode::Malformed, 3}, {ErrorCode::NotMedia, 3},    {ErrorCode::WriteFailed, 3},
      {ErrorCode::Exists, 3},    {ErrorCode::Cancelled, 130}, {ErrorCode::Internal, 70}};
  for (const auto& [code, status] : table) EXPECT_EQ(static_cast<int>(exit_status_of(code)), status);
}

}  // namespace
}  // namespace panslate::app
