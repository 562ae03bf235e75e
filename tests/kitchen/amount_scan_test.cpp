#include "panslate/kitchen/amount_scan.h"

#include <array>
#include <fstream>
#include <iostream>
#include <random>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

#include "kitchen/amount_text.h"

namespace panslate {
namespace {

struct Phrase {
  std::string text, amounts;
  int line = 0;
};

// "text => amounts" lines of a file of tests/data; "nothing" for none.
std::vector<Phrase> read_phrases(const std::string& name) {
  std::ifstream in(std::string(PANSLATE_SOURCE_DIR) + "/tests/data/" + name);
  std::vector<Phrase> phrases;
  int line_number = 0;
  for (std::string line; std::getline(in, line);) {
    ++line_number;
    const auto arrow = line.rfind(" => ");
    if (line.rfind("# ", 0) == 0 || arrow == std::string::npos) continue;
    auto amounts = line.substr(arrow + 4);
    if (amounts == "nothing") amounts.clear();
    phrases.push_back({line.substr(0, arrow), amounts, line_number});
  }
  return phrases;
}

struct Source {
  const char* file;
  SpokenOrWritten how;
  std::size_t least;
  double bound = 100.0;  // per cent of the phrases that must be right
};

void expect_right(const Source& source, std::size_t right, std::size_t all) {
  const double percent = 100.0 * static_cast<double>(right) / static_cast<double>(all);
  std::cout << source.file << ": " << right << " of " << all << " phrases right (" << percent << " %)\n";
  EXPECT_GE(percent, source.bound) << source.file;
}

class Phrases : public ::testing::TestWithParam<Source> {};

TEST_P(Phrases, AreReadAsACookReadsThem) {
  const auto phrases = read_phrases(GetParam().file);
  ASSERT_GE(phrases.size(), GetParam().least);
  std::size_t right = 0;
  for (const auto& phrase : phrases) {
    const auto read = testing::dump_amounts(phrase.text, GetParam().how);
    right += static_cast<std::size_t>(read == phrase.amounts);
    if (read != phrase.amounts)
      std::cout << "MISS  " << GetParam().file << ':' << phrase.line << ": " << phrase.text << "\n  wanted ["
                << phrase.amounts << "] read [" << read << "]\n";
  }
  expect_right(GetParam(), right, phrases.size());
}

// What is passed over quickly in a long text starts no amount: wherever a reading from the start of the rest
// finds one, so does the reading of all amounts of that rest.
TEST_P(Phrases, AreNotPassedOver) {
  for (const auto& phrase : read_phrases(GetParam().file)) {
    const auto tokens = tokenize(phrase.text);
    for (std::size_t at = 0; at < tokens.size(); ++at) {
      const auto rest = std::span(tokens).subspan(at);
      const auto first = scan_amount(rest, 0, GetParam().how);
      const auto all = scan_amounts(rest, GetParam().how);
      EXPECT_EQ(first.has_value(), !all.empty() && all.front().begin == 0)
          << phrase.text << " from token " << at;
    }
  }
}

// Words in upper case are the same words, but for the spoons of one letter.
TEST_P(Phrases, ReadTheSameInCapitals) {
  if (GetParam().how == SpokenOrWritten::Written) return;
  std::size_t same = 0;
  const auto phrases = read_phrases(GetParam().file);
  for (const auto& phrase : phrases) {
    std::string loud = phrase.text;
    for (char& c : loud)
      if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    const bool right = testing::dump_amounts(loud, GetParam().how) == phrase.amounts;
    same += static_cast<std::size_t>(right);
    if (!right) std::cout << "MISS  " << loud << '\n';
  }
  expect_right(GetParam(), same, phrases.size());
}

INSTANTIATE_TEST_SUITE_P(
    Data, Phrases,
    ::testing::Values(Source{"amounts_spoken.txt", SpokenOrWritten::Spoken, 480},
                      Source{"amounts_spoken_second.txt", SpokenOrWritten::Spoken, 200, 97.0},
                      Source{"amounts_spoken_third.txt", SpokenOrWritten::Spoken, 160, 97.0},
                      Source{"amounts_written.txt", SpokenOrWritten::Written, 280}));

TEST(ScanAmounts, TellsWhereAnAmountStands) {
  const std::string text = "then about 1½ cups of flour, sifted";
  const auto tokens = tokenize(text);
  const auto found = scan_amounts(tokens, SpokenOrWritten::Written);
  ASSERT_EQ(found.size(), 1U);
  const auto begin = tokens[found[0].begin].begin;
  EXPECT_EQ(text.substr(begin, tokens[found[0].end - 1].end - begin), "about 1½ cups");
  EXPECT_TRUE(found[0].has_unit);
}

TEST(ScanAmounts, MarksBareCounts) {
  const auto tokens = tokenize("2 leeks");
  const auto found = scan_amount(tokens, 0, SpokenOrWritten::Written);
  ASSERT_TRUE(found);
  EXPECT_FALSE(found->has_unit);
  EXPECT_EQ(found->amount.unit, Unit::Piece);
  EXPECT_FALSE(scan_amount(tokens, 1, SpokenOrWritten::Written));
  EXPECT_FALSE(scan_amount(tokens, 2, SpokenOrWritten::Written));
}

// The alternate after the food is told once, and the amount still ends before the food.
TEST(ScanAmounts, EndsBeforeTheFoodOfAnAmountToldTwice) {
  const auto tokens = tokenize("two hundred grams of rye flour, or two cups, in the bowl");
  const auto found = scan_amounts(tokens, SpokenOrWritten::Spoken);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(testing::dump(found[0]), "200 g | 2 cup");
  EXPECT_EQ(found[0].end, 3U);
  EXPECT_EQ(found[0].retold_end, 10U);
  EXPECT_EQ(
      testing::dump_amounts("two hundred grams of rye flour or two cups of oats", SpokenOrWritten::Spoken),
      "200 g; 2 cup");
}

TEST(ScanNumber, ReadsNoLoneArticle) {
  EXPECT_FALSE(scan_number(tokenize("a leek"), 0));
  EXPECT_FALSE(scan_number(tokenize("to for too"), 0));
  EXPECT_FALSE(scan_number({}, 0));
  const auto number = scan_number(tokenize("about two to three"), 0);
  ASSERT_TRUE(number);
  EXPECT_EQ(number->value, Ratio(2));
  EXPECT_EQ(number->to, Ratio(3));
  EXPECT_TRUE(number->about);
  EXPECT_EQ(number->end, 4U);
}

// Any order of the words that steer the reading: no crash, and always forwards.
TEST(ScanAmounts, SurvivesSoup) {
  constexpr std::array kWords = {
      "a",      "half",    "and",    "1/2",    "½",       "two",          "hundred", "thousand", "of",
      "to",     "-",       "x",      "(",      ")",       "400",          "g",       "tin",      "cup",
      "or",     "/",       "180",    "c",      "fan",     "gas",          "mark",    "°",        "point",
      "oh",     "one",     "eighty", "about",  "the",     "rest",         "more",    "each",     "an",
      "hour",   "minutes", "%",      ",",      "plus",    "minus",        "inch",    "by",       "dozen",
      "couple", "between", "heaped", "ish",    "million", "999999999999", "0",       "00",       "1,000",
      "1.5",    "lb",      "oz",     "that's", "in",      "all"};
  std::mt19937 random(20240917);
  for (int round = 0; round < 1000; ++round) {
    std::string soup;
    for (int i = 0; i < 24; ++i) {
      soup += kWords[random() % kWords.size()];
      if (random() % 4 != 0) soup += ' ';
    }
    const auto tokens = tokenize(soup);
    for (const auto how : {SpokenOrWritten::Written, SpokenOrWritten::Spoken}) {
      std::size_t last_end = 0;
      for (const auto& found : scan_amounts(tokens, how)) {
        ASSERT_LE(last_end, found.begin) << soup;
        ASSERT_LT(found.begin, found.end) << soup;
        ASSERT_LE(found.end, tokens.size()) << soup;
        if (found.amount.to) {
          ASSERT_LE(*found.amount.value, *found.amount.to) << soup;
        }
        last_end = found.end;
      }
    }
  }
}

// A look-ahead without a bound would take hours here.
TEST(ScanAmounts, TakesLongTextsInTheirStride) {
  for (const auto* word : {"a ", "one hundred ", "1 cup or 2 tins or ", "2 x 400 g (", "1/2 or ", "180/",
                           "x4", "7", "an hour and ", "two and a ", "fan ", "between ", "1,", "half "}) {
    std::string text;
    while (text.size() < 60'000) text += word;
    const auto tokens = tokenize(text);
    EXPECT_LE(scan_amounts(tokens, SpokenOrWritten::Spoken).size(), tokens.size()) << word;
  }
}

}  // namespace
}  // namespace panslate
