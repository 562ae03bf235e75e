#include "desk/requests.h"

#include <gtest/gtest.h>

#include "desk/desk_folder.h"

namespace panslate {
namespace {

TEST(Requests, AreRefusedWhereAFieldIsWrong) {
  const std::string good =
      R"({"line":"k","about":"said","is":"yes","written":"2 tsp [dried] thyme","found":"","was":""})";
  EXPECT_TRUE(answer_request(good));
  for (const auto& bad : std::vector<std::string>{
           "", "{", "null", "[]", "[[[[[[[[[[[[[[[[", "\"yes\"", R"({"line":"k"})",
           R"({"line":"","about":"said","is":"yes","written":"","found":"","was":""})",
           R"({"line":"k","about":"heard","is":"yes","written":"","found":"","was":""})",
           R"({"line":"k","about":"said","is":"perhaps","written":"","found":"","was":""})",
           R"({"line":"k","about":"said","is":1,"written":"","found":"","was":""})",
           R"({"line":["k"],"about":"said","is":"yes","written":"","found":"","was":""})",
           R"({"line":"k\u0000","about":"said","is":"yes","written":"","found":"","was":""})",
           R"({"line":"k","about":"said","is":"yes","written":"","found":"","was":"maybe"})",
           "{\"line\":\"\xFF\",\"about\":\"said\",\"is\":\"yes\",\"written\":\"\",\"found\":\"\",\"was\":"
           "\"\"}",
           R"({"line":")" + std::string(9000, 'x') + R"(","about":"said","is":"yes"})"})
    EXPECT_FALSE(answer_request(bad)) << bad.substr(0, 80);
  EXPECT_TRUE(measures_request(R"({"measures":"au","was":""})"));
  EXPECT_FALSE(measures_request(R"({"measures":"moon","was":""})"));
  EXPECT_FALSE(measures_request(R"({"measures":"au","was":"moon"})"));
  EXPECT_TRUE(forget_request(R"({"answer":3,"line":"k","about":"said","is":"no","written":""})"));
  EXPECT_FALSE(forget_request(R"({"answer":-3,"line":"k","about":"said","is":"no","written":""})"));
  EXPECT_FALSE(forget_request(R"({"answer":"3","line":"k","about":"said","is":"no","written":""})"));
  EXPECT_FALSE(forget_request(R"({"answer":3,"line":"k"})"));
  EXPECT_FALSE(forget_request(R"({"answer":3,"line":"k","about":"said","is":"","written":""})"));
}

TEST(Requests, ThatAreNoneChangeNothing) {
  testing::DeskFolder folder;
  const auto before = folder.project_text();
  for (const auto* route : {"answer", "measures", "forget"})
    for (const auto* body : {"", "{}", "[1]", "\xFF\xFE", "{\"line\":"}) {
      auto request = testing::DeskFolder::request("POST", route);
      request.body = body;
      EXPECT_EQ(folder.desk().answer(request).status, 400) << route << " " << body;
    }
  EXPECT_EQ(folder.post("nothing", {}).status, 404);
  EXPECT_EQ(folder.project_text(), before);
}

// A line that holds the marks of JSON and HTML comes through as itself.
TEST(Requests, TextStaysText) {
  testing::DeskFolder folder;
  folder.write("recipe.md",
               "# A \"dish\" <b>\n\n## Ingredients\n\n- 40 g sugar \"</script>\" \\ & co\n\n## Method\n\n1. "
               "Stir the sugar in.\n");
  const auto doubts = folder.state().at("doubts");
  ASSERT_FALSE(doubts.empty());
  const auto reply = folder.post("answer", testing::answer_to(doubts[0], "yes"));
  ASSERT_EQ(reply.status, 200) << reply.body;
  const auto project = load_project(real_file_system(), folder.path() / "project.json");
  ASSERT_TRUE(project);
  EXPECT_EQ(project->answers.at(0).written, doubts[0].at("written").get<std::string>());
}

}  // namespace
}  // namespace panslate
