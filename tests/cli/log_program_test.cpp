// `panslate log` from outside, on clips that the ffmpeg of the distribution draws.
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <set>
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

// From clips to parts in the project file: three lines spoken with pauses, a shot that begins in one of them.
TEST_F(LogProgram, ProposesPartsAndWritesThemWhenAsked) {
  const auto line = [](const std::string& words, double whole) {
    return "flite=voice=slt:text=" + words + ",aresample=48000,apad=whole_dur=" + std::to_string(whole);
  };
  draw(
      "testsrc2=s=160x90:r=25:d=5.4[a];mandelbrot=s=160x90:r=25,trim=duration=8.6,setsar=1[b];[a][b]concat=n="
      "2",
      line("first slice the onions thinly", 6) + "[x];" +
          line("now melt the butter and fry them until golden", 8) + "[y];[x][y]concat=n=2:v=0:a=1",
      "soup.mp4");
  write("recipe.md",
        "# Soup\n\n## Ingredients\n\n- 2 onions\n- 30 g butter\n- 1 litre stock\n\n## Method\n\n"
        "1. Slice the onions thinly.\n2. Melt the butter and fry until golden.\n"
        "3. Pour in the stock and let it simmer.\n");
  write("soup.srt",
        "1\n00:00:00,000 --> 00:00:02,200\nFirst slice the onions thinly.\n\n"
        "2\n00:00:06,000 --> 00:00:09,000\nNow melt the butter and fry them until golden.\n");
  const std::string begin =
      "{ \"panslate_project\": 1,   \"recipe\": \"recipe.md\",\n"
      "  \"media\": [{\"id\": \"soup\", \"file\": \"clips/soup.mp4\", \"role\": \"camera\"},\n"
      "            {\"id\": \"pan\", \"file\": \"clips/pan.mp4\", \"role\": \"camera\"}],\n";
  const std::string end =
      "  \"captions\": [{\"file\": \"soup.srt\", \"clock\": \"soup\"}], \"hers\": [1,  2]}\n";
  write("p.json", begin + "  \"segments\": [],\n" + end);
  const auto log = report("p.json");
  ASSERT_TRUE(log.is_object());
  ASSERT_EQ(log["proposals"].size(), 2U) << log["proposals"];
  const auto& second = log["proposals"][1];
  EXPECT_EQ(second["media"], "soup");
  EXPECT_EQ(second["step"], 2);
  EXPECT_EQ(second["refs"], Json({"c2"}));
  EXPECT_NEAR(second["in"].get<double>(), 5.4, 0.04) << "where the shot starts";
  EXPECT_EQ(log["not_proposed"]["without_words"], Json({"pan"}));
  EXPECT_EQ(read("p.json"), begin + "  \"segments\": [],\n" + end) << "nothing is written unasked";
  const auto told = run("log p.json --out results").out;
  EXPECT_THAT(told, HasSubstr("Proposed parts of clips (2)"));
  EXPECT_THAT(told, HasSubstr("no words yet for pan.mp4"));
  EXPECT_THAT(read("results/contact-sheet.html"), HasSubstr("is said: step 2, Melt the butter"));

  const auto accepted = run("log p.json --accept");
  EXPECT_LE(accepted.status, 1);
  EXPECT_THAT(accepted.out, HasSubstr("wrote 2 parts into p.json"));
  EXPECT_THAT(accepted.out, HasSubstr("Parts written into the project (2)"));
  EXPECT_THAT(accepted.out, Not(HasSubstr("Proposed")));
  const auto written = read("p.json");
  EXPECT_TRUE(written.starts_with(begin)) << written;
  EXPECT_TRUE(written.ends_with(end)) << written;
  const auto project = Json::parse(written, nullptr, false);
  ASSERT_EQ(project["segments"].size(), 2U) << written;
  EXPECT_EQ(project["segments"][1]["step"], "Melt the butter");
  EXPECT_EQ(project["segments"][0]["out"], project["segments"][1]["in"]);
  EXPECT_LE(run("check p.json").status, 1) << "the project is as good as before";
  // A second time adds nothing.
  EXPECT_THAT(run("log p.json --accept").out, HasSubstr("nothing to write into p.json"));
  EXPECT_EQ(read("p.json"), written);
  EXPECT_EQ(report("p.json")["not_proposed"]["marked"], 2);
  // Through a link it is the project that is written, and the link stays one.
  write("q.json", begin + "  \"segments\": [],\n" + end);
  fs::create_symlink(folder_ / "q.json", folder_ / "link.json");
  EXPECT_THAT(run("log link.json --accept").out, HasSubstr("wrote 2 parts"));
  EXPECT_TRUE(fs::is_symlink(folder_ / "link.json"));
  EXPECT_EQ(read("q.json"), written);
  // A desk that has it open is told of before anything is read, by flock(1).
  shell_ok("touch .panslate/q-desk.lock");
  const auto held = testing::shell("cd '" + folder_.string() + "' && flock .panslate/q-desk.lock '" +
                                   std::string(PANSLATE_PROGRAM) + "' log q.json --accept --out held 2>&1");
  EXPECT_EQ(held.status, 3);
  EXPECT_THAT(held.out, HasSubstr("open at a desk already"));
  EXPECT_FALSE(fs::exists(folder_ / "held"));
  // What only a project has.
  EXPECT_EQ(run("log clips/soup.mp4 --accept").status, 2);
}

// Words that nobody wrote down: what listening found of them serves.
TEST_F(LogProgram, ProposesPartsByEar) {
  write("recipe.md",
        "# Onions\n\n## Ingredients\n\n- 2 onions\n- 1 tbsp oil\n- 1 tsp salt\n- 1 tsp sugar\n\n## Method\n\n"
        "1. Warm the oil in a wide pan and add the onions and the salt. Stir until they are soft.\n"
        "2. Scatter over the sugar and serve.\n");
  write("p.json", R"({"panslate_project": 1, "recipe": "recipe.md",
"media": [{"id": "pan", "file": "clips/pan.mp4", "role": "camera"}]})");
  EXPECT_THAT(run("log p.json").out,
              HasSubstr("no words yet for pan.mp4: give captions, or run panslate listen"));
  EXPECT_LE(run("listen p.json").status, 1);
  const auto log = report("p.json");
  ASSERT_TRUE(log.is_object());
  ASSERT_EQ(log["proposals"].size(), 1U) << log["proposals"] << log["not_proposed"];
  EXPECT_EQ(log["proposals"][0]["step"], 1);
  EXPECT_EQ(log["proposals"][0]["draft"], true);
  EXPECT_TRUE(log["not_proposed"]["without_words"].empty());
}

// Whenever it comes, the project is as it was or has all parts, what is told fits, and nothing lies about.
TEST_F(LogProgram, LeavesTheProjectWholeWhenStoppedWhileItAccepts) {
  write("recipe.md",
        "# Onions\n\n## Ingredients\n\n- 2 onions\n- 1 tbsp oil\n- 1 tsp sugar\n\n## Method\n\n"
        "1. Warm the oil in a wide pan and add the onions.\n2. Scatter over the sugar and serve.\n");
  write("pan.srt",
        "1\n00:00:00,100 --> 00:00:04,000\nWarm the oil in a wide pan and add two onions with a little "
        "salt.\n");
  const std::string before = R"({"panslate_project": 1, "recipe": "recipe.md",
"media": [{"id": "pan", "file": "clips/pan.mp4", "role": "camera"}],
"captions": [{"file": "pan.srt", "clock": "pan"}]})";
  const auto files = [&] {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder_)) names.insert(entry.path().filename());
    return names;
  };
  write("p.json", before);
  EXPECT_LE(run("log p.json").status, 1);
  const auto there = files();
  const auto start = std::chrono::steady_clock::now();
  EXPECT_THAT(run("log p.json --accept").out, HasSubstr("wrote 1 part"));
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  const auto after = read("p.json");
  int stopped = 0;
  for (int i = 1; i <= 16; ++i) {
    write("p.json", before);
    // As from a keyboard, to all of its processes; timeout(1) of coreutils.
    const auto ran = testing::shell("cd '" + folder_.string() + "' && timeout --preserve-status -s INT " +
                                    std::to_string(took.count() * i / 14) +
                                    " '" PANSLATE_PROGRAM "' log p.json --accept 2>&1");
    const auto now = read("p.json");
    const bool told = ran.out.find("wrote 1 part into p.json") != std::string::npos;
    EXPECT_EQ(now, told ? after : before) << i << ": " << ran.out;
    if (!told) {
      ++stopped;
      EXPECT_TRUE(ran.status == 130 || ran.status == 128 + SIGINT) << i << ": " << ran.status << ran.out;
    }
    EXPECT_EQ(files(), there) << i;
  }
  EXPECT_GE(stopped, 4) << "it was never stopped in time";
  write("p.json", before);
  EXPECT_THAT(run("log p.json --accept").out, HasSubstr("wrote 1 part")) << "and can be run again";
}

// As she begins: every clip whole, tied to nothing.
TEST_F(LogProgram, PartsTakeThePlaceOfWhatANewProjectBeginsWith) {
  fs::create_directory(folder_ / "card");
  fs::rename(folder_ / "clips/pan.mp4", folder_ / "card/pan.mp4");
  write("card/pan.srt",
        "1\n00:00:00,100 --> 00:00:04,000\nWarm the oil in a wide pan and add two onions with a little "
        "salt.\n");
  write("recipe.md",
        "# Onions\n\n## Ingredients\n\n- 2 onions\n- 1 tbsp oil\n- 1 tsp sugar\n\n## Method\n\n"
        "1. Warm the oil in a wide pan and add the onions.\n2. Scatter over the sugar and serve.\n");
  ASSERT_EQ(run("new film --recipe recipe.md --footage card").status, 0);
  const auto before = Json::parse(read("film/recipe.json"), nullptr, false);
  ASSERT_EQ(before["segments"].size(), 1U);
  const auto accepted = run("log film/recipe.json --accept").out;
  EXPECT_THAT(accepted,
              HasSubstr("wrote 1 part into recipe.json, in the place of 1 part that was a whole clip"));
  auto after = Json::parse(read("film/recipe.json"), nullptr, false);
  ASSERT_EQ(after["segments"].size(), 1U) << after;
  EXPECT_EQ(after["segments"][0]["id"], "pan-1");
  EXPECT_EQ(after["segments"][0]["step"], "Warm the oil");
  after["segments"] = before["segments"];
  EXPECT_EQ(after, before);
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
