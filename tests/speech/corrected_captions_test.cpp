// Captions with words put right: what changes is told byte by byte, everything else must be as it was.
#include "panslate/speech/corrected_captions.h"

#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/file_system.h"
#include "panslate/base/text.h"

namespace panslate {
namespace {

struct Replacement {
  std::string heard;  ///< words of the captions, with single spaces
  std::string meant;
};

// The first run of words that reads so; what stands around a word ("flower,") may be left out.
std::optional<WordChange> find_change(const Transcript& transcript, const Replacement& replacement) {
  const auto heard = split(replacement.heard, ' ');
  const auto& words = transcript.words;
  for (std::size_t w = 0; w + heard.size() <= words.size(); ++w) {
    const auto begin = words[w].text.find(heard.front());
    const auto last = words[w + heard.size() - 1].text.find(heard.back());
    bool fits = begin != std::string::npos && last != std::string::npos;
    for (std::size_t k = 1; k + 1 < heard.size(); ++k) fits = fits && words[w + k].text == heard[k];
    if (fits)
      return WordChange{w, begin, w + heard.size() - 1, last + heard.back().size(), replacement.meant};
  }
  return std::nullopt;
}

struct Case {
  std::string name;
  std::string bytes;
  std::vector<Replacement> replacements;
  std::string expected;
  std::vector<std::size_t> left_out = {};
};

class CorrectedCaptions : public ::testing::TestWithParam<Case> {};

TEST_P(CorrectedCaptions, DifferInTheWordsAlone) {
  const auto& param = GetParam();
  const auto transcript = read_captions(param.bytes, "talk");
  ASSERT_TRUE(transcript) << render(transcript.error());
  std::vector<WordChange> changes;
  for (const auto& replacement : param.replacements) {
    const auto change = find_change(*transcript, replacement);
    ASSERT_TRUE(change) << replacement.heard;
    changes.push_back(*change);
  }
  const auto corrected = correct_captions(param.bytes, *transcript, changes);
  EXPECT_EQ(corrected.bytes, param.expected);
  EXPECT_EQ(corrected.left_out, param.left_out);
  // Corrected once, nothing is left to correct, and none of the times has moved.
  const auto again = read_captions(corrected.bytes, "talk");
  ASSERT_TRUE(again);
  ASSERT_EQ(again->cues.size(), transcript->cues.size());
  for (std::size_t c = 0; c < again->cues.size(); ++c)
    EXPECT_EQ(again->cues[c].when, transcript->cues[c].when);
  EXPECT_EQ(correct_captions(param.bytes, *transcript, {}).bytes, param.bytes);
}

// The same text in UTF-16, as an editing program of Windows saves it.
std::string utf16(const std::string& ascii, bool little) {
  std::string out = little ? "\xFF\xFE" : "\xFE\xFF";
  for (const char c : ascii) {
    if (!little) out += '\0';
    out += c;
    if (little) out += '\0';
  }
  return out;
}

const std::string kCue = "1\n00:00:01,000 --> 00:00:04,000\n";
const std::string kVtt =
    "WEBVTT - Küche\n\nNOTE flower stays\n\n7\n00:01.000 --> 00:04.000 line:10% align:start\n";

INSTANTIATE_TEST_SUITE_P(
    Written, CorrectedCaptions,
    ::testing::Values(
        Case{"OneWord",
             kCue + "two cups of flower, sifted\n",
             {{"flower", "flour"}},
             kCue + "two cups of flour, sifted\n"},
        Case{"TwoWordsMadeOne",
             kCue + "rinse the keen wah. Then\nwait\n",
             {{"keen wah", "quinoa"}},
             kCue + "rinse the quinoa. Then\nwait\n"},
        Case{"ThreeWordsMadeTwo",
             kCue + "three star a niece, whole\n",
             {{"star a niece", "star anise"}},
             kCue + "three star anise, whole\n"},
        Case{"OneWordMadeTwo",
             kCue + "add tomatopuray now\n",
             {{"tomatopuray", "tomato purée"}},
             kCue + "add tomato purée now\n"},
        Case{"CapitalAtTheStart",
             kCue + "Keen wah next. LEAKS TOO\n",
             {{"Keen wah", "quinoa"}, {"LEAKS", "leeks"}},
             kCue + "Quinoa next. LEEKS TOO\n"},
        Case{"OverALineEnd",
             kCue + "some keen\nwah and salt\n",
             {{"keen wah", "quinoa"}},
             kCue + "some quinoa\nand salt\n"},
        Case{"OverALineEndOfWindows",
             "1\r\n00:00:01,000 --> 00:00:04,000\r\nsome keen\r\nwah and salt\r\n",
             {{"keen wah", "quinoa"}},
             "1\r\n00:00:01,000 --> 00:00:04,000\r\nsome quinoa\r\nand salt\r\n"},
        Case{"TwoWordsGoAtALineStart",
             kCue + "some core\nee ander goes in\n\n2\n00:00:04,000 --> 00:00:06,000\ntwo leaks\n",
             {{"core ee ander", "coriander"}, {"leaks", "leeks"}},
             kCue + "some coriander\ngoes in\n\n2\n00:00:04,000 --> 00:00:06,000\ntwo leeks\n"},
        Case{"NoLineLosesTwoWordsThatFillIt",
             kCue + "core\nee\tander\ngoes in the pot\n",
             {{"core ee ander", "coriander"}},
             kCue + "core\nee\tander\ngoes in the pot\n",
             {0}},
        Case{"OverTwoCues",
             kCue + "some keen\n\n2\n00:00:04,000 --> 00:00:06,000\nwah, then salt\n",
             {{"keen wah", "quinoa"}},
             // The comma stays where it was: only words change.
             kCue + "some quinoa\n\n2\n00:00:04,000 --> 00:00:06,000\n, then salt\n"},
        Case{"NoCueIsEmptied",
             kCue + "some Keen\n\n2\n00:00:04,000 --> 00:00:06,000\nwah\n",
             {{"Keen wah", "quinoa"}},
             kCue + "some\n\n2\n00:00:04,000 --> 00:00:06,000\nQuinoa\n"},
        Case{"NeitherOfTwoCuesIsEmptied",
             kCue + "keen\n\n2\n00:00:04,000 --> 00:00:06,000\nwah\n",
             {{"keen wah", "quinoa"}},
             kCue + "keen\n\n2\n00:00:04,000 --> 00:00:06,000\nwah\n",
             {0}},
        Case{"NoLineIsEmptied",
             kCue + "some keen\nwah\nwith salt\n",
             {{"keen wah", "quinoa"}},
             kCue + "some\nquinoa\nwith salt\n"},
        Case{"NeitherOfTwoLinesIsEmptied",
             kCue + "keen\nwah\nwith salt\n",
             {{"keen wah", "quinoa"}},
             kCue + "keen\nwah\nwith salt\n",
             {0}},
        Case{"TagsAndCodes",
             kCue + "{\\an8}two <i>leaks</i> &amp; <b>time</b>  \n",
             {{"leaks", "leeks"}, {"time", "thyme"}},
             kCue + "{\\an8}two <i>leeks</i> &amp; <b>thyme</b>  \n"},
        Case{"TagInsideAWord",
             kCue + "two <i>le</i>aks\n",
             {{"leaks", "leeks"}},
             kCue + "two <i>le</i>aks\n",
             {0}},
        Case{"WebVttKeepsAllElse",
             kVtt + "<v Ada>a cup of <c.loud>flower</c> &amp; gee\n\nSTYLE\n",
             {{"flower", "flour"}, {"gee", "ghee"}},
             kVtt + "<v Ada>a cup of <c.loud>flour</c> &amp; ghee\n\nSTYLE\n"},
        Case{"WordTimes",
             "WEBVTT\n\n00:01.000 --> 00:05.000\n<00:01.000><c>add</c><00:02.000><c> keen</c><00:03.000><c> "
             "wah</c><00:04.000><c> now</c>\n",
             {{"keen wah", "quinoa"}},
             "WEBVTT\n\n00:01.000 --> 00:05.000\n<00:01.000><c>add</c><00:02.000><c> "
             "quinoa</c><00:03.000><c></c>"
             "<00:04.000><c> now</c>\n"},
        Case{"WhatRollsIsPutRightEachTime",
             "1\n00:00:01,000 --> 00:00:03,000\nnow take the keen wah\n\n"
             "2\n00:00:03,000 --> 00:00:05,000\nnow take the keen wah\nand rinse it twice\n\n"
             "3\n00:00:05,000 --> 00:00:07,000\nand rinse it twice\nin cold water\n",
             {{"keen wah", "quinoa"}},
             "1\n00:00:01,000 --> 00:00:03,000\nnow take the quinoa\n\n"
             "2\n00:00:03,000 --> 00:00:05,000\nnow take the quinoa\nand rinse it twice\n\n"
             "3\n00:00:05,000 --> 00:00:07,000\nand rinse it twice\nin cold water\n"},
        Case{"MarkedText",
             "Ada's talk\n[0:05] two leaks [0:09] 5 leaks\n\n[0:12] - flower",
             {{"flower", "flour"}},
             "Ada's talk\n[0:05] two leaks [0:09] 5 leaks\n\n[0:12] - flour"},
        Case{"MarkedTextWithinALine",
             "[0:05] 5 cups [0:09] 5 leaks",
             {{"leaks", "leeks"}},
             "[0:05] 5 cups [0:09] 5 leeks"},
        Case{"ByteOrderMark",
             "\xEF\xBB\xBF" + kCue + "a purée of leaks",
             {{"leaks", "leeks"}},
             "\xEF\xBB\xBF" + kCue + "a purée of leeks"},
        Case{"Windows1252",
             kCue + "a pur\xE9"
                    "e, then cr\xE8"
                    "me fresh\n",
             {{"fresh", "fraîche"}},
             kCue + "a pur\xE9"
                    "e, then cr\xE8"
                    "me fra\xEE"
                    "che\n"},
        Case{"Windows1252CannotWriteIt",
             kCue + "pur\xE9"
                    "e, ramen\n",
             {{"ramen", "rāmen"}},
             kCue + "pur\xE9"
                    "e, ramen\n",
             {0}},
        Case{"Utf16LittleEndian",
             utf16(kCue + "two keen wah\n", true),
             {{"keen wah", "quinoa"}},
             utf16(kCue + "two quinoa\n", true)},
        Case{"Utf16BigEndian",
             utf16(kCue + "two leaks\n", false),
             {{"leaks", "leeks"}},
             utf16(kCue + "two leeks\n", false)},
        Case{"BrokenLettersAreLeftAlone",
             kCue + "purée, purée, pur\xE9"
                    "e of leaks\n",
             {{"leaks", "leeks"}},
             kCue + "purée, purée, pur\xE9"
                    "e of leaks\n",
             {0}},
        Case{"ZerosAreLeftAlone",
             kCue + "two" + std::string(9, '\0') + "\nleaks and more\n",
             {{"leaks", "leeks"}},
             kCue + "two" + std::string(9, '\0') + "\nleaks and more\n",
             {0}},
        Case{"OneWordIsChangedOnce",
             kCue + "two leaks here\n",
             {{"leaks", "leeks"}, {"leaks", "leaves"}},
             kCue + "two leeks here\n",
             {1}},
        Case{
            "TheFirstOfTwo", kCue + "a leak and a leak\n", {{"leak", "leek"}}, kCue + "a leek and a leak\n"}),
    [](const auto& one) { return one.param.name; });

TEST(CorrectCaptions, RefusesWordsThatAreNone) {
  const std::string bytes = kCue + "two leaks\n";
  const auto transcript = read_captions(bytes, "talk");
  ASSERT_TRUE(transcript);
  const std::vector<WordChange> changes{
      {5, 0, 5, 2, "leeks"}, {1, 0, 0, 2, "leeks"}, {1, 4, 1, 2, "leeks"}, {1, 0, 1, 99, "leeks"}};
  const auto corrected = correct_captions(bytes, *transcript, changes);
  EXPECT_EQ(corrected.bytes, bytes);
  EXPECT_EQ(corrected.left_out, (std::vector<std::size_t>{0, 1, 2, 3}));
}

}  // namespace
}  // namespace panslate
