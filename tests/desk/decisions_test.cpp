// Decisions: what stands in the project file after each, byte for byte; undo; two tabs and an editor beside
// each other.
#include <map>

#include <gtest/gtest.h>

#include "desk/desk_folder.h"

namespace panslate {
namespace {

using nlohmann::json;
using testing::answer_to;
using testing::DeskFolder;
using testing::doubt_about;

constexpr const char* kThyme = "2 tsp dried thyme";
constexpr const char* kSugar = "40 g sugar";

json body_of(const DeskReply& reply) {
  return json::parse(reply.body);
}

std::string with_answers(std::string project, const std::string& answers) {
  const std::string end = "\"mine\": [1,  2]\n}\n";
  EXPECT_TRUE(project.ends_with(end));
  project.resize(project.size() - 3);
  return project + ",\n  \"answers\": [\n    " + answers + "\n  ]\n}\n";
}

TEST(Decisions, AnAnswerIsOneEntryAndNothingElseMoves) {
  DeskFolder folder;
  const auto before = folder.project_text();
  const auto doubt = doubt_about(folder.state(), kThyme);
  ASSERT_FALSE(doubt.is_null());
  const auto reply = folder.post("answer", answer_to(doubt, "yes"));
  ASSERT_EQ(reply.status, 200) << reply.body;
  EXPECT_EQ(folder.project_text(),
            with_answers(before,
                         R"({"line": "dried thyme", "is": "yes", "written": "2 tsp dried thyme", "found": )" +
                             doubt.at("found").dump() + "}"));
  const auto state = body_of(reply).at("state");
  EXPECT_TRUE(doubt_about(state, kThyme).is_null());
  EXPECT_EQ(state.at("answers").size(), 1U);
  EXPECT_EQ(state.at("counts").at("answered"), 1);
  // The program reads it as an answer that holds.
  const auto project = load_project(real_file_system(), folder.path() / "project.json");
  ASSERT_TRUE(project);
  ASSERT_EQ(project->answers.size(), 1U);
  EXPECT_EQ(project->answers[0].is, Answer::Is::Yes);
}

TEST(Decisions, AreTakenBackOneByOneAndDoneAgain) {
  DeskFolder folder;
  std::vector<std::string> texts{folder.project_text()};
  for (const auto* is : {"yes", "no", "leave"}) {
    const auto doubts = folder.state().at("doubts");
    ASSERT_FALSE(doubts.empty());
    ASSERT_EQ(folder.post("answer", answer_to(doubts[0], is)).status, 200);
    texts.push_back(folder.project_text());
  }
  for (std::size_t i = texts.size() - 1; i-- > 0;) {
    ASSERT_EQ(folder.post("undo", json::object()).status, 200);
    EXPECT_EQ(folder.project_text(), texts[i]);
  }
  ASSERT_EQ(folder.post("undo", json::object()).status, 200);  // nothing is left: nothing happens
  EXPECT_EQ(folder.project_text(), texts[0]);
  for (std::size_t i = 1; i < texts.size(); ++i) {
    ASSERT_EQ(folder.post("redo", json::object()).status, 200);
    EXPECT_EQ(folder.project_text(), texts[i]);
  }
}

TEST(Decisions, AreTakenBackByADeskThatIsOpenedAgain) {
  DeskFolder folder;
  const auto before = folder.project_text();
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(folder.state(), kThyme), "yes")).status, 200);
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(folder.state(), kSugar), "no")).status, 200);
  const auto after = folder.project_text();
  folder.open_again();
  ASSERT_EQ(folder.post("undo", json::object()).status, 200);
  folder.open_again();
  ASSERT_EQ(folder.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder.project_text(), before);
  ASSERT_EQ(folder.post("redo", json::object()).status, 200);
  ASSERT_EQ(folder.post("redo", json::object()).status, 200);
  EXPECT_EQ(folder.project_text(), after);
  // A record that is none is no way back, and no harm.
  for (
      const auto* broken :
      {"", "{", "[]", R"({"desk": 1})", R"({"desk": 9, "done": [], "undone": []})",
       R"({"desk": 1, "done": [{"what": 1}], "undone": []})",
       R"({"desk": 1, "undone": [], "done": [{"what": "x", "edits": [{"list": "recipe", "member": "", "index": 0,
                                "before": null, "after": "1", "makes": false}]}]})"}) {
    folder.write(".panslate/project-desk.json", broken);
    folder.open_again();
    EXPECT_EQ(folder.state().at("undo"), "") << broken;
    ASSERT_EQ(folder.post("undo", json::object()).status, 200) << broken;
    EXPECT_EQ(folder.project_text(), after) << broken;
  }
}

TEST(Decisions, AnAnswerTakesThePlaceOfTheOneBefore) {
  DeskFolder folder;
  const auto doubt = doubt_about(folder.state(), kThyme);
  ASSERT_EQ(folder.post("answer", answer_to(doubt, "yes")).status, 200);
  auto again = answer_to(doubt, "no");
  again["was"] = "yes";
  ASSERT_EQ(folder.post("answer", again).status, 200);
  const auto state = folder.state();
  ASSERT_EQ(state.at("answers").size(), 1U);
  EXPECT_EQ(state.at("answers")[0].at("is"), "no");
  again["was"] = "no";
  again["is"] = "";
  ASSERT_EQ(folder.post("answer", again).status, 200);
  EXPECT_FALSE(doubt_about(folder.state(), kThyme).is_null());
}

TEST(Decisions, TwoTabsLoseNothingOfEachOther) {
  DeskFolder folder;
  const auto first_tab = folder.state();
  const auto second_tab = first_tab;
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(first_tab, kThyme), "yes")).status, 200);
  // Another line: both stand.
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(second_tab, kSugar), "no")).status, 200);
  EXPECT_EQ(folder.state().at("answers").size(), 2U);
  // The same line: the second is told and nothing is overwritten.
  const auto kept = folder.project_text();
  const auto reply = folder.post("answer", answer_to(doubt_about(second_tab, kThyme), "no"));
  EXPECT_EQ(reply.status, 409);
  EXPECT_NE(body_of(reply).at("errors")[0].at("what").get<std::string>().find("answered meanwhile (yes)"),
            std::string::npos);
  EXPECT_EQ(folder.project_text(), kept);
}

TEST(Decisions, HerEditorLosesNothingEither) {
  DeskFolder folder;
  const auto tab = folder.state();
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(tab, kThyme), "yes")).status, 200);
  // She adds a note of her own, and takes the answer away, by hand.
  auto text = folder.project_text();
  text.replace(text.find("\"mine\""), 6, "\"note\": \"by hand\", \"mine\"");
  folder.write("project.json", text);
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(tab, kSugar), "yes")).status, 200);
  EXPECT_NE(folder.project_text().find("\"note\": \"by hand\""), std::string::npos);
  EXPECT_EQ(folder.state().at("answers").size(), 2U);
  auto changed = folder.project_text();
  const auto yes = changed.find("\"yes\"");
  changed.replace(yes, 5, "\"no\"");
  folder.write("project.json", changed);
  ASSERT_EQ(folder.post("undo", json::object()).status, 200);  // the sugar
  const auto hers = folder.project_text();
  EXPECT_EQ(folder.post("undo", json::object()).status, 409);  // the thyme, which she changed herself
  EXPECT_EQ(folder.project_text(), hers);
  EXPECT_EQ(body_of(folder.get("state")).at("undo"), "");
}

TEST(Decisions, HoldAsLongAsWhatTheySpeakOfIsTheSame) {
  DeskFolder folder;
  const auto tab = folder.state();
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(tab, kThyme), "yes")).status, 200);
  folder.write("captions.vtt", "WEBVTT\n\n00:04.000 --> 00:06.000\nand four teaspoons of dried thyme.\n");
  const auto state = folder.state();
  ASSERT_EQ(state.at("again").size(), 1U);
  EXPECT_FALSE(doubt_about(state, kThyme).is_null());
  // What she saw before the captions changed is no answer to what is found now.
  auto late = answer_to(doubt_about(tab, kThyme), "no");
  EXPECT_EQ(folder.post("answer", late).status, 409);
  // A new answer takes the place of the old one.
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(state, kThyme), "no")).status, 200);
  const auto after = folder.state();
  EXPECT_TRUE(after.at("again").empty());
  EXPECT_EQ(after.at("answers").size(), 1U);
}

TEST(Decisions, AnAnswerThatFitsNothingCanBeForgotten) {
  DeskFolder folder;
  const auto before = folder.project_text();
  auto text = before;
  text.replace(text.find("\"mine\""), 0, "\"answers\": [{\"line\": \"saffron\", \"is\": \"yes\"}],\n  ");
  folder.write("project.json", text);
  const auto again = folder.state().at("again");
  ASSERT_EQ(again.size(), 1U);
  // Not another one: of another line, another answer to it, or about something else.
  for (const auto& [name, value] : std::map<std::string, std::string>{
           {"line", "thyme"}, {"is", "no"}, {"about", "shown"}, {"written", "1 g saffron"}}) {
    auto other = again[0].at("forget");
    other[name] = value;
    EXPECT_EQ(folder.post("forget", other).status, 409) << name;
  }
  ASSERT_EQ(folder.post("forget", again[0].at("forget")).status, 200);
  EXPECT_TRUE(folder.state().at("again").empty());
  ASSERT_EQ(folder.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder.project_text(), text);
}

TEST(Decisions, AnAnswerThatHoldsIsNotForgotten) {
  DeskFolder folder;
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(folder.state(), kThyme), "yes")).status, 200);
  const auto kept = folder.project_text();
  const json forget{
      {"answer", 0}, {"line", "dried thyme"}, {"about", "said"}, {"is", "yes"}, {"written", kThyme}};
  EXPECT_EQ(folder.post("forget", forget).status, 409);
  EXPECT_EQ(folder.project_text(), kept);
}

TEST(Decisions, WhoseCupsHoldsForAllLines) {
  DeskFolder folder;
  const auto before = folder.project_text();
  const auto state = folder.state();
  ASSERT_TRUE(state.at("measures").at("ask").get<bool>());
  ASSERT_EQ(folder.post("measures", {{"measures", "au"}, {"was", ""}}).status, 200);
  EXPECT_NE(folder.project_text().find("\"settings\": {\"measures\": \"au\"}"), std::string::npos);
  EXPECT_FALSE(folder.state().at("measures").at("ask").get<bool>());
  EXPECT_EQ(folder.post("measures", {{"measures", "us"}, {"was", ""}}).status, 409);
  ASSERT_EQ(folder.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder.project_text(), before);
}

TEST(Decisions, AFileThatCannotBeReadIsToldAndLeftAlone) {
  DeskFolder folder;
  const auto tab = folder.state();
  folder.write("project.json", "{\"panslate_project\": 1,");
  EXPECT_EQ(folder.get("state").status, 422);
  const auto reply = folder.post("answer", answer_to(doubt_about(tab, kThyme), "yes"));
  EXPECT_EQ(reply.status, 422);
  EXPECT_EQ(folder.project_text(), "{\"panslate_project\": 1,");
}

TEST(Decisions, TheStateIsSentOnceOnly) {
  DeskFolder folder;
  const auto state = folder.state();
  EXPECT_EQ(folder.get("state", {{"have", state.at("version").get<std::string>()}}).status, 204);
  ASSERT_EQ(folder.post("answer", answer_to(doubt_about(state, kThyme), "yes")).status, 200);
  EXPECT_EQ(folder.get("state", {{"have", state.at("version").get<std::string>()}}).status, 200);
}

}  // namespace
}  // namespace panslate
