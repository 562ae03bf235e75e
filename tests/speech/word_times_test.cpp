// Which words a caption holds, when each is spoken, and what rolling captions repeat.
#include <ostream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/speech/transcript.h"

#include "speech/transcript_print.h"

namespace panslate {
namespace {

using testing::ElementsAre;

Transcript read(const std::string& text) {
  auto transcript = read_captions(text, "talk");
  EXPECT_TRUE(transcript) << text << render(transcript.error());
  return transcript ? *std::move(transcript) : Transcript{};
}

struct SpokenCase {
  const char* name;
  const char* text;
  const char* spoken;
  const char* speaker = "";
};
void PrintTo(const SpokenCase& c, std::ostream* out) {
  *out << c.name;
}

class Spoken : public testing::TestWithParam<SpokenCase> {};

TEST_P(Spoken, WordsAre) {
  const auto transcript = read("1\n00:00:01,000 --> 00:00:05,000\n" + std::string(GetParam().text) + "\n");
  EXPECT_EQ(spoken_text(transcript), GetParam().spoken);
  ASSERT_EQ(transcript.cues.size(), 1U);
  EXPECT_EQ(transcript.cues[0].speaker, GetParam().speaker);
  EXPECT_EQ(transcript.cues[0].text, GetParam().text);
}

// Common practice, no source: how captions note sounds and speakers.
INSTANTIATE_TEST_SUITE_P(
    Captions, Spoken,
    testing::Values(SpokenCase{"plain", "Rinse the freekeh, twice.", "Rinse the freekeh, twice."},
                    SpokenCase{"spaces", "Rinse  the\u00A0freekeh,\ntwice.", "Rinse the freekeh, twice."},
                    SpokenCase{"sound_in_brackets", "[music] Rinse [water running] it", "Rinse it"},
                    SpokenCase{"sound_over_two_lines", "[water\nrunning] Rinse it", "Rinse it"},
                    SpokenCase{"amount_in_brackets", "1 cup [240 ml] stock", "1 cup [240 ml] stock"},
                    SpokenCase{"open_bracket", "Rinse [it", "Rinse [it"},
                    SpokenCase{"sound_in_round_brackets", "(laughs) Rinse it (Soft music playing)",
                               "Rinse it"},
                    SpokenCase{"words_in_round_brackets", "Peppers (chopped), 1 cup (240 ml)",
                               "Peppers (chopped), 1 cup (240 ml)"},
                    SpokenCase{"song", "♪ brown sugar, oh ♪", ""},
                    SpokenCase{"song_to_the_end_of_the_line", "♪ brown sugar\nRinse it", "Rinse it"},
                    SpokenCase{"lone_note", "Rinse it ♪", "Rinse it"},
                    SpokenCase{"change_of_speaker", "- Rinse it.\n-Now?\n– Yes.", "Rinse it. Now? Yes."},
                    SpokenCase{"minus", "-18 degrees", "-18 degrees"},
                    SpokenCase{"arrows", ">> Rinse it.\n>>> Now?", "Rinse it. Now?"},
                    SpokenCase{"speaker", "INES: Rinse it.", "Rinse it.", "INES"},
                    SpokenCase{"speaker_after_dash", "- INES C.: Rinse it.", "Rinse it.", "INES C."},
                    SpokenCase{"label_on_a_picture", "FLOUR: 200 g", "FLOUR: 200 g"},
                    SpokenCase{"label_in_small_letters", "OIL: two spoons", "OIL: two spoons"},
                    SpokenCase{"all_in_capitals", "INES: RINSE IT", "INES: RINSE IT"},
                    SpokenCase{"colon_in_speech", "Now: Rinse it", "Now: Rinse it"},
                    SpokenCase{"bare_punctuation", "Rinse — it … now !", "Rinse it now"},
                    SpokenCase{"signs_that_speak", "salt & 50 % ½ cup + 2", "salt & 50 % ½ cup + 2"},
                    SpokenCase{"nothing", "", ""}),
    [](const auto& case_info) { return case_info.param.name; });

TEST(WordTimes, SpreadOverTheCueByTheirCharacters) {
  // 10 characters over 5 s: half a second each.
  EXPECT_THAT(
      printed_words(read("1\n00:00:10,000 --> 00:00:15,000\nadd\nthe sauté\n")),
      ElementsAre("10.000-11.364 ±5.000 add", "11.364-12.727 ±5.000 the", "12.727-15.000 ±5.000 sauté"));
}

TEST(WordTimes, ComeFromTimeTagsWhereThereIsOneAWord) {
  EXPECT_THAT(
      printed_words(read("WEBVTT\n\n00:10.000 --> 00:15.000\nadd<00:11.000><c> the</c><00:12.500> salt\n")),
      ElementsAre("10.000-11.000 ±0.050 add", "11.000-12.500 ±0.050 the", "12.500-15.000 ±0.050 salt"));
}

TEST(WordTimes, SeveralWordsShareTheStretchOfATag) {
  EXPECT_THAT(
      printed_words(read("WEBVTT\n\n00:10.000 --> 00:15.000\nadd<00:11.000> a bit<00:13.000> salt\n")),
      ElementsAre("10.000-11.000 ±0.050 add", "11.000-11.500 ±2.000 a", "11.500-13.000 ±2.000 bit",
                  "13.000-15.000 ±0.050 salt"));
}

TEST(WordTimes, ATagInsideAWordDoesNotCutIt) {
  EXPECT_THAT(
      printed_words(read("WEBVTT\n\n00:10.000 --> 00:12.000\nchick<00:11.000>pea<00:11.500> flour\n")),
      ElementsAre("10.000-11.000 ±0.050 chickpea", "11.500-12.000 ±0.050 flour"));
}

TEST(WordTimes, TagsThatRunBackOrOutOfTheCueAreNotUsed) {
  EXPECT_THAT(
      printed_words(
          read("WEBVTT\n\n00:10.000 --> 00:12.000\na<00:09.000> b<00:11.000> c<00:10.500> d<00:20.000> e\n")),
      ElementsAre("10.000-10.500 ±1.000 a", "10.500-11.000 ±1.000 b", "11.000-11.333 ±1.000 c",
                  "11.333-11.667 ±1.000 d", "11.667-12.000 ±1.000 e"));
}

TEST(WordTimes, SubripMayHoldTimeTagsToo) {
  EXPECT_THAT(printed_words(read("1\n00:00:10,000 --> 00:00:12,000\nadd <00:00:11,000>salt\n")),
              ElementsAre("10.000-11.000 ±0.050 add", "11.000-12.000 ±0.050 salt"));
}

TEST(WordTimes, ACueWithoutLengthIsOnlyAsGoodAsSpeech) {
  EXPECT_THAT(printed_words(read("1\n00:00:10,000 --> 00:00:10,000\nadd salt\n")),
              ElementsAre("10.000-10.000 ±0.800 add", "10.000-10.000 ±0.800 salt"));
}

TEST(WordTimes, AMarkIsAsGoodAsTheNextOneIsNear) {
  EXPECT_THAT(
      printed_words(read("[0:10] add salt\n[0:50] stir\n")),
      ElementsAre("10.000-27.143 ±40.000 add", "27.143-50.000 ±40.000 salt", "50.000-50.400 ±0.400 stir"));
}

/// Captions of one second each, one after the other, in SubRip.
std::string in_turn(const std::vector<std::string>& texts, int step = 1) {
  std::string out;
  int second = 10;
  for (const auto& text : texts) {
    out += "00:00:" + std::to_string(second) + ",000 --> 00:00:" + std::to_string(second + 1) + ",000\n" +
           text + "\n\n";
    second += step;
  }
  return out;
}

struct RollingCase {
  const char* name;
  std::string text;
  const char* spoken;
};
void PrintTo(const RollingCase& c, std::ostream* out) {
  *out << c.name;
}

class Rolling : public testing::TestWithParam<RollingCase> {};

TEST_P(Rolling, SpeaksTheseWords) {
  EXPECT_EQ(spoken_text(read(GetParam().text)), GetParam().spoken);
}

INSTANTIATE_TEST_SUITE_P(
    Captions, Rolling,
    testing::Values(
        RollingCase{
            "lines",
            in_turn({"we are going to", "we are going to\nmake fritters", "make fritters\nwith corn"}),
            "we are going to make fritters with corn"},
        RollingCase{"one_short_word", in_turn({"a\nstir", "stir\nb", "b\nc"}), "a stir b c"},
        RollingCase{"a_word_said_twice_while_rolling", in_turn({"a\nstir", "stir\nstir", "stir\nb"}),
                    "a stir stir b"},
        RollingCase{"growing", in_turn({"add", "add the", "add the salt", "add the salt\nnow"}),
                    "add the salt now"},
        RollingCase{
            "by_words_of_one_line",
            in_turn({"today we make some very", "make some very good corn", "very good corn fritters now"}),
            "today we make some very good corn fritters now"},
        RollingCase{"held", in_turn({"a\nb", "b", "b\nc", "c", "c\nd"}), "a b c d"},
        RollingCase{"sound_notes_between",
                    in_turn({"a b", "a b\nc d", "c d\ne f", "[music]", "e f\ng h", "g h\ni j"}),
                    "a b c d e f g h i j"},
        RollingCase{"said_in_two_cues", in_turn({"Stir it.", "Stir it.\nAnd again."}),
                    "Stir it. Stir it. And again."},
        RollingCase{"said_in_many_cues", in_turn({"Stir.", "Stir.", "Stir.", "Stir."}),
                    "Stir. Stir. Stir. Stir."},
        RollingCase{"same_end_and_start", in_turn({"add salt", "salt and oil", "oil it well", "well done"}),
                    "add salt salt and oil oil it well well done"},
        RollingCase{"far_apart", in_turn({"a b", "a b\nc d", "c d\ne f"}, 3), "a b a b c d c d e f"},
        RollingCase{"other_case", in_turn({"add salt", "Add salt\nnow", "Now\nstir"}),
                    "add salt Add salt now Now stir"}),
    [](const auto& case_info) { return case_info.param.name; });

TEST(RollingWithTags, KeepsTheFirstTimesOfEachWord) {
  // The form of automatic captions: a line that builds up word by word, then a short cue that holds it.
  const auto transcript = read(
      "WEBVTT\nKind: captions\n\n"
      "00:00.100 --> 00:02.000 align:start position:0%\n \nso<00:00.500><c> today</c>\n\n"
      "00:02.000 --> 00:02.010 align:start position:0%\nso today\n \n\n"
      "00:02.010 --> 00:04.000 align:start position:0%\nso today\nwe<00:02.500><c> fry</c>\n\n"
      "00:04.000 --> 00:04.010 align:start position:0%\nwe fry\n \n\n"
      "00:04.010 --> 00:06.000 align:start position:0%\nwe fry\nwe<00:05.000><c> fry</c>\n\n");
  EXPECT_THAT(printed_words(transcript),
              ElementsAre("0.100-0.500 ±0.050 so", "0.500-2.000 ±0.050 today", "2.010-2.500 ±0.050 we",
                          "2.500-4.000 ±0.050 fry", "4.010-5.000 ±0.050 we", "5.000-6.000 ±0.050 fry"));
  EXPECT_EQ(transcript.words[2].cue, 2U);
  EXPECT_EQ(transcript.words[4].cue, 4U);
}

TEST(RollingOverlap, WordsEndWhereTheNextLineBegins) {
  const auto transcript = read(
      "00:00:10,000 --> 00:00:14,000\na b\n\n00:00:12,000 --> 00:00:16,000\na b\nc d\n\n"
      "00:00:14,000 --> 00:00:18,000\nc d\ne f\n");
  EXPECT_THAT(printed_words(transcript),
              ElementsAre("10.000-11.000 ±4.000 a", "11.000-12.000 ±4.000 b", "12.000-13.000 ±4.000 c",
                          "13.000-14.000 ±4.000 d", "14.000-16.000 ±4.000 e", "16.000-18.000 ±4.000 f"));
}

}  // namespace
}  // namespace panslate
