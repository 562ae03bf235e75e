// Files that other programs change while the desk looks at them: what is shown and what is saved are of one
// moment, and of the newest.
#include <gtest/gtest.h>

#include "desk/desk_folder.h"

namespace panslate {
namespace {

using nlohmann::json;
using testing::answer_to;
using testing::DeskFolder;
using testing::doubt_about;

constexpr const char* kThyme = "2 tsp dried thyme";

TEST(WatchedFiles, AClipThatIsReplacedHasNewStills) {
  DeskFolder folder;
  const auto version = folder.state().at("version");
  const auto before = folder.get("still", {{"clip", "pan"}, {"ms", "500"}});
  EXPECT_EQ(before.body, "\xFF\xD8 abc 500");
  EXPECT_EQ(folder.kept.size(), 1U);
  folder.write("pan.mp4", "xyz: another take");
  EXPECT_EQ(folder.get("still", {{"clip", "pan"}, {"ms", "500"}}).body, "\xFF\xD8 xyz 500");
  EXPECT_TRUE(folder.kept.contains("key-xyz 500"));
  // The page is told, and asks for the stills by another address.
  const auto state = folder.state();
  EXPECT_NE(state.at("version"), version);
}

TEST(WatchedFiles, AStillIsNotKeptForAClipThatWasReplacedMeanwhile) {
  DeskFolder folder;
  static_cast<void>(folder.state());
  folder.meanwhile.taking_still = [&] {
    folder.meanwhile.taking_still = nullptr;
    folder.write("pan.mp4", "xyz: another take");
  };
  EXPECT_EQ(folder.get("still", {{"clip", "pan"}, {"ms", "500"}}).status, 200);
  EXPECT_TRUE(folder.kept.empty()) << folder.kept.begin()->first;
}

TEST(WatchedFiles, WhatChangesWhileItIsReadIsReadAgain) {
  DeskFolder folder;
  int looks = 0;
  folder.meanwhile.looking = [&] {
    if (++looks == 1)
      folder.write("captions.vtt", "WEBVTT\n\n00:04.000 --> 00:06.000\nand two teaspoons of dried thyme.\n");
  };
  EXPECT_TRUE(doubt_about(folder.state(), kThyme).is_null());
  EXPECT_EQ(looks, 2);
  static_cast<void>(folder.state());
  EXPECT_EQ(looks, 2);  // nothing changed since
}

TEST(WatchedFiles, NothingIsSavedIntoAFileThatWasNotWhatSheSaw) {
  DeskFolder folder;
  const auto doubt = doubt_about(folder.state(), kThyme);
  int looks = 0;
  // Another program that never leaves the file alone.
  folder.meanwhile.looking = [&] {
    auto text = folder.project_text();
    text.replace(text.rfind('}'), std::string::npos,
                 "}" + std::string(static_cast<std::size_t>(++looks), '\n'));
    folder.write("project.json", text);
  };
  folder.write("captions.vtt", "WEBVTT\n\n00:04.000 --> 00:06.000\nand three teaspoons of dried thyme.\n");
  const auto reply = folder.post("answer", answer_to(doubt, "yes"));
  EXPECT_EQ(reply.status, 409);
  EXPECT_NE(reply.body.find("saved by another program just now"), std::string::npos) << reply.body;
  EXPECT_GE(looks, 2);
  EXPECT_LT(looks, 10);
  EXPECT_EQ(folder.project_text().find("answers"), std::string::npos);
}

TEST(WatchedFiles, AStepIsNotLostWhereAnotherProgramSavesAtThatMoment) {
  DeskFolder folder;
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(folder.state(), kThyme), "yes")).status, 200);
  const auto step = folder.state().at("undo");
  folder.meanwhile.looking = [&] {
    folder.meanwhile.looking = nullptr;
    folder.write("project.json", folder.project_text() + "\n");
  };
  EXPECT_EQ(folder.post("undo", json::object()).status, 409);
  EXPECT_EQ(folder.state().at("undo"), step);
  EXPECT_EQ(folder.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder.project_text().find("thyme"), std::string::npos);
}

TEST(WatchedFiles, AStepThatNoLongerFitsIsToldAndLeavesTheWayFree) {
  DeskFolder folder;
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(folder.state(), kThyme), "yes")).status, 200);
  const json part{{"id", ""},
                  {"was", ""},
                  {"clip", "pan"},
                  {"in", 1.0},
                  {"out", 4.0},
                  {"steps", json::array()},
                  {"shows", json::array()},
                  {"framing", ""},
                  {"note", ""}};
  ASSERT_EQ(folder.post("part", part).status, 200);
  auto gone = json{{"id", "pan-1"}, {"was", folder.state().at("parts").at(0).at("stamp")}, {"gone", true}};
  ASSERT_EQ(folder.post("part", gone).status, 200);
  // By hand she has another part there by now: over it, the old one cannot come back.
  auto text = folder.project_text();
  const auto at = text.find("\"segments\"");
  ASSERT_NE(at, std::string::npos);
  const auto end = text.find(']', at);
  text.replace(at, end + 1 - at,
               R"("segments": [{"id": "mine", "clip": "pan", "in": "0:02", "out": "0:05"}])");
  folder.write("project.json", text);
  const auto reply = folder.post("undo", json::object());
  EXPECT_EQ(reply.status, 409);
  EXPECT_NE(reply.body.find("this can no longer be taken back: part pan-1 taken away"), std::string::npos)
      << reply.body;
  EXPECT_EQ(folder.project_text(), text);
  // The part that was made cannot be taken back either; the answer can.
  EXPECT_EQ(folder.post("undo", json::object()).status, 409);
  EXPECT_EQ(folder.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder.state().at("undo"), "");
}

}  // namespace
}  // namespace panslate
