#include <optional>
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
       {"aa", About::Said, Is::Yes, "", std::nullopt, {}},
       0,
       Verdict::Match,
       ShownVerdict::Unconfirmed,
       false},
      {"by the line's number",
       {"ingredient:1", About::Said, Is::Yes, "", std::nullopt, {}},
       0,
       Verdict::Match,
       ShownVerdict::Unconfirmed,
       false},
      {"by the whole line",
       {"2 TSP  dried thyme", About::Said, Is::Yes, "", std::nullopt, {}},
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
      {"no",
       {"aa", About::Said, Is::No, "", std::nullopt, {}},
       0,
       Verdict::Missing,
       ShownVerdict::Unconfirmed,
       true},
      {"shown",
       {"bb", About::Shown, Is::Yes, "", std::nullopt, {}},
       1,
       Verdict::Match,
       ShownVerdict::Yes,
       false},
      {"not shown",
       {"bb", About::Shown, Is::No, "", std::nullopt, {}},
       1,
       Verdict::Match,
       ShownVerdict::No,
       true},
      {"left alone",
       {"cc", About::Said, Is::Leave, "", std::nullopt, {}},
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

// The marks of a number are a part of it, others are not.
TEST(Answers, HoldForTheSameAmountOnly) {
  struct Written {
    const char* answered;
    const char* now;
    bool same;
  };
  const std::vector<Written> cases = {
      {"½ tsp salt", "¾ tsp salt", false},
      {"½ tsp salt", "½ TSP  salt", true},
      {"1.5 kg beef", "1/5 kg beef", false},
      {"1.5 kg beef", "15 kg beef", false},
      {"-18 °C", "18 °C", false},
      {"2–3 eggs", "2, 3 eggs", false},
      {"flour, sifted", "flour (sifted)", true},
      {"cook’s salt", "cook's salt", true},
      {"1 ½ cups", "1 cups", false},
      {"100 g butter; soft", "100 g butter, soft", true},
  };
  for (const auto& one : cases) {
    auto found = report();
    found.requirements[0].text = one.now;
    apply_answers(found, {{"aa", Answer::About::Said, Answer::Is::Yes, one.answered, std::nullopt, {}}});
    EXPECT_EQ(found.decide_again.empty(), one.same) << one.answered << " / " << one.now;
  }
}

// An answer to "it was not heard" lapses once something is heard, and one about a picture with the pictures.
TEST(Answers, HoldWhileNothingIsFoundAndWhileTheSameIsShown) {
  auto heard = report();
  apply_answers(heard, {{"aa", Answer::About::Said, Answer::Is::Yes, "", "", {}}});
  ASSERT_EQ(heard.decide_again.size(), 1U);
  EXPECT_EQ(heard.decide_again[0].after, "\"two teaspoons of time\" is found");
  auto silent = report();
  apply_answers(silent, {{"cc", Answer::About::Said, Answer::Is::Yes, "", "", {}}});
  EXPECT_TRUE(silent.decide_again.empty());
  for (const bool moved : {false, true}) {
    auto shown = report();
    shown.requirements[0].shown.segments = {"s1", moved ? "s4" : "s2"};
    apply_answers(shown, {{"aa", Answer::About::Shown, Answer::Is::Yes, "", "s1, s2", {}}});
    EXPECT_EQ(shown.decide_again.empty(), !moved);
  }
}

// What an answer spoke of is otherwise now: nothing is changed, and it is shown, old and new.
TEST(Answers, AreAskedAgainWhereTheyNoLongerFit) {
  using About = Answer::About;
  using Is = Answer::Is;
  const std::vector<std::pair<Answer, std::string>> cases = {
      {{"aa", About::Said, Is::Yes, "1 tsp dried thyme", std::nullopt, {}},
       "the recipe has \"2 tsp dried thyme\""},
      {{"aa", About::Said, Is::Yes, "", "a teaspoon of time", {}}, "\"two teaspoons of time\" is found"},
      {{"cc", About::Said, Is::Yes, "", "forty grams of sugar", {}}, "nothing is found for it"},
      {{"saffron", About::Said, Is::Yes, "", std::nullopt, {}}, "no line of the recipe fits it now"},
      {{"sugar", About::Said, Is::Yes, "", std::nullopt, {}}, "no line of the recipe fits it now"},
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
