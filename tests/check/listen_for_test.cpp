// Amounts said otherwise, from the sound: a short cut of what tests/bench/listen_measure.cpp measures.
#include "panslate/check/listen_for.h"

#include <algorithm>
#include <iostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

#include "check/listening_figures.h"
#include "check/other_amounts.h"

namespace panslate {
namespace {

// True when a graph of words can say the phrase.
bool can_say(const Sayings& sayings, const std::string& phrase) {
  const auto words = split(phrase, ' ');
  std::vector<std::pair<std::uint32_t, std::size_t>> open{{Sayings::kStart, 0}};
  while (!open.empty()) {
    const auto [node, said] = open.back();
    open.pop_back();
    if (node == Sayings::kEnd && said == words.size()) return true;
    for (const auto& arc : sayings.arcs()) {
      if (arc.from != node) continue;
      if (arc.word.empty())
        open.emplace_back(arc.to, said);
      else if (said < words.size() && arc.word == words[said])
        open.emplace_back(arc.to, said + 1);
    }
  }
  return false;
}

struct OtherCase {
  const char* line;
  std::vector<std::string> may_be_said;
  std::vector<std::string> never;  // the script's own amount, or no English
};

class OtherAmountsOf : public ::testing::TestWithParam<OtherCase> {};

TEST_P(OtherAmountsOf, AreWhatACookMightSay) {
  const auto amounts = amounts_to_hear(GetParam().line);
  ASSERT_EQ(amounts.size(), 1U);
  for (const auto& phrase : GetParam().may_be_said)
    EXPECT_TRUE(can_say(amounts[0].otherwise, phrase)) << phrase;
  for (const auto& phrase : GetParam().never) EXPECT_FALSE(can_say(amounts[0].otherwise, phrase)) << phrase;
  for (const auto& reading : amounts[0].readings)
    EXPECT_FALSE(can_say(amounts[0].otherwise, join(reading, " "))) << join(reading, " ");
}

INSTANTIATE_TEST_SUITE_P(
    Kitchen, OtherAmountsOf,
    ::testing::Values(
        OtherCase{"Add 200 g of flour.",
                  {"three hundred grams", "two hundred and fifty grams", "two hundred mils", "two kilos",
                   "two fifty grams", "twenty grams", "two tablespoons"},
                  {"two hundred grams", "two hundred fifty grams", "two hundred two grams"}},
        OtherCase{"Add ½ tsp salt.",
                  {"half a tablespoon", "a quarter of a teaspoon", "one teaspoon", "one and a half teaspoons",
                   "a teaspoon and a half", "two cups"},
                  {"half a teaspoon", "a half teaspoon", "two teaspoon", "one teaspoons"}},
        OtherCase{"Simmer it for 1 minute.",
                  {"two minutes", "one hour", "half an hour", "ten seconds"},
                  {"one minute", "a minute", "a minutes", "two minute"}},
        OtherCase{
            "Simmer it for 30 minutes.",
            {"three minutes", "thirteen minutes", "half a minute", "an hour", "three quarters of an hour"},
            {"thirty minutes", "half an hour", "half of an hour"}},
        OtherCase{"Bake it for 90 minutes.",
                  {"nineteen minutes", "nine minutes", "two hours"},
                  {"ninety minutes", "an hour and a half", "one and a half hours"}},
        OtherCase{"Bake for 12–15 minutes.",
                  {"ten to fifteen minutes", "twelve to fifty minutes", "twelve minutes"},
                  {"twelve to fifteen minutes"}},
        OtherCase{"Heat the oven to 180 °C.",
                  {"one sixty", "a hundred and eighteen degrees celsius", "one eighty fahrenheit"},
                  {"one eighty", "a hundred and eighty degrees"}},
        OtherCase{"Open 2 x 400 g tins of beans.",
                  {"three four hundred gram tins", "two two hundred gram tins"},
                  {"two four hundred gram tins"}},
        OtherCase{"Give it 10 more minutes.",
                  {"five more minutes", "twenty more minutes"},
                  {"ten more minutes", "five minutes"}},
        OtherCase{
            "Chop 4 cloves of garlic.", {"five cloves", "four tablespoons"}, {"four cloves", "one cloves"}},
        OtherCase{"Set it to gas 4.", {"gas mark six", "gas five"}, {"gas four", "gas mark four"}}));

TEST(AmountsToHear, FindsAlternatesByThemselves) {
  const std::string line = "Heat it to 200 °C, or 180 °C fan, with about 2 litres.";
  const auto amounts = amounts_to_hear(line);
  ASSERT_EQ(amounts.size(), 3U);
  std::vector<std::string> written;
  for (const auto& amount : amounts) written.push_back(line.substr(amount.begin, amount.end - amount.begin));
  EXPECT_EQ(written, (std::vector<std::string>{"200 °C", "180 °C fan", "2 litres"}));
  const auto words = words_to_hear(line, amounts);
  ASSERT_EQ(words.size(), 9U);
  EXPECT_EQ(words[3].text, "200 °C");
  EXPECT_FALSE(words[3].readings.empty());
  EXPECT_EQ(words[7].text, "about");
}

TEST(AmountsToHear, SurvivesWhatPeopleType) {
  for (const auto* line : {"", " ", "½", "99999999999999999999 g", "1/0 cup", "-5 g", "2 x 0 g tins", "0 g",
                           "°C", "1 1 1 1", "a a a a cup", "1000000 g", "123456 ml", "1/7 cup", "3.14159 l"})
    for (const auto& amount : amounts_to_hear(line)) {
      EXPECT_LT(amount.begin, amount.end) << line;
      EXPECT_LE(amount.end, std::string_view(line).size()) << line;
      EXPECT_TRUE(amount.amount.value) << line;
      EXPECT_FALSE(words_to_hear(line, std::span(&amount, 1)).empty()) << line;
    }
}

// Half of the targets' lines, so that it ends in time: the whole is measured by
// tests/bench/listen_measure.cpp.
TEST(ListenForAmounts, HearsSlipsAndLeavesTheRestAlone) {
  testing::ListeningFigures all;
  const std::vector<testing::ListeningCase> cases{
      {.script = "coconut_fish_curry.txt", .voice = {testing::Speaker::Kal16}, .first_line = 1, .lines = 4},
      {.script = "coconut_fish_curry.txt", .voice = {testing::Speaker::Awb}, .first_line = 12, .lines = 4}};
  for (const auto& listening : cases) {
    const auto figures = testing::listen_to(listening);
    std::cout << to_string(listening.voice) << ": " << figures << '\n';
    all += figures;
  }
  EXPECT_GE(all.recall(), 0.97);
  EXPECT_GE(all.altered_differs * 10, all.altered * 7) << "slips are told, not only doubted";
  EXPECT_GE(all.heard_exactly * 10, all.altered_differs * 8);
  EXPECT_LE(all.false_differs(), 0.01);
  // Teens and tens are left to a person, and these lines have many of them.
  EXPECT_LE(all.false_unsure(), 0.3);
}

// espeak-ng's voices do not fit the model: nothing may be called right.
TEST(ListenForAmounts, LeavesAVoiceItDoesNotUnderstandToAPerson) {
  const auto figures = testing::listen_to({.script = "coconut_fish_curry.txt",
                                           .voice = {testing::Speaker::EspeakScotland},
                                           .first_line = 3,
                                           .lines = 1});
  std::cout << figures << '\n';
  EXPECT_EQ(figures.recall(), 1.0);
  EXPECT_EQ(figures.false_differs(), 0.0);
  EXPECT_EQ(figures.untouched_unsure, figures.untouched);
}

}  // namespace
}  // namespace panslate
