#include "project/json_text.h"

#include <gtest/gtest.h>

namespace panslate {
namespace {

struct BrokenCase {
  std::string text;
  std::string told;
};

const BrokenCase kBroken[] = {
    // Nothing, or not all.
    {"", "p.json:1:1: error: the file is empty\n  hint: start one with: panslate new"},
    {" \r\n\t", "p.json:1:1: error: the file is empty\n  hint: start one with: panslate new"},
    {"{",
     "p.json:1:2: error: the file ends too early: the { of line 1 is not closed\n  hint: add the missing }"},
    {"{\n\"a\": [1,\n2\n",
     "p.json:4:1: error: the file ends too early: the [ of line 2 is not closed\n  hint: add the missing ]"},
    {"{\"a\": 1",
     "p.json:1:8: error: the file ends too early: the { of line 1 is not closed\n"
     "  hint: add the missing }"},
    {"{\"a\":",
     "p.json:1:6: error: the file ends too early: the { of line 1 is not closed\n"
     "  hint: add the missing }"},
    // Commas and colons.
    {"{\n \"a\": 1,\n}", "p.json:2:8: error: the comma before } is one too many\n  hint: take it out"},
    {"[1,]", "p.json:1:3: error: the comma before ] is one too many\n  hint: take it out"},
    {"{\"a\" 1}", "p.json:1:6: error: a colon is missing after \"a\""},
    {"{\"a\": 1 \"b\": 2}", "p.json:1:9: error: a comma is missing before '\"'"},
    {"{\"a\": 1\n\"b\": 2}", "p.json:2:1: error: a comma is missing before '\"'"},
    {"[1 2]", "p.json:1:4: error: a comma is missing before '2'"},
    {"[[] {}]", "p.json:1:5: error: a comma is missing before '{'"},
    {"{\"a\": }", "p.json:1:7: error: something is missing before this }"},
    {"{\"a\":,}", "p.json:1:6: error: something is missing before this ,"},
    {"[1,,2]", "p.json:1:4: error: something is missing before this ,"},
    {"{\"a\":1,,\"b\":2}",
     "p.json:1:8: error: a name in quotes was expected, found ','\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    // Brackets.
    {"[1, 2}", "p.json:1:6: error: this } does not close the [ of line 1"},
    {"{\"a\": 1]", "p.json:1:8: error: this ] does not close the { of line 1"},
    {"[}", "p.json:1:2: error: this } does not close the [ of line 1"},
    {"}", "p.json:1:1: error: something is missing before this }"},
    {"{\"a\": 1} x", "p.json:1:10: error: nothing can stand after the last bracket, found 'x'"},
    {"{}{}", "p.json:1:3: error: nothing can stand after the last bracket, found '{'"},
    // Quotes.
    {"{'a': 1}",
     "p.json:1:2: error: these are not the quotes that are needed here\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"{“a”: 1}",
     "p.json:1:2: error: these are not the quotes that are needed here\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"{\"a\": ‘b’}",
     "p.json:1:7: error: these are not the quotes that are needed here\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"{a: 1}",
     "p.json:1:2: error: a name in quotes was expected, found 'a'\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"{\"é\": \"x\n\"}",
     "p.json:1:7: error: the quotes that open here are not closed on this line\n"
     "  hint: add the missing \""},
    {"{\"a\": \"x",
     "p.json:1:7: error: the quotes that open here are not closed on this line\n"
     "  hint: add the missing \""},
    {"{\"a\": \"c:\\videos\"}",
     "p.json:1:10: error: the backslash cannot stand here\n"
     "  hint: write / between folders, and \\\\ for a backslash"},
    {"{\"a\": \"x\ty\"}",
     "p.json:1:9: error: a tab or another control character stands inside the quotes\n"
     "  hint: put a space in its place"},
    {"[\"\\u12\"]",
     "p.json:1:3: error: \\u and four digits or letters a to f belong together\n"
     "  hint: write the character itself"},
    {"[\"\\ud800\"]", "p.json:1:3: error: this is half of a character\n  hint: write the character itself"},
    {"[\"a\\u0000b\"]",
     "p.json:1:2: error: \\u0000 stands inside the quotes, which no name and no text can hold"},
    // Values.
    {"{\"a\": NaN}",
     "p.json:1:7: error: 'NaN' cannot stand here without quotes\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"[-Infinity]",
     "p.json:1:2: error: '-Infinity' is no number that can be read\n"
     "  hint: times and dates stand in quotes"},
    {"nul",
     "p.json:1:1: error: 'nul' cannot stand here without quotes\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"[truefalse]",
     "p.json:1:2: error: 'truefalse' cannot stand here without quotes\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"{\"a\": 01}",
     "p.json:1:7: error: '01' is no number that can be read\n  hint: times and dates stand in quotes"},
    {"{\"in\": 00:00:01.000}",
     "p.json:1:8: error: '00' is no number that can be read\n  hint: times and dates stand in quotes"},
    {"[1.2.3]",
     "p.json:1:2: error: '1.2.3' is no number that can be read\n  hint: times and dates stand in quotes"},
    {"[1e999]",
     "p.json:1:2: error: '1e999' is no number that can be read\n  hint: times and dates stand in quotes"},
    {"{\"a\": 1, // why\n\"b\": 2}",
     "p.json:1:10: error: a remark cannot stand here\n"
     "  hint: keep it under a name of its own: \"note\": \"…\""},
    {"# why\n{}",
     "p.json:1:1: error: a remark cannot stand here\n"
     "  hint: keep it under a name of its own: \"note\": \"…\""},
    {std::string(40, '['), "p.json:1:33: error: more than 32 brackets stand inside each other"},
    // A column counts characters, CRLF ends one line, a lone CR ends one too.
    {"{\"ü€𝄞\": x}",
     "p.json:1:9: error: 'x' cannot stand here without quotes\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"{\r\n\"a\": x}",
     "p.json:2:6: error: 'x' cannot stand here without quotes\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
    {"{\r\"a\": x}",
     "p.json:2:6: error: 'x' cannot stand here without quotes\n"
     "  hint: names and words stand in straight double quotes: \"…\""},
};

TEST(JsonText, TellsWhatIsWrongAndWhere) {
  for (const auto& [text, told] : kBroken) {
    SCOPED_TRACE(text);
    const auto read = read_json(text, "p.json");
    ASSERT_FALSE(read.has_value());
    EXPECT_EQ(render(read.error()), told);
    EXPECT_EQ(read.error().code, ErrorCode::Malformed);
  }
}

std::string places(const JsonSpot& spot) {
  std::string out = std::to_string(spot.at.line) + ":" + std::to_string(spot.at.column);
  for (const auto& item : spot.items) out += " [" + places(item) + "]";
  for (const auto& [name, member] : spot.members)
    out += " " + name + "@" + std::to_string(member.key.line) + ":" + std::to_string(member.key.column) +
           "(" + places(member) + ")";
  return out;
}

// Places counted by hand.
TEST(JsonText, KnowsThePlaceOfEveryNameAndValue) {
  struct Case {
    std::string text;
    std::string places;
  };
  const Case cases[] = {
      {"7", "1:1"},
      {"[]", "1:1"},
      {"  {}  \n", "1:3"},
      {"[1,-2.5e+3 ,true,null,\"a\"]", "1:1 [1:2] [1:4] [1:13] [1:18] [1:23]"},
      {"[0,0.5,-0]", "1:1 [1:2] [1:4] [1:8]"},
      {"{\"a\":1}", "1:1 a@1:2(1:6)"},
      {"{\r\n  \"a\" : [ 1,\r\n 2 ],\r\n  \"b\": {\"c\": false}\r\n}",
       "1:1 a@2:3(2:9 [2:11] [3:2]) b@4:3(4:8 c@4:9(4:14))"},
      {"[\"x\\\"]\",2]", "1:1 [1:2] [1:9]"},
      {"[\"\\\\\",2]", "1:1 [1:2] [1:7]"},
      {"[\",:{[\",2]", "1:1 [1:2] [1:9]"},
      {"{\"ü€𝄞\": 1, \"b\": 2}", "1:1 b@1:12(1:17) ü€𝄞@1:2(1:9)"},
  };
  for (const auto& [text, expected] : cases) {
    SCOPED_TRACE(text);
    const auto read = read_json(text, "p.json");
    ASSERT_TRUE(read.has_value()) << render(read.error());
    EXPECT_EQ(places(read->spot), expected);
    EXPECT_EQ(read->value, nlohmann::json::parse(text));
    EXPECT_TRUE(read->oddities.empty());
  }
}

TEST(JsonText, KeepsTheFirstOfTwoAndTellsOfTheSecond) {
  const auto read =
      read_json("{\"a\": 1,\n \"b\": {\"c\": 1, \"c\": {\"d\": 1, \"d\": [2, 3]}},\n \"a\": 2}", "p.json");
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->value, nlohmann::json::parse(R"({"a": 1, "b": {"c": 1}})"));
  std::vector<std::string> told;
  for (const auto& oddity : read->oddities) told.push_back(render(oddity));
  EXPECT_EQ(told,
            (std::vector<std::string>{
                "p.json:2:16: error: \"c\" is written twice, first on line 2\n  hint: keep one of them",
                "p.json:2:30: error: \"d\" is written twice, first on line 2\n  hint: keep one of them",
                "p.json:3:2: error: \"a\" is written twice, first on line 1\n  hint: keep one of them"}));
}

TEST(JsonText, ReadsDownToTheDepthLimit) {
  const std::string deep = std::string(kJsonDepthLimit, '[') + std::string(kJsonDepthLimit, ']');
  EXPECT_TRUE(read_json(deep, "p.json").has_value());
}

}  // namespace
}  // namespace panslate
