#include "panslate/speech/script_lines.h"

#include <string>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

namespace panslate {
namespace {

// "text(one way|another way) text(…)"
std::string printed(const std::vector<ScriptWord>& words) {
  std::vector<std::string> out;
  for (const auto& word : words) {
    std::vector<std::string> ways;
    for (const auto& way : word.readings) ways.push_back(join(way, " "));
    out.push_back(word.text + "(" + join(ways, "|") + ")");
  }
  return join(out, " ");
}

struct WordsCase {
  const char* text;
  const char* words;
};

class WordsOfALine : public testing::TestWithParam<WordsCase> {};

TEST_P(WordsOfALine, AreThoseSpoken) {
  EXPECT_EQ(printed(script_words(GetParam().text)), GetParam().words);
}

// common practice, no source: how numbers are read aloud
INSTANTIATE_TEST_SUITE_P(
    Script, WordsOfALine,
    testing::Values(WordsCase{"Whisk the eggs.", "Whisk(whisk) the(the) eggs(eggs)"},
                    WordsCase{"Don\u2019t stir, don't!", "Don\u2019t(don\u2019t) stir(stir) don't(don't)"},
                    WordsCase{"'bout gluten-free bread \u2013 and/or rice",
                              "bout(bout) gluten(gluten) free(free) bread(bread) and(and) or(or) rice(rice)"},
                    WordsCase{"cr\u00e8me fra\u00eeche", "cr\u00e8me(cr\u00e8me) fra\u00eeche(fra\u00eeche)"},
                    WordsCase{"12 eggs", "12(twelve) eggs(eggs)"},
                    WordsCase{"200g at 250",
                              "200(two hundred) g(g) at(at) 250(two hundred fifty|two hundred and fifty)"},
                    WordsCase{"1,200 or 1.5",
                              "1,200(one thousand two hundred|twelve hundred) or(or) 1.5(one point five)"},
                    WordsCase{"1004", "1004(one thousand four|one thousand and four)"},
                    WordsCase{"007 and 1234567",
                              "007(zero zero seven) and(and) 1234567(one two three four five six seven)"},
                    WordsCase{"0 & 20 %", "0(zero) &(and) 20(twenty) %(percent)"},
                    WordsCase{"1. Bake. 2", "1(one) Bake(bake) 2(two)"}, WordsCase{"... \u2013 !", ""},
                    WordsCase{"", ""}));

TEST(Script, HasALineOfTextForEachLineSpoken) {
  const auto script = read_script("# my script\n\nHello there.\r\n  \n---\nSecond line\n", "talk.txt");
  ASSERT_TRUE(script) << render(script.error());
  ASSERT_EQ(script->size(), 2U);
  EXPECT_EQ((*script)[0].number, 3);
  EXPECT_EQ((*script)[0].text, "Hello there.");
  EXPECT_EQ((*script)[1].number, 6);
  EXPECT_EQ(printed((*script)[1].words), "Second(second) line(line)");
}

TEST(Script, WithNothingToSayIsRefused) {
  for (const auto* const text : {"", "\n\n", "# only a remark", "...\n"}) {
    const auto script = read_script(text, "talk.txt");
    ASSERT_FALSE(script) << text;
    EXPECT_EQ(
        render(script.error()),
        "talk.txt: error: this script has no line to be spoken\n  hint: write one spoken sentence a line");
  }
}

TEST(Script, OfOneEnormousWordHasNothingSpokenForIt) {
  const auto script = read_script(std::string(10'000'000, 'x'), "talk.txt");
  ASSERT_TRUE(script);
  ASSERT_EQ(script->front().words.size(), 1U);
  EXPECT_TRUE(script->front().words.front().readings.empty());
}

TEST(Script, OfMoreWordsThanAnyTalkIsRefused) {
  std::string text;
  for (int i = 0; i < 100'001; ++i) text += "on ";
  EXPECT_FALSE(read_script(text, "talk.txt"));
}

}  // namespace
}  // namespace panslate
