// The project file changed one decision at a time: everything else stays byte for byte, and what is taken
// back leaves the very bytes that were there.
#include "panslate/project/project_text.h"

#include <vector>

#include <gtest/gtest.h>

namespace panslate {
namespace {

struct EditCase {
  const char* what;
  std::string text;
  ProjectEdit edit;
  std::string result;
};

const std::vector<EditCase>& cases() {
  static const std::vector<EditCase> kCases{
      {"the first answer of a file with a line for each name",
       "{\n  \"recipe\": \"r.md\",\n  \"x\": [ 1,2 ]\n}\n",
       {"answers", "", 0, std::nullopt, R"({"line": "a"})"},
       "{\n  \"recipe\": \"r.md\",\n  \"x\": [ 1,2 ],\n  \"answers\": [\n    {\"line\": \"a\"}\n  ]\n}\n"},
      {"the first answer of a file on one line",
       R"({"recipe": "r.md"})",
       {"answers", "", 0, std::nullopt, "1"},
       R"({"recipe": "r.md", "answers": [1]})"},
      {"into an empty list",
       R"({"answers": [ ]})",
       {"answers", "", 7, std::nullopt, "1"},
       R"({"answers": [1 ]})"},
      {"behind the others, as they stand",
       "{\"answers\": [\r\n\t1 ,\r\n\t{ }\r\n]}",
       {"answers", "", 2, std::nullopt, "3"},
       "{\"answers\": [\r\n\t1 ,\r\n\t{ } ,\r\n\t3\r\n]}"},
      {"before the others",
       R"({"answers": [1,2]})",
       {"answers", "", 0, std::nullopt, "0"},
       R"({"answers": [0,1,2]})"},
      {"between them",
       R"({"answers": [1, [], "ü"]})",
       {"answers", "", 2, std::nullopt, "2"},
       R"({"answers": [1, [], 2, "ü"]})"},
      {"another in its place, wherever it was moved to",
       R"({"answers": [{"a":1}, {"line": "b"}]})",
       {"answers", "", 0, R"({"line": "b"})", "9"},
       R"({"answers": [{"a":1}, 9]})"},
      {"the first goes",
       R"({"answers": [1,  2, 3]})",
       {"answers", "", 0, "1", std::nullopt},
       R"({"answers": [2, 3]})"},
      {"the last goes",
       R"({"answers": [1, 2, 3 ]})",
       {"answers", "", 2, "3", std::nullopt},
       R"({"answers": [1, 2 ]})"},
      {"the only one goes",
       R"({"answers": [ 1 ]})",
       {"answers", "", 0, "1", std::nullopt},
       R"({"answers": [  ]})"},
      {"a setting that was not there",
       "\xEF\xBB\xBF{\n \"recipe\": \"r\"\n}",
       {"settings", "measures", 0, std::nullopt, "\"us\""},
       "\xEF\xBB\xBF{\n \"recipe\": \"r\",\n \"settings\": {\"measures\": \"us\"}\n}"},
      {"beside another setting",
       R"({"settings": {"b": [1, 2]}, "z": 1})",
       {"settings", "measures", 0, std::nullopt, "\"us\""},
       R"({"settings": {"b": [1, 2], "measures": "us"}, "z": 1})"},
      {"a setting that was another",
       R"({"settings": {"measures": "uk" }})",
       {"settings", "measures", 0, "\"uk\"", "\"us\""},
       R"({"settings": {"measures": "us" }})"},
  };
  return kCases;
}

TEST(ProjectText, ChangesNothingBesideTheDecisionAndTakesItBack) {
  for (const auto& [what, before, edit, after] : cases()) {
    auto text = ProjectText::read(before, "p.json");
    ASSERT_TRUE(text) << what;
    const auto made = text->apply(edit);
    ASSERT_TRUE(made) << what << ": " << render(made.error());
    EXPECT_EQ(text->bytes(), after) << what;
    ASSERT_TRUE(text->apply(taken_back(*made))) << what;
    EXPECT_EQ(text->bytes(), before) << what;
  }
}

// However she spaced her list: each entry taken out and put in, taken back, done again and taken back again.
TEST(ProjectText, LeavesTheVeryBytesHoweverTheListIsSpaced) {
  const std::vector<std::string> blanks{"", " ", "  ", "\n", "\r\n\t", "\n    ", " \n\n "};
  unsigned next = 1;
  const auto blank = [&] {
    next = next * 1664525U + 1013904223U;  // the same lists in every run
    return blanks[(next >> 16U) % blanks.size()];
  };
  const auto there_and_back = [](const std::string& whole, ProjectEdit edit) {
    auto text = *ProjectText::read(whole, "p.json");
    const auto made = text.apply(std::move(edit));
    ASSERT_TRUE(made) << whole;
    const auto changed = text.bytes();
    ASSERT_NE(changed, whole);
    const auto back = text.apply(taken_back(*made));
    ASSERT_TRUE(back) << whole;
    ASSERT_EQ(text.bytes(), whole);
    const auto again = text.apply(taken_back(*back));
    ASSERT_TRUE(again) << whole;
    ASSERT_EQ(text.bytes(), changed);
    ASSERT_TRUE(text.apply(taken_back(*again))) << whole;
    ASSERT_EQ(text.bytes(), whole);
  };
  for (int round = 0; round < 300; ++round) {
    const auto size = static_cast<std::size_t>(round % 5);
    std::string list = "[" + blank();
    for (std::size_t i = 0; i < size; ++i)
      list += (i > 0 ? "," + blank() : "") + "{\"n\": " + std::to_string(i) + "}" + blank();
    const auto whole = "{\"answers\":" + blank() + list + "]" + blank() + "}";
    for (std::size_t i = 0; i <= size; ++i)
      there_and_back(whole, {"answers", "", i, std::nullopt, "\"new\""});
    for (std::size_t i = 0; i < size; ++i)
      there_and_back(whole, {"answers", "", i, "{\"n\": " + std::to_string(i) + "}", std::nullopt});
  }
}

// A gap is from a file that anybody may have written: it brings nothing into the project but blanks.
TEST(ProjectText, TakesNothingButBlanksFromAGap) {
  for (const auto& gap : std::vector<ProjectEdit::Gap>{
           {"9, ", "", ""}, {",", "", ""}, {"", ",", ""}, {"", "], \"recipe\": [1", ""}}) {
    auto text = *ProjectText::read(R"({"answers": [], "recipe": "r"})", "p.json");
    ProjectEdit edit{"answers", "", 0, std::nullopt, "1"};
    edit.gap = gap;
    ASSERT_TRUE(text.apply(edit));
    EXPECT_EQ(text.bytes(), R"({"answers": [1], "recipe": "r"})");
  }
}

TEST(ProjectText, RefusesWhatSomebodyChangedMeanwhile) {
  auto text =
      *ProjectText::read(R"({"answers": [1], "settings": {"measures": "uk"}, "recipe": "r"})", "p.json");
  const auto whole = text.bytes();
  const std::vector<ProjectEdit> refused{
      {"answers", "", 0, "2", "3"},
      {"answers", "", 0, "2", std::nullopt},
      {"segments", "", 0, "2", std::nullopt},
      {"settings", "measures", 0, std::nullopt, "\"us\""},
      {"settings", "measures", 0, "\"au\"", "\"us\""},
  };
  for (const auto& edit : refused) {
    const auto made = text.apply(edit);
    ASSERT_FALSE(made);
    EXPECT_EQ(made.error().code, ErrorCode::Exists);
    EXPECT_EQ(text.bytes(), whole);
  }
}

TEST(ProjectText, RefusesWhatIsNoProjectAndWhatWouldBreakIt) {
  EXPECT_FALSE(ProjectText::read("", "p.json"));
  EXPECT_FALSE(ProjectText::read("[1]", "p.json"));
  EXPECT_FALSE(ProjectText::read("{\"a\": 1", "p.json"));
  const auto utf16 = ProjectText::read(std::string("\xFF\xFE{\0}\0", 6), "p.json");
  ASSERT_FALSE(utf16);
  EXPECT_EQ(utf16.error().code, ErrorCode::Malformed);
  auto text = *ProjectText::read(R"({"answers": {}, "settings": 1})", "p.json");
  const auto whole = text.bytes();
  for (const auto& edit : std::vector<ProjectEdit>{{"answers", "", 0, std::nullopt, "1"},
                                                   {"settings", "measures", 0, std::nullopt, "1"},
                                                   {"new", "", 0, std::nullopt, "1, ]"}}) {
    const auto made = text.apply(edit);
    ASSERT_FALSE(made);
    EXPECT_EQ(made.error().code, ErrorCode::Malformed);
    EXPECT_EQ(text.bytes(), whole);
  }
}

}  // namespace
}  // namespace panslate
