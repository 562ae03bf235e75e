// `panslate log` from outside, on clips that the ffmpeg of the distribution draws.
#include <filesystem>
#include <fstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/program_folder.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

class LogProgram : public testing::ProgramFolder {
 protected:
  void SetUp() override {
    ProgramFolder::SetUp();
    fs::create_directory(folder_ / "clips");
    // Two views one behind the other, with sound; the same from 1.4 s on by another camera; the first again.
    draw(
        "testsrc2=s=320x180:r=25:d=4[a];mandelbrot=s=320x180:r=25,trim=duration=4,setsar=1[b];[a][b]concat=n="
        "2",
        "flite=voice=slt:text=warm the oil in a wide pan and add two onions with a little salt then stir "
        "until "
        "they are soft and smell sweet,aresample=48000,apad=whole_dur=8",
        "pan.mp4");
    shell_ok(
        "ffmpeg -v error -ss 1.4 -i clips/pan.mp4 -vf scale=160:90,hue=s=0 -af volume=-8dB clips/front.mp4");
    shell_ok("ffmpeg -v error -i clips/pan.mp4 -c:v mpeg4 -q:v 6 -c:a pcm_s16le clips/again.avi");
    std::ofstream(folder_ / "clips" / "broken.mp4") << "no film at all";
  }
  void draw(const std::string& picture, const std::string& sound, const std::string& name) const {
    shell_ok("ffmpeg -v error -f lavfi -i '" + picture + "' -f lavfi -i '" + sound +
             "' -pix_fmt yuv420p -shortest clips/" + name);
  }
  [[nodiscard]] Json report(const std::string& arguments) const {
    return Json::parse(run("log " + arguments + " --json", "2>/dev/null").out, nullptr, false);
  }
};

TEST_F(LogProgram, TellsWhatIsInAFolder) {
  const auto log = report("clips");
  ASSERT_TRUE(log.is_object());
  EXPECT_EQ(log["panslate_log"], 1);
  ASSERT_EQ(log["clips"].size(), 4U);
  const auto& broken = log["clips"][1];
  EXPECT_EQ(broken["status"], "unreadable");
  EXPECT_TRUE(broken["reason"].is_string());
  const auto& pan = log["clips"][3];
  EXPECT_EQ(pan["file"], "clips/pan.mp4");
  EXPECT_EQ(pan["status"], "ok");
  EXPECT_EQ(pan["frames"], 200);
  EXPECT_EQ(pan["frame_rate"], "25/1");
  EXPECT_EQ(pan["video_codec"], "h264");
  ASSERT_EQ(pan["shots"].size(), 2U);
  EXPECT_EQ(pan["shots"][1]["first_frame"], 100);
  EXPECT_EQ(pan["shots"][1]["into"], "cut");
  EXPECT_EQ(pan["shots"][1]["last_frame"], 199);
  EXPECT_TRUE(pan["loudness"]["integrated"].is_number());
  // The same coded again, and the same moment by another camera, to the frame.
  ASSERT_EQ(log["duplicates"].size(), 2U) << log["duplicates"];
  EXPECT_EQ(log["duplicates"][0]["kind"], "same-file");
  EXPECT_EQ(log["duplicates"][0]["files"], Json({"clips/again.avi", "clips/pan.mp4"}));
  EXPECT_EQ(log["duplicates"][1]["kind"], "same-moment");
  EXPECT_NEAR(log["duplicates"][1]["offset"].get<double>(), 1.4, 0.04);
}

TEST_F(LogProgram, ReadsAgainOnlyWhatChanged) {
  const auto first = report("clips/pan.mp4 clips/front.mp4");
  ASSERT_TRUE(fs::exists(folder_ / "clips/.panslate/logs"));
  // What is kept is taken, under any name: this copy of the program cannot read footage, for it lacks the
  // module that does.
  fs::rename(folder_ / "clips/pan.mp4", folder_ / "clips/table.mp4");
  fs::copy_file(PANSLATE_PROGRAM, folder_ / "panslate-alone");
  const auto alone = [&](const std::string& arguments) {
    return Json::parse(testing::shell("cd '" + folder_.string() + "' && ./panslate-alone log " + arguments +
                                      " --json 2>/dev/null")
                           .out,
                       nullptr, false);
  };
  const auto second = alone("clips/table.mp4 clips/front.mp4");
  ASSERT_TRUE(second.is_object());
  // A clip that was not read before.
  EXPECT_EQ(alone("clips/again.avi")["clips"][0]["status"], "unreadable");
  auto renamed = first;
  renamed["clips"][0]["file"] = "clips/table.mp4";
  renamed["duplicates"] = second["duplicates"];
  EXPECT_EQ(second, renamed);
}

TEST_F(LogProgram, SavesPageTablesAndStills) {
  const auto ran = run("log clips --out results");
  EXPECT_EQ(ran.status, 1);
  EXPECT_THAT(ran.out, HasSubstr("pan.mp4"));
  EXPECT_THAT(ran.out, HasSubstr("cannot be read"));
  const auto page = read("results/contact-sheet.html");
  EXPECT_THAT(page, HasSubstr("data:image/jpeg"));
  EXPECT_THAT(page, Not(HasSubstr("<script")));
  EXPECT_THAT(read("results/log.csv"), HasSubstr("clips/pan.mp4,shot,00:00:04.000"));
  const auto log = Json::parse(read("results/log.json"), nullptr, false);
  const std::string still = log["clips"][3]["shots"][1]["still"];
  EXPECT_TRUE(read("results/" + still).starts_with("\xFF\xD8\xFF"));
  // The results of an earlier run are renewed; a file of hers is not.
  EXPECT_EQ(run("log clips --out results").status, 1);
  std::ofstream(folder_ / "results/log.csv") << "my own notes\n";
  EXPECT_EQ(run("log clips --out results").status, 3);
  EXPECT_EQ(read("results/log.csv"), "my own notes\n");
}

// What is told to be there twice may be deleted: one file by several names is there once.
TEST_F(LogProgram, TakesAFileOnceHoweverItIsNamed) {
  fs::create_symlink("clips", folder_ / "linked");
  fs::create_symlink("pan.mp4", folder_ / "clips/short.mp4");
  fs::create_hard_link(folder_ / "clips/pan.mp4", folder_ / "clips/other.mp4");
  const auto absolute = "'" + (folder_ / "clips/pan.mp4").string() + "'";
  for (const auto& names :
       {std::string("clips/pan.mp4 ./clips/pan.mp4"), "clips/pan.mp4 " + absolute,
        std::string("clips/pan.mp4 linked/pan.mp4"), std::string("clips/pan.mp4 clips/../clips/pan.mp4"),
        std::string("clips/pan.mp4 clips/short.mp4"), std::string("clips/pan.mp4 clips/other.mp4")}) {
    const auto log = report(names);
    ASSERT_TRUE(log.is_object()) << names;
    ASSERT_EQ(log["clips"].size(), 1U) << names;
    EXPECT_EQ(log["clips"][0]["file"], "clips/pan.mp4") << names;
    EXPECT_TRUE(log["duplicates"].empty()) << names;
  }
  // A project may use one file for two things.
  write("recipe.md", "# Pan\n\n## Ingredients\n\n- 2 onions\n\n## Method\n\n1. Stir the onions.\n");
  write("p.json", R"({"panslate_project": 1, "recipe": "recipe.md", "media": [
{"id": "a", "file": "clips/pan.mp4", "role": "camera"},
{"id": "b", "file": "linked/pan.mp4", "role": "camera"}]})");
  const auto log = report("p.json");
  ASSERT_TRUE(log.is_object());
  EXPECT_EQ(log["clips"].size(), 1U);
  EXPECT_TRUE(log["duplicates"].empty());
  // A copy is another file, and is told with its folder.
  fs::create_directory(folder_ / "card");
  fs::copy_file(folder_ / "clips/pan.mp4", folder_ / "card/pan.mp4");
  EXPECT_THAT(run("log card/pan.mp4 clips/pan.mp4").out,
              HasSubstr("card/pan.mp4 and clips/pan.mp4 are the same clip"));
}

TEST_F(LogProgram, FailsOnlyWhereNothingCanBeRead) {
  EXPECT_EQ(run("log clips/broken.mp4").status, 3);
  EXPECT_EQ(run("log clips/broken.mp4 clips/pan.mp4").status, 1);
  EXPECT_EQ(run("log nowhere").status, 3);
  EXPECT_EQ(run("log").status, 2);
  fs::create_directory(folder_ / "empty");
  EXPECT_EQ(run("log empty").status, 3);
}

}  // namespace
}  // namespace panslate
