#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/check/check.h"

namespace panslate {
namespace {

// One doubtful line, one that is said, and two lines of one food.
CheckReport report() {
  CheckReport out;
  const auto add = [&](std::string key, std::string text, std::string name, Verdict said, std::string found) {
    Requirement line;
    line.ordinal = static_cast<int>(out.requirements.size()) + 1;
    line.key = std::move(key);
    line.text = std::move(text);
    line.name = std::move(name);
    line.said.verdict = said;
    line.shown.verdict = ShownVerdict::Unconfirmed;
    if (!found.empty()) {
      Mention mention;
      mention.text = std::move(found);
      line.said.mentions.push_back(mention);
    }
    out.requirements.push_back(std::move(line));
  };
  add("aa", "2 tsp dried thyme", "dried thyme", Verdict::Unsure, "two teaspoons of time");
  add("bb", "200 g flour", "flour", Verdict::Match, "two hundred grams of flour");
  add("cc", "40 g sugar", "sugar", Verdict::Missing, "");
  add("dd", "60 g sugar", "sugar", Verdict::Missing, "");
  return out;
}

struct AnswerCase {
  const char* what;
  Answer answer;
  std::size_t line;
  Verdict said;
  ShownVerdict shown;
  bool attention;
};

TEST(Answers, HoldForTheLineTheySpeakOf) {
  using About = Answer::About;
  using Is = Answer::Is;
  const std::vector<AnswerCase> cases = {
      {"by the key",
       {"aa", About::Said, Is::Yes, "", "", {}},
       0,
       Verdict::Match,
       ShownVerdict::Unconfirmed,
       false},
      {"by the line's number",
       {"ingredient:1", About::Said, Is::Yes, "", "", {}},
       0,
       Verdict::Match,
       ShownVerdict::Unconfirmed,
       false},
      {"by the whole line",
       {"2 TSP  dried thyme", About::Said, Is::Yes, "", "", {}},
       0,
       Verdict::Match,
       ShownVerdict::Unconfirmed,
       false},
      {"by the food",
       {"dried thyme", About::Said, Is::Yes, "2 tsp dried thyme", "two teaspoons of time", {}},
       0,
       Verdict::Match,
       ShownVerdict::Unconfirmed,
       false},
      {"no", {"aa", About::Said, Is::No, "", "", {}}, 0, Verdict::Missing, ShownVerdict::Unconfirmed, true},
      {"shown", {"bb", About::Shown, Is::Yes, "", "", {}}, 1, Verdict::Match, ShownVerdict::Yes, false},
      {"not shown", {"bb", About::Shown, Is::No, "", "", {}}, 1, Verdict::Match, ShownVerdict::No, true},
      {"left alone",
       {"cc", About::Said, Is::Leave, "", "", {}},
       2,
       Verdict::Missing,
       ShownVerdict::Unconfirmed,
       false},
  };
  for (const auto& one : cases) {
    auto found = report();
    apply_answers(found, {one.answer});
    const auto& line = found.requirements[one.line];
    EXPECT_EQ(line.said.verdict, one.said) << one.what;
    EXPECT_EQ(line.shown.verdict, one.shown) << one.what;
    EXPECT_EQ(CheckReport::needs_attention(line), one.attention) << one.what;
    EXPECT_TRUE(line.answered) << one.what;
    EXPECT_TRUE(found.decide_again.empty()) << one.what;
  }
}

// What an answer spoke of is otherwise now: nothing is changed, and it is shown, old and new.
TEST(Answers, AreAskedAgainWhereTheyNoLongerFit) {
  using About = Answer::About;
  using Is = Answer::Is;
  const std::vector<std::pair<Answer, std::string>> cases = {
      {{"aa", About::Said, Is::Yes, "1 tsp dried thyme", "", {}}, "the recipe has \"2 tsp dried thyme\""},
      {{"aa", About::Said, Is::Yes, "", "a teaspoon of time", {}}, "\"two teaspoons of time\" is found"},
      {{"cc", About::Said, Is::Yes, "", "forty grams of sugar", {}}, "nothing is found for it"},
      {{"saffron", About::Said, Is::Yes, "", "", {}}, "no line of the recipe fits it now"},
      {{"sugar", About::Said, Is::Yes, "", "", {}}, "no line of the recipe fits it now"},
  };
  for (const auto& [answer, after] : cases) {
    auto found = report();
    apply_answers(found, {answer});
    ASSERT_EQ(found.decide_again.size(), 1U) << after;
    EXPECT_EQ(found.decide_again.front().after, after);
    EXPECT_EQ(found.requirements[0].said.verdict, Verdict::Unsure);
    EXPECT_TRUE(found.wants_attention());
    ASSERT_EQ(found.warnings.size(), 1U);
    EXPECT_EQ(found.warnings[0].code, "decide-again");
  }
}

}  // namespace
}  // namespace panslate
