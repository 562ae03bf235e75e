// The form that ships with panslate is read by people too: each name in it is explained.
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "project/form_check.h"

namespace panslate {
namespace {

using nlohmann::json;

json shipped_form() {
  std::ifstream in(std::string(PANSLATE_SOURCE_DIR) + "/src/project/data/project.schema.json");
  return json::parse(in);
}

void each_name_is_explained(const json& rules, const json& definitions, const std::string& where) {
  if (!rules.contains("properties")) return;
  for (const auto& [name, rule] : rules.at("properties").items()) {
    SCOPED_TRACE(where + name);
    EXPECT_GT(rule.value("description", std::string()).size(), 10U);
    const bool said_by_reference =
        rule.contains("$ref") &&
        definitions.at(rule.at("$ref").get<std::string>().substr(14)).contains("expected");
    EXPECT_TRUE(rule.contains("expected") || said_by_reference);
    each_name_is_explained(rule, definitions, where + name + ".");
  }
}

TEST(ProjectForm, ExplainsEachName) {
  const auto form = shipped_form();
  const auto& definitions = form.at("definitions");
  each_name_is_explained(form, definitions, "");
  for (const auto& [name, rules] : definitions.items()) {
    SCOPED_TRACE(name);
    EXPECT_TRUE(rules.contains("expected"));
    each_name_is_explained(rules, definitions, name + ".");
  }
}

// The example in the public header, word for word.
TEST(ProjectForm, FitsTheExample) {
  const auto text = read_json(R"({
       "panslate_project": 1,
       "recipe": "recipe.md",
       "media": [
         {"id": "pan-1", "file": "footage/pan-1.mp4", "role": "camera"},
         {"id": "voice", "file": "footage/voice.wav", "role": "narration"},
         {"id": "edit",  "file": "footage/edit.mp4",  "role": "edit"}
       ],
       "segments": [
         {"id": "s1", "clip": "pan-1", "in": "00:00:01.000", "out": "00:00:09.500", "step": "Rinse the lentils",
          "framing": "overhead", "shows": ["lentils"], "at": "00:00:12.000"}
       ],
       "captions":       [{"file": "captions.vtt", "clock": "edit"}],
       "on_screen_text": [{"file": "titles.srt",   "clock": "edit"}],
       "settings": {"measures": "metric"}
     })",
                              "p.json");
  ASSERT_TRUE(text.has_value());
  ProblemList problems;
  check_form(*text, problems);
  EXPECT_TRUE(problems.errors.empty());
  EXPECT_TRUE(near_names(*text, "p.json").empty());
}

TEST(ProjectForm, TakesTimesAndTimecode) {
  struct Case {
    std::string time;
    bool fits;
  };
  const Case cases[] = {
      {"00:00:01.000", true},
      {"0:01", true},
      {"12:05.5", true},
      {"100:00:00", true},
      {"00:00:01,250", true},
      {"00:00:01:12", true},
      {"10:00:00;02", true},
      {"00:00:01.123456789", true},
      {"1", false},
      {"1.5", false},
      {"00:00:1", false},
      {"00:00:01.", false},
      {" 00:01", false},
      {"00:01 ", false},
      {"00:00:01:1", false},
      {"0:00:01:12", false},
      {"00:00:01.1234567890", false},
      {"", false},
      {"a:bc", false},
      {std::string(100000, '1'), false},
  };
  for (const auto& [time, fits] : cases) {
    SCOPED_TRACE(time.substr(0, 40));
    const json project{{"panslate_project", 1},
                       {"recipe", "r.md"},
                       {"segments", {{{"id", "s1"}, {"clip", "c"}, {"in", time}}}}};
    const auto text = read_json(project.dump(), "p.json");
    ASSERT_TRUE(text.has_value());
    ProblemList problems;
    check_form(*text, problems);
    EXPECT_EQ(problems.errors.empty(), fits);
  }
}

}  // namespace
}  // namespace panslate
