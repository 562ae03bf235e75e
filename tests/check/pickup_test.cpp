// What to say again, as she would say it. The lines are judged by hand: common practice, no source.
#include "panslate/check/pickup.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/check/check.h"
#include "panslate/check/spoken_index.h"

namespace panslate {
namespace {

constexpr const char* kRecipe = R"(# Marsh Barley Pot

Ingredients

- 250 g pearl barley, rinsed
- 3 leeks
- 1 tbsp mustard
- 40 ml olive oil
- 30 ml chilli oil

Method

1. Heat the oven to 180 °C.
2. Slice the leeks and soften them in the olive oil.
3. Stir in the pearl barley and bake for 40 minutes.
4. Whisk the mustard with a splash of water and pour it over.
5. Drip the chilli oil over it.
)";

// One caption for each line, four seconds long, with two seconds before the next one.
std::string captions_of(const std::vector<std::string>& lines) {
  std::string text = "WEBVTT\n\n";
  int second = 10;
  for (const auto& line : lines) {
    const auto time = [](int s) {
      return "00:0" + std::to_string(s / 60) + ":" + std::to_string(100 + s % 60).substr(1) + ".000";
    };
    text += time(second) + " --> " + time(second + 4) + "\n" + line + "\n\n";
    second += 6;
  }
  return text;
}

struct Checked {
  Recipe recipe;
  Transcript transcript;
  CheckReport report;
  std::vector<Pickup> pickups;
};

Checked checked(const std::vector<std::string>& talk) {
  Checked out;
  out.recipe = *read_recipe(kRecipe, "pot.md");
  out.transcript = *read_captions(captions_of(talk), "pot.vtt");
  CheckInput input;
  input.recipe = &out.recipe;
  input.said.push_back({&out.transcript, {}});
  out.report = check(input);
  out.pickups = pickups_of(out.report, out.recipe, input.said);
  return out;
}

const Pickup* pickup_of(const Checked& film, const std::string& id) {
  for (const auto& pickup : film.pickups)
    if (CheckReport::id_of(film.report.requirements[pickup.requirement]) == id) return &pickup;
  return nullptr;
}

const std::vector<std::string> kRight{
    "Heat the oven to 180 degrees Celsius.",
    "Slice three leeks and soften them in 40 millilitres of olive oil.",
    "Stir in 250 grams of pearl barley and bake for 40 minutes.",
    "Whisk a tablespoon of mustard with a splash of water and pour it over.",
    "Drip 30 millilitres of chilli oil over it."};

struct LineCase {
  const char* what;
  std::size_t line;  ///< of kRight
  const char* said;
  const char* id;
  const char* again;
  bool in_her_words;
};

class LineToSayAgain : public testing::TestWithParam<LineCase> {};

TEST_P(LineToSayAgain, HasTheWrittenAmount) {
  auto talk = kRight;
  talk[GetParam().line] = GetParam().said;
  const auto film = checked(talk);
  const auto* pickup = pickup_of(film, GetParam().id);
  ASSERT_NE(pickup, nullptr) << "nothing to say again";
  EXPECT_EQ(pickup->line, GetParam().again);
  EXPECT_EQ(!pickup->instead_of.empty(), GetParam().in_her_words);
}

INSTANTIATE_TEST_SUITE_P(
    Cases, LineToSayAgain,
    testing::Values(
        LineCase{"another amount", 2,
                 "So in go two hundred grams of pearl barley, and it bakes for 40 minutes.", "ingredient:1",
                 "So in go 250 g of pearl barley, and it bakes for 40 minutes.", true},
        LineCase{"an article before a hundred", 2,
                 "Stir in a hundred grams of pearl barley and bake for 40 minutes.", "ingredient:1",
                 "Stir in 250 g of pearl barley and bake for 40 minutes.", true},
        LineCase{"a count, and the food in its number", 1,
                 "Slice one leek and soften it in 40 millilitres of olive oil.", "ingredient:2",
                 "Slice 3 leeks and soften it in 40 millilitres of olive oil.", true},
        LineCase{"no amount", 3, "Whisk the mustard with a splash of water and pour it over.", "ingredient:3",
                 "Whisk 1 tbsp mustard with a splash of water and pour it over.", true},
        LineCase{"a vague one", 3, "Whisk some lovely mustard with a splash of water.", "ingredient:3",
                 "Whisk 1 tbsp lovely mustard with a splash of water.", true},
        LineCase{"a vague one of two words", 3, "Whisk a bit of mustard with a splash of water.",
                 "ingredient:3", "Whisk 1 tbsp mustard with a splash of water.", true},
        LineCase{"a temperature", 0, "Heat the oven to 200 degrees Celsius.", "temperature:1",
                 "Heat the oven to 180 °C.", true},
        LineCase{"a time", 2, "Stir in 250 grams of pearl barley and bake for half an hour.", "time:1",
                 "Stir in 250 grams of pearl barley and bake for 40 min.", true},
        LineCase{"two wrong ones in a breath", 1,
                 "Slice two leeks and soften them in 50 millilitres of olive oil.", "ingredient:2",
                 "Slice 3 leeks and soften them in 40 ml of olive oil.", true},
        LineCase{"never said: the recipe's sentence", 3, "And then it is poured over.", "ingredient:3",
                 "Whisk 1 tbsp mustard with a splash of water and pour it over.", false},
        LineCase{"a time never said", 2, "Stir in 250 grams of pearl barley.", "time:1",
                 "Stir in the pearl barley and bake for 40 minutes.", false}),
    [](const auto& param) {
      std::string name;
      for (const char c : std::string(param.param.what))
        name += (c >= 'a' && c <= 'z') ? std::string(1, c) : std::string("_");
      return name;
    });

// Which of several amounts is wrong only she knows: no sentence of hers is made to claim one.
TEST(Pickups, AmountsThatAddUpAreNotPutIntoHerWords) {
  auto talk = kRight;
  talk[2] =
      "Stir in a hundred grams of pearl barley, then another fifty grams of barley, and bake for 40 minutes.";
  const auto film = checked(talk);
  const auto* pickup = pickup_of(film, "ingredient:1");
  ASSERT_NE(pickup, nullptr);
  EXPECT_TRUE(pickup->instead_of.empty()) << pickup->line;
}

TEST(Pickups, TellHowLongTheFilmHasAndSheTakes) {
  auto talk = kRight;
  talk[2] = "Stir in two hundred grams of pearl barley and bake for 40 minutes.";
  const auto film = checked(talk);
  const auto* pickup = pickup_of(film, "ingredient:1");
  ASSERT_NE(pickup, nullptr);
  EXPECT_EQ(pickup->at->to_ms(Round::Nearest), 22'000);  // the third caption
  EXPECT_EQ(pickup->room->to_ms(Round::Nearest), 4'000);
  // Five captions of four seconds hold 6+4, 10+2, 12, 13 and 7+1 spoken words ("180" is four, "40" two); the
  // line "Stir in 250 g of pearl barley and bake for 40 minutes." is 2+4+1+3+3+2+1 = 16 words.
  const auto pace = SpokenIndex(std::vector<TimedText>{{&film.transcript, {}}}).words_a_second();
  EXPECT_NEAR(pickup->takes->seconds(), 16 / pace, 0.001);
  EXPECT_GT(pace, 2.5);
  EXPECT_LT(pace, 3.1);
}

TEST(Pickups, ALineNeverSaidGoesIntoThePauseOfItsStep) {
  auto talk = kRight;
  talk[2] = "Stir in 250 grams of pearl barley.";
  const auto film = checked(talk);
  const auto* pickup = pickup_of(film, "time:1");
  ASSERT_NE(pickup, nullptr);
  ASSERT_TRUE(pickup->at && pickup->room);
  EXPECT_EQ(pickup->at->to_ms(Round::Nearest), 26'000);  // where the third caption ends
  EXPECT_EQ(pickup->room->to_ms(Round::Nearest), 2'000);
}

TEST(Pickups, ComeInTheOrderTheyAreDone) {
  auto talk = kRight;
  talk[0] = "Heat the oven to 200 degrees Celsius.";
  talk[3] = "Whisk the mustard with a splash of water.";
  const auto film = checked(talk);
  ASSERT_EQ(film.pickups.size(), 2U);
  EXPECT_LT(*film.pickups[0].at, *film.pickups[1].at);
  EXPECT_EQ(film.pickups[0].line, "Heat the oven to 180 °C.");
}

struct CountCase {
  const char* text;
  std::size_t words;
};

TEST(SpokenIndex, CountsWordsAsTheyAreSpoken) {
  for (const auto& [text, words] :
       {CountCase{"", 0}, CountCase{"olive oil", 2}, CountCase{"250 g", 5}, CountCase{"8 plums", 2},
        CountCase{"don't", 1}, CountCase{"40 minutes.", 3}, CountCase{"1500 ml", 7}})
    EXPECT_EQ(spoken_word_count(text), words) << text;
}

TEST(SpokenIndex, FindsASentenceAndWhatStandsAroundIt) {
  const auto transcript = *read_captions(
      "WEBVTT\n\n00:10.000 --> 00:14.000\nAnd stir. Add two leeks\n\n"
      "00:14.000 --> 00:18.000\nto the pot now. Then wait.\n\n",
      "a.vtt");
  const SpokenIndex index(std::vector<TimedText>{{&transcript, "edit"}});
  const auto& words = transcript.words;
  const auto span = index.find("edit", {words[3].when.begin, words[4].when.end});
  EXPECT_EQ(span.text(), "two leeks");
  EXPECT_EQ(index.sentence_around(span).text(), "Add two leeks to the pot now.");
  EXPECT_TRUE(index.find("voice", {words[3].when.begin, words[4].when.end}).empty());
  EXPECT_TRUE(index.find("edit", {MediaTime::from_ms(1), MediaTime::from_ms(2)}).empty());
}

}  // namespace
}  // namespace panslate
