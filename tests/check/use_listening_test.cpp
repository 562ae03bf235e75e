// What the sound tells, put to use: words stand where they are heard, and amounts that sound otherwise are no
// longer taken for right.
#include "panslate/check/use_listening.h"

#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/check/check.h"
#include "panslate/check/listen.h"

namespace panslate {
namespace {

MediaTime ms(std::int64_t value) {
  return MediaTime::from_ms(value);
}

Transcript captions_of(const std::string& subrip) {
  auto read = read_captions(subrip, "talk.srt");
  EXPECT_TRUE(read);
  return read ? *std::move(read) : Transcript{};
}

// A line whose words are heard one after the other, each 100 ms long, from a moment on.
void say(Listening& heard, int line, std::vector<std::string> words, std::int64_t from) {
  const auto begin = from;
  for (auto& word : words) {
    heard.words.push_back({line, std::move(word), {ms(from), ms(from + 100)}, ms(10)});
    from += 100;
  }
  heard.lines.push_back({line, "", {{{ms(begin), ms(from)}, true, true, ""}}});
}

TEST(PutInPlace, WordsStandWhereTheyAreHeard) {
  auto captions = captions_of(
      "1\n00:00:10,000 --> 00:00:20,000\nPour in 200 g of Oats!\n\n2\n00:00:20,000 --> 00:00:30,000\nStir "
      "well.\n");
  Listening heard;
  say(heard, 1, {"pour", "in", "two", "hundred", "grams", "of", "oats"}, 12'000);
  const auto before = captions;
  put_in_place(captions, heard);
  ASSERT_EQ(captions.words.size(), 8U);
  const std::vector<std::int64_t> begins{12'000, 12'100, 12'200, 12'350, 12'500, 12'600};
  for (std::size_t i = 0; i < begins.size(); ++i)
    EXPECT_EQ(captions.words[i].when.begin, ms(begins[i])) << captions.words[i].text;
  EXPECT_EQ(captions.words[0].precision, ms(10));
  EXPECT_GE(captions.words[2].precision, ms(100)) << "how '200' and 'g' share the time is a guess";
  EXPECT_EQ(captions.words[7].when, before.words[7].when) << "what was not heard stays";
}

TEST(PutInPlace, CuesHeardOtherwiseStayAsTheyAre) {
  auto captions = captions_of("1\n00:00:10,000 --> 00:00:20,000\nPour in two hundred grams of oats.\n");
  const auto before = captions;
  Listening heard;
  say(heard, 1, {"something", "else", "of", "oats"}, 12'000);
  put_in_place(captions, heard);
  EXPECT_EQ(captions.words[0].when, before.words[0].when);
  Listening broken;
  say(broken, 1, {"pour", "in", "two", "hundred", "grams", "of", "oats"}, 12'000);
  broken.lines[0].takes[0].complete = false;
  put_in_place(captions, broken);
  EXPECT_EQ(captions.words[0].when, before.words[0].when);
}

struct Case {
  std::string name;
  std::string captions;  // for 200 g of oats
  std::string heard;
  Heeded sound;
  Verdict said;
  friend void PrintTo(const Case& c, std::ostream* out) { *out << c.name; }
};

class HeedSound : public testing::TestWithParam<Case> {};

TEST_P(HeedSound, DecidesTogetherWithTheCaptions) {
  auto recipe =
      read_recipe("Porridge\n\nIngredients\n\n- 200 g oats\n\nMethod\n\n1. Toast the oats.\n", "p.md");
  ASSERT_TRUE(recipe);
  auto captions =
      captions_of("1\n00:00:10,000 --> 00:00:20,000\nPour in " + GetParam().captions + " of oats.\n");
  Listening heard;
  const auto line = script_to_hear(script_of(captions)).at(0);
  const auto amount = amounts_to_hear(line.text).at(0).amount;
  say(heard, 1, {"pour", "in", "two", "hundred", "grams", "of", "oats"}, 12'000);
  ListenedAmount listened;
  listened.line = 1;
  listened.when = {ms(12'200), ms(12'500)};
  listened.script = amount;
  listened.heard_text = GetParam().heard;
  listened.heard = amount_in_words(GetParam().heard, amount);
  listened.verdict = GetParam().sound;
  heard.amounts.push_back(listened);
  put_in_place(captions, heard);
  CheckInput input;
  input.recipe = &*recipe;
  input.said.push_back({&captions, "voice"});
  auto report = check(input);
  ASSERT_FALSE(report.requirements.empty());
  auto other = report;
  heed_sound(report, "voice", heard, Measures::Metric);
  EXPECT_EQ(report.requirements[0].said.verdict, GetParam().said) << report.requirements[0].why;
  EXPECT_EQ(report.requirements[0].covered, GetParam().said == Verdict::Match);
  heed_sound(other, "another clip", heard, Measures::Metric);
  EXPECT_EQ(other.requirements[0].said.verdict,
            GetParam().captions == "200 grams" ? Verdict::Match : Verdict::Differs);
}

INSTANTIATE_TEST_SUITE_P(
    Sounds, HeedSound,
    testing::Values(
        Case{"as_written", "200 grams", "two hundred grams", Heeded::AsWritten, Verdict::Match},
        Case{"another_amount_is_heard", "200 grams", "three hundred grams", Heeded::Differs,
             Verdict::Differs},
        Case{"the_same_in_other_words", "200 grams", "point two kilos", Heeded::Differs, Verdict::Match},
        Case{"not_settled", "200 grams", "three hundred grams", Heeded::Unsure, Verdict::Unsure},
        Case{"nothing_understood", "200 grams", "", Heeded::Unsure, Verdict::Unsure},
        Case{"captions_are_wrong", "300 grams", "two hundred grams", Heeded::Differs, Verdict::Unsure},
        Case{"both_are_wrong", "300 grams", "four hundred grams", Heeded::Differs, Verdict::Differs},
        Case{"wrong_and_not_settled", "300 grams", "two hundred grams", Heeded::Unsure, Verdict::Differs}),
    [](const auto& named) { return named.param.name; });

// 60 g told in two parts, on one clip: what is heard of each counts.
Verdict said_of_parts(Heeded second, const std::string& heard_second, WordsFrom from,
                      bool second_listened = true) {
  const auto recipe =
      read_recipe("Rub\n\nIngredients\n\n- 60 g sugar\n\nMethod\n\n1. Stir in the sugar.\n", "r.md");
  EXPECT_TRUE(recipe);
  const auto captions = captions_of(
      "1\n00:00:10,000 --> 00:00:13,000\nThirty grams of sugar now.\n\n2\n00:00:20,000 --> 00:00:23,000\nAnd "
      "another thirty grams of sugar.\n");
  Listening heard;
  heard.status = ListenStatus::Aligned;
  const auto listened = [&](int line, std::int64_t from_ms, std::string words, Heeded verdict) {
    ListenedAmount one;
    one.line = line;
    one.when = {ms(from_ms), ms(from_ms + 3'000)};
    one.script.value = Ratio(30);
    one.script.unit = Unit::Gram;
    one.heard = amount_in_words(words, one.script);
    one.heard_text = std::move(words);
    one.verdict = verdict;
    heard.amounts.push_back(std::move(one));
    heard.lines.push_back({line, "", {{{ms(from_ms), ms(from_ms + 3'000)}, true, true, ""}}});
  };
  listened(1, 10'000, "thirty grams", Heeded::AsWritten);
  if (second_listened) listened(2, 20'000, heard_second, second);
  CheckInput input;
  input.recipe = &*recipe;
  input.said.push_back({&captions, "voice"});
  auto report = check(input);
  EXPECT_EQ(report.requirements[0].said.verdict, Verdict::Match) << report.requirements[0].why;
  heed_sound(report, "voice", heard, Measures::Metric, from);
  return report.requirements[0].said.verdict;
}

TEST(HeedSound, EachPartOfASumCounts) {
  EXPECT_EQ(said_of_parts(Heeded::AsWritten, "thirty grams", WordsFrom::Captions), Verdict::Match);
  EXPECT_EQ(said_of_parts(Heeded::Differs, "forty grams", WordsFrom::Captions), Verdict::Unsure);
  EXPECT_EQ(said_of_parts(Heeded::Differs, "sixty grams", WordsFrom::Captions), Verdict::Unsure)
      << "the whole is no part";
  EXPECT_EQ(said_of_parts(Heeded::Unsure, "thirteen grams", WordsFrom::Captions), Verdict::Unsure);
}

TEST(HeedSound, WhatWasNotFoundInTheSoundIsDoubted) {
  EXPECT_EQ(said_of_parts(Heeded::AsWritten, "", WordsFrom::Captions, false), Verdict::Unsure);
  EXPECT_EQ(said_of_parts(Heeded::AsWritten, "", WordsFrom::Script, false), Verdict::Unsure);
}

// "Add two hundred" | "grams of oats": the amount is no amount of one caption, and what is heard there
// counts.
TEST(HeedSound, CountsWhereCaptionsCutAnAmount) {
  const auto recipe =
      read_recipe("Porridge\n\nIngredients\n\n- 200 g oats\n\nMethod\n\n1. Toast the oats.\n", "p.md");
  ASSERT_TRUE(recipe);
  const auto captions = captions_of(
      "1\n00:00:10,000 --> 00:00:12,000\nAdd 200\n\n2\n00:00:12,000 --> 00:00:14,000\ngrams of oats.\n");
  Listening heard;
  heard.status = ListenStatus::Aligned;
  ListenedAmount one;
  one.line = 1;
  one.when = {ms(11'000), ms(12'000)};
  one.script.value = Ratio(200);
  one.heard_text = "three hundred";
  one.verdict = Heeded::Differs;
  heard.amounts.push_back(one);
  CheckInput input;
  input.recipe = &*recipe;
  input.said.push_back({&captions, "voice"});
  auto report = check(input);
  ASSERT_EQ(report.requirements[0].said.verdict, Verdict::Match);
  heed_sound(report, "voice", heard, Measures::Metric);
  EXPECT_EQ(report.requirements[0].said.verdict, Verdict::Unsure) << "another amount may be all there is";
}

// Two clips stand in an edit one after the other, each with its own amount: neither is asked about the
// other's.
TEST(HeedSound, OfAnEditEachClipSpeaksForItsOwnStretch) {
  const auto recipe =
      read_recipe("Porridge\n\nIngredients\n\n- 200 g oats\n- 500 ml milk\n\nMethod\n\n1. Mix.\n", "p.md");
  ASSERT_TRUE(recipe);
  const auto captions = captions_of(
      "1\n00:00:01,000 --> 00:00:03,000\nAdd 200 g of oats.\n\n2\n00:00:06,000 --> 00:00:08,000\nPour in 500 "
      "ml "
      "of milk.\n");
  const auto clip = [](int begin, const char* words, Unit unit, int value, Heeded verdict) {
    HeardInEdit one;
    one.covers = {{ms(begin), ms(begin + 5'000)}};
    one.listening.status = ListenStatus::Aligned;
    ListenedAmount amount;
    amount.line = 1;
    amount.when = {ms(begin + 1'000), ms(begin + 3'000)};
    amount.script.value = Ratio(value);
    amount.script.unit = unit;
    amount.heard_text = words;
    amount.heard = amount_in_words(words, amount.script);
    amount.verdict = verdict;
    one.listening.amounts.push_back(amount);
    return one;
  };
  CheckInput input;
  input.recipe = &*recipe;
  input.said.push_back({&captions, "edit"});
  const auto said = [&](const std::vector<HeardInEdit>& heard) {
    auto report = check(input);
    heed_sound(report, "edit", heard, Measures::Metric);
    return std::vector{report.requirements[0].said.verdict, report.requirements[1].said.verdict};
  };
  const auto oats = clip(0, "two hundred grams", Unit::Gram, 200, Heeded::AsWritten);
  const auto milk = clip(5'000, "five hundred mils", Unit::Milliliter, 500, Heeded::AsWritten);
  const auto slip = clip(5'000, "four hundred mils", Unit::Milliliter, 500, Heeded::Differs);
  using enum Verdict;
  EXPECT_EQ(said({oats, milk}), (std::vector{Match, Match}));
  EXPECT_EQ(said({oats, slip}), (std::vector{Match, Differs}));
  EXPECT_EQ(said({oats}), (std::vector{Match, Match})) << "nobody listened to the second clip";
  // The clip under the narration was listened to as well, and has no words there.
  HeardInEdit under;
  under.covers = {{ms(0), ms(10'000)}};
  under.listening.status = ListenStatus::Aligned;
  EXPECT_EQ(said({oats, milk, under}), (std::vector{Match, Match}));
  EXPECT_EQ(said({under}), (std::vector{Unsure, Unsure}));
}

}  // namespace
}  // namespace panslate
