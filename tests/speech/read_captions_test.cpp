// What kind of file it is, how its bytes become text, and what is said when it cannot be read.
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/base/timestamp.h"
#include "panslate/speech/transcript.h"

#include "speech/transcript_print.h"

namespace panslate {
namespace {

using namespace std::string_literals;
using testing::ElementsAre;

struct ReadCase {
  const char* name;
  std::string bytes;
  CaptionFormat format;
  std::vector<std::string> cues;
  std::vector<std::string> warnings;
};
void PrintTo(const ReadCase& c, std::ostream* out) {
  *out << c.name;
}

class ReadCaptions : public testing::TestWithParam<ReadCase> {};

TEST_P(ReadCaptions, GivesTheseCues) {
  const auto& c = GetParam();
  const auto transcript = read_captions(c.bytes, "talk.txt");
  ASSERT_TRUE(transcript) << render(transcript.error());
  EXPECT_EQ(transcript->format, c.format);
  EXPECT_EQ(printed_cues(*transcript), c.cues);
  EXPECT_EQ(printed_warnings(*transcript), c.warnings);
}

const std::string kOneCue = "1\n00:00:01,000 --> 00:00:02,500\nRinse the freekeh.\n";
const std::vector<std::string> kOneCueRead{"c1 00:00:01.000-00:00:02.500 'Rinse the freekeh.'"};

std::string as_utf16(std::string_view ascii, bool big_endian) {
  std::string out;
  for (const char c : ascii) {
    if (big_endian) out += '\0';
    out += c;
    if (!big_endian) out += '\0';
  }
  return out;
}

INSTANTIATE_TEST_SUITE_P(
    Bytes, ReadCaptions,
    testing::Values(
        ReadCase{"plain", kOneCue, CaptionFormat::SubRip, kOneCueRead, {}},
        ReadCase{"utf8_mark", "\xEF\xBB\xBF" + kOneCue, CaptionFormat::SubRip, kOneCueRead, {}},
        ReadCase{"utf16_le", "\xFF\xFE" + as_utf16(kOneCue, false), CaptionFormat::SubRip, kOneCueRead, {}},
        ReadCase{"utf16_be", "\xFE\xFF" + as_utf16(kOneCue, true), CaptionFormat::SubRip, kOneCueRead, {}},
        ReadCase{"utf16_le_unmarked", as_utf16(kOneCue, false), CaptionFormat::SubRip, kOneCueRead, {}},
        ReadCase{"utf16_be_unmarked", as_utf16(kOneCue, true), CaptionFormat::SubRip, kOneCueRead, {}},
        ReadCase{
            "windows_1252",
            "1\n00:00:01,000 --> 00:00:02,000\ncr\xE8me fra\xEE"
            "che \x96 \xBD cup\n",
            CaptionFormat::SubRip,
            {"c1 00:00:01.000-00:00:02.000 'crème fraîche – ½ cup'"},
            {"3: this file is not UTF-8: its letters were read as Windows-1252; check accents, or save it "
             "as UTF-8"}},
        ReadCase{"damaged_utf8",
                 "1\n00:00:01,000 --> 00:00:02,000\ncrème fraîche, pur\xC3 e\n",
                 CaptionFormat::SubRip,
                 {"c1 00:00:01.000-00:00:02.000 'crème fraîche, pur\uFFFD e'"},
                 {"3: some letters of this file are broken and show as \uFFFD; save it as UTF-8"}},
        ReadCase{"nul",
                 "1\n00:00:01,000 --> 00:00:02,000\na\0b\n"s,
                 CaptionFormat::SubRip,
                 {"c1 00:00:01.000-00:00:02.000 'a\uFFFDb'"},
                 {}}),
    [](const auto& case_info) { return case_info.param.name; });

INSTANTIATE_TEST_SUITE_P(
    Formats, ReadCaptions,
    testing::Values(
        ReadCase{"webvtt",
                 "WEBVTT\n\n00:01.000 --> 00:02.000\na &amp; b\n",
                 CaptionFormat::WebVtt,
                 {"c1 00:00:01.000-00:00:02.000 'a & b'"},
                 {}},
        ReadCase{"webvtt_without_space_is_read_as_subrip",
                 "WEBVTT.\n\n00:01.000 --> 00:02.000\nhello\n",
                 CaptionFormat::SubRip,
                 {"c1 00:00:01.000-00:00:02.000 'hello'"},
                 {"1: text before the first caption is left out"}},
        ReadCase{"webvtt_ids",
                 "WEBVTT\n\nintro\n00:01.000 --> 00:02.000\na\n\n00:03.000 --> 00:04.000\nb\n\nc2\n"
                 "00:05.000 --> 00:06.000\nc\n\nintro\n00:07.000 --> 00:08.000\nd\n",
                 CaptionFormat::WebVtt,
                 {"intro 00:00:01.000-00:00:02.000 'a'", "c5 00:00:03.000-00:00:04.000 'b'",
                  "c2 00:00:05.000-00:00:06.000 'c'", "c4 00:00:07.000-00:00:08.000 'd'"},
                 {}},
        ReadCase{"webvtt_voice_ruby",
                 "WEBVTT\n\n00:01.000 --> 00:02.000\n<v Ines Calado>Add <ruby>shoyu<rt>soy</rt></ruby> now\n",
                 CaptionFormat::WebVtt,
                 {"c1 00:00:01.000-00:00:02.000 Ines Calado 'Add shoyu now'"},
                 {}},
        ReadCase{"webvtt_broken_times",
                 "WEBVTT\n\n00:01.000 --> 00:02.00\na\n\n00:03.000 --> 00:02.000\nb\n",
                 CaptionFormat::WebVtt,
                 {"c1 00:00:03.000-00:00:03.000 'b'"},
                 {"3: the times of this caption cannot be read, it is left out; expected 00:01:02.500 --> "
                  "00:01:05.000",
                  "6: this caption ends before it begins; its end is not used"}},
        ReadCase{"marks_in_brackets",
                 "[0:00] Hello.\n[0:05] Rinse it.\n[1:02:03] Done now\n",
                 CaptionFormat::MarkedText,
                 {"c1 00:00:00.000-00:00:05.000 'Hello.'", "c2 00:00:05.000-01:02:03.000 'Rinse it.'",
                  "c3 01:02:03.000-01:02:03.800 'Done now'"},
                 {}},
        ReadCase{"marks_without_brackets",
                 "0:02 Hello\n0:05 - Rinse it.\n0:08 – Dry it.\n0:10: Now stir.\n0:12\nwell\nand long\n",
                 CaptionFormat::MarkedText,
                 {"c1 00:00:02.000-00:00:05.000 'Hello'", "c2 00:00:05.000-00:00:08.000 'Rinse it.'",
                  "c3 00:00:08.000-00:00:10.000 'Dry it.'", "c4 00:00:10.000-00:00:12.000 'Now stir.'",
                  "c5 00:00:12.000-00:00:13.200 'well\nand long'"},
                 {}},
        ReadCase{"marks_inside_lines",
                 "Hello [0:05] rinse (0:10.5) dry it at 1:30 or so [0:20]\n",
                 CaptionFormat::MarkedText,
                 {"c1 00:00:00.000-00:00:05.000 'Hello'", "c2 00:00:05.000-00:00:10.500 'rinse'",
                  "c3 00:00:10.500-00:00:20.000 'dry it at 1:30 or so'", "c4 00:00:20.000-00:00:20.400 ''"},
                 {}},
        ReadCase{"marks_with_ends",
                 "[0:05 - 0:07] Rinse it.\n0:08-0:09 Dry it.\n(0:10 --> 0:12) Stir.\n0:12 --> 0:14 Fry.\n",
                 CaptionFormat::MarkedText,
                 {"c1 00:00:05.000-00:00:07.000 'Rinse it.'", "c2 00:00:08.000-00:00:09.000 'Dry it.'",
                  "c3 00:00:10.000-00:00:12.000 'Stir.'", "c4 00:00:12.000-00:00:14.000 'Fry.'"},
                 {}},
        ReadCase{"ratios_are_no_marks",
                 "[0:05] mix flour\n1:2 with water\n10:5 or so (2:1)\n",
                 CaptionFormat::MarkedText,
                 {"c1 00:00:05.000-00:00:08.600 'mix flour\n1:2 with water\n10:5 or so (2:1)'"},
                 {}},
        ReadCase{
            "marks_out_of_order",
            "[0:10] b\n[0:05] a\n[0:75] c\n",
            CaptionFormat::MarkedText,
            {"c1 00:00:05.000-00:00:06.200 'a\n[0:75] c'", "c2 00:00:10.000-00:00:10.400 'b'"},
            {"2: this caption begins before the one above it; the captions were put in the order of their "
             "times",
             "3: this is no time: minutes and seconds go up to 59"}}),
    [](const auto& case_info) { return case_info.param.name; });

struct FailCase {
  const char* name;
  std::string bytes;
  const char* message;
};
void PrintTo(const FailCase& c, std::ostream* out) {
  *out << c.name;
}

class ReadCaptionsFails : public testing::TestWithParam<FailCase> {};

TEST_P(ReadCaptionsFails, SaysWhereAndWhy) {
  const auto transcript = read_captions(GetParam().bytes, "talk.srt");
  ASSERT_FALSE(transcript);
  EXPECT_EQ(transcript.error().code, ErrorCode::Malformed);
  EXPECT_EQ(
      render(transcript.error()),
      std::string(GetParam().message) +
          "\n  hint: captions are SubRip (.srt), WebVTT (.vtt), or plain text with times such as [1:05] "
          "before what is said");
}

INSTANTIATE_TEST_SUITE_P(
    Errors, ReadCaptionsFails,
    testing::Values(FailCase{"nothing", "", "talk.srt:1:1: error: the captions file is empty"},
                    FailCase{"only_space", " \n\n\t", "talk.srt:1:1: error: the captions file is empty"},
                    FailCase{"no_format", "Rinse the freekeh.\nDry it.\n",
                             "talk.srt:1:1: error: neither SubRip, WebVTT nor text with [m:ss] marks"},
                    FailCase{"webvtt_without_cue", "WEBVTT\n\nNOTE nothing here\n",
                             "talk.srt:1:1: error: there is no caption in this file that can be read"},
                    FailCase{"webvtt_with_broken_cue", "WEBVTT\n\n00:01 --> 00:02\na\n",
                             "talk.srt:3:1: error: there is no caption in this file that can be read"},
                    FailCase{"subrip_with_broken_cue", "1\n00:00:01,000 --> soon\na\n",
                             "talk.srt:1:1: error: neither SubRip, WebVTT nor text with [m:ss] marks"},
                    FailCase{"zeros", std::string(64, '\0'),
                             "talk.srt:1:1: error: neither SubRip, WebVTT nor text with [m:ss] marks"}),
    [](const auto& case_info) { return case_info.param.name; });

TEST(Transcript, EndsWithItsLastCue) {
  EXPECT_EQ(Transcript{}.end(), MediaTime());
  const auto transcript = read_captions("[0:01 - 0:09] long\n[0:02 - 0:03] short\n", "talk.txt");
  ASSERT_TRUE(transcript);
  EXPECT_EQ(transcript->end(), MediaTime::from_seconds(9));
  EXPECT_THAT(printed_words(*transcript), ElementsAre("1.000-9.000 ±8.000 long", "2.000-3.000 ±1.000 short"));
}

}  // namespace
}  // namespace panslate
