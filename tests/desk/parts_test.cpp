// Parts of clips marked at the desk: what stands in the project file after each key.
#include <gtest/gtest.h>

#include "desk/decide_part.h"
#include "desk/desk_folder.h"

namespace panslate {
namespace {

using nlohmann::json;
using testing::DeskFolder;

json new_part(double in, double out) {
  return {{"id", ""},
          {"was", ""},
          {"clip", "pan"},
          {"in", in},
          {"out", out},
          {"steps", json::array()},
          {"shows", json::array()},
          {"framing", ""},
          {"note", ""}};
}

json as_sent(const json& part) {
  return {{"id", part.at("id")},       {"was", part.at("stamp")},       {"clip", part.at("clip")},
          {"in", part.at("in")},       {"out", part.at("out")},         {"steps", part.at("steps")},
          {"shows", part.at("shows")}, {"framing", part.at("framing")}, {"note", part.at("note")}};
}

TEST(Parts, AreWrittenAsAPersonWouldAndTakenBack) {
  DeskFolder folder;
  const auto before = folder.project_text();
  ASSERT_EQ(folder.post("part", new_part(1.5, 4.0)).status, 200);
  EXPECT_NE(folder.project_text().find(
                R"("segments": [
    {"id": "pan-1", "clip": "pan", "in": "00:00:01.500", "out": "00:00:04.000"}
  ])"),
            std::string::npos)
      << folder.project_text();
  auto state = folder.state();
  auto part = as_sent(state.at("parts").at(0));
  part["steps"] = json::array({state.at("recipe").at("steps").at(2).at("key")});
  part["shows"] = {state.at("ingredients").at(0).at("key"), state.at("ingredients").at(1).at("key")};
  part["framing"] = "close";
  part["note"] = "the second \"take\"";
  ASSERT_EQ(folder.post("part", part).status, 200);
  EXPECT_NE(
      folder.project_text().find(
          R"("step": "Simmer the lentils", "shows": ["red lentils", "dried thyme"], "framing": "close", "note": "the second \"take\""})"),
      std::string::npos)
      << folder.project_text();
  state = folder.state();
  EXPECT_EQ(state.at("parts").at(0).at("steps").at(0), state.at("recipe").at("steps").at(2).at("key"));
  auto gone = as_sent(state.at("parts").at(0));
  gone["gone"] = true;
  ASSERT_EQ(folder.post("part", gone).status, 200);
  EXPECT_TRUE(folder.state().at("parts").empty());
  for (int i = 0; i < 3; ++i) ASSERT_EQ(folder.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder.project_text(), before);
}

TEST(Parts, KeepWhatIsNotSpokenOf) {
  DeskFolder folder;
  auto text = folder.project_text();
  text.insert(text.find("\"mine\""),
              "\"segments\": [{\"id\": \"s1\", \"mine\": {\"a\": 1}, \"clip\": \"pan\", \"in\": \"0:01\", "
              "\"out\": \"0:09\", \"at\": \"0:05\", "
              "\"step\": \"Simmer\", \"shows\": \"thyme\"}],\n  ");
  folder.write("project.json", text);
  auto part = as_sent(folder.state().at("parts").at(0));
  part["in"] = 2.0;
  const auto reply = folder.post("part", part);
  ASSERT_EQ(reply.status, 200) << reply.body;
  // Its own way of writing where nothing changed; the edit still shows the same picture at the same moment.
  EXPECT_NE(
      folder.project_text().find(
          R"({"id": "s1", "mine": {"a":1}, "clip": "pan", "in": "00:00:02.000", "out": "0:09", "at": "00:00:06.000", "step": "Simmer", "shows": "thyme"})"),
      std::string::npos)
      << folder.project_text();
}

TEST(Parts, AreRefusedWhereTheyCannotBe) {
  DeskFolder folder;
  ASSERT_EQ(folder.post("part", new_part(1.0, 4.0)).status, 200);
  const auto kept = folder.project_text();
  EXPECT_EQ(folder.post("part", new_part(5.0, 5.0)).status, 422);
  EXPECT_EQ(folder.post("part", new_part(3.0, 6.0)).status, 422);  // over another
  EXPECT_EQ(folder.post("part", new_part(-1.0, 6.0)).status, 400);
  EXPECT_EQ(folder.post("part", new_part(1.0, 1e30)).status, 400);
  auto part = new_part(5.0, 6.0);
  part["clip"] = "no such clip";
  EXPECT_EQ(folder.post("part", part).status, 400);
  part = new_part(5.0, 6.0);
  part["framing"] = "sideways";
  EXPECT_EQ(folder.post("part", part).status, 400);
  part = new_part(5.0, 6.0);
  part["steps"] = json::array({"no key"});
  EXPECT_EQ(folder.post("part", part).status, 409);
  // Two tabs: the second saw it as it was before.
  const auto seen = as_sent(folder.state().at("parts").at(0));
  auto first = seen;
  first["out"] = 4.5;
  ASSERT_EQ(folder.post("part", first).status, 200);
  auto second = seen;
  second["note"] = "mine";
  EXPECT_EQ(folder.post("part", second).status, 409);
  ASSERT_EQ(folder.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder.project_text(), kept);
}

}  // namespace
}  // namespace panslate
