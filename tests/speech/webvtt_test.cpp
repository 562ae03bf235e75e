// WebVTT by the W3C's rules (WebVTT: The Web Video Text Tracks Format, W3C; sections named beside each case).
// The specification's own tests run in w3c_*_test.cpp where they are present; these rows stand alone.
#include "panslate/speech/webvtt.h"

#include <ostream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/base/timestamp.h"

#include "speech/cue_tree_print.h"

namespace panslate {
namespace {

using namespace std::string_literals;
using testing::ElementsAre;
using testing::IsEmpty;

/// "id|start-end|text", LF shown as /.
std::vector<std::string> printed(const VttFile& file) {
  std::vector<std::string> out;
  for (const auto& cue : file.cues) {
    auto text = cue.text;
    for (char& c : text)
      if (c == '\n') c = '/';
    out.push_back(cue.id + "|" + format_timestamp(cue.start, TimestampStyle::Clock) + "-" +
                  format_timestamp(cue.end, TimestampStyle::Clock) + "|" + text);
  }
  return out;
}

struct FileCase {
  const char* name;
  std::string bytes;
  std::vector<std::string> cues;
  const char* source;
};
void PrintTo(const FileCase& c, std::ostream* out) {
  *out << c.name << " (" << c.source << ")";
}

class VttFiles : public testing::TestWithParam<FileCase> {};

TEST_P(VttFiles, HoldTheseCues) {
  const auto file = parse_webvtt(GetParam().bytes, "talk.vtt");
  ASSERT_TRUE(file) << render(file.error());
  EXPECT_EQ(printed(*file), GetParam().cues);
}

const std::string kTimes = "00:01.000 --> 00:02.000\n";
const std::string kCue = kTimes + "a\n";
const std::vector<std::string> kOne{"|00:00:01.000-00:00:02.000|a"};
constexpr const char* kParser = "WebVTT 6.1 WebVTT file parsing";
constexpr const char* kTimings = "WebVTT 6.3 WebVTT cue timings and settings parsing";

INSTANTIATE_TEST_SUITE_P(
    Parser, VttFiles,
    testing::Values(
        FileCase{"signature_alone", "WEBVTT", {}, kParser},
        FileCase{"byte_order_mark", "\xEF\xBB\xBFWEBVTT\n\n" + kCue, kOne, kParser},
        FileCase{"text_after_signature", "WEBVTT - Sunday's talk\n\n" + kCue, kOne, kParser},
        FileCase{"header_lines", "WEBVTT\nKind: captions\nLanguage: en\n\n" + kCue, kOne, kParser},
        FileCase{"times_in_header", "WEBVTT\n" + kCue, kOne, kParser},
        FileCase{"carriage_returns",
                 "WEBVTT\r\r00:01.000 --> 00:02.000\ra\rb",
                 {"|00:00:01.000-00:00:02.000|a/b"},
                 kParser},
        FileCase{"crlf",
                 "WEBVTT\r\n\r\n00:01.000 --> 00:02.000\r\na\r\nb\r\n\r\n",
                 {"|00:00:01.000-00:00:02.000|a/b"},
                 kParser},
        FileCase{"nul", "WEBVTT\n\n" + kTimes + "a\0b"s, {"|00:00:01.000-00:00:02.000|a\uFFFDb"}, kParser},
        FileCase{"note", "WEBVTT\n\nNOTE not\nspoken\n\n" + kCue, kOne, kParser},
        FileCase{"note_inside_a_cue",
                 "WEBVTT\n\n" + kTimes + "NOTE this is said",
                 {"|00:00:01.000-00:00:02.000|NOTE this is said"},
                 kParser},
        FileCase{"id", "WEBVTT\n\nrinse it\n" + kCue, {"rinse it|00:00:01.000-00:00:02.000|a"}, kParser},
        FileCase{"two_lines_before_times", "WEBVTT\n\none\ntwo\n" + kCue, kOne, kParser},
        FileCase{"arrow_ends_a_cue",
                 "WEBVTT\n\n" + kTimes + "a\n" + kTimes + "b",
                 {"|00:00:01.000-00:00:02.000|a", "|00:00:01.000-00:00:02.000|b"},
                 kParser},
        FileCase{"no_text",
                 "WEBVTT\n\n" + kTimes + "\n" + kCue,
                 {"|00:00:01.000-00:00:02.000|", "|00:00:01.000-00:00:02.000|a"},
                 kParser},
        FileCase{"style_after_a_cue_is_nothing", "WEBVTT\n\n" + kCue + "\nSTYLE\n::cue {}\n", kOne, kParser}),
    [](const auto& case_info) { return case_info.param.name; });

FileCase timing(const char* name, const std::string& times, const std::vector<std::string>& cues) {
  return {name, "WEBVTT\n\n" + times + "\na\n", cues, kTimings};
}

INSTANTIATE_TEST_SUITE_P(
    Timings, VttFiles,
    testing::Values(
        timing("with_hours", "01:02:03.004 --> 01:02:04.000", {"|01:02:03.004-01:02:04.000|a"}),
        timing("hours_left_out", "02:03.004 --> 02:04.000", {"|00:02:03.004-00:02:04.000|a"}),
        timing("sixty_is_hours", "60:00:00.000 --> 60:00:01.000", {"|60:00:00.000-60:00:01.000|a"}),
        timing("one_digit_is_hours", "1:00:00.000 --> 1:00:01.000", {"|01:00:00.000-01:00:01.000|a"}),
        timing("long_hours", "1000:00:00.000 --> 1000:00:01.000", {"|1000:00:00.000-1000:00:01.000|a"}),
        timing("end_before_start", "00:02.000 --> 00:01.000", {"|00:00:02.000-00:00:01.000|a"}),
        timing("no_spaces", "00:01.000-->00:02.000", kOne),
        timing("spaces", " \t00:01.000 \t-->  00:02.000  ", kOne),
        timing("sixty_minutes", "60:00.000 --> 61:00.000", {}),
        timing("sixty_seconds", "00:60.000 --> 01:01.000", {}),
        timing("two_decimals", "00:01.00 --> 00:02.000", {}),
        timing("four_decimals", "00:01.0000 --> 00:02.000", {}),
        timing("comma", "00:01,000 --> 00:02,000", {}),
        timing("one_digit_minutes", "0:01.000 --> 0:02.000", {}),
        timing("beyond_all_time", "99999999999999999999:00:00.000 --> 99999999999999999999:00:01.000", {})),
    [](const auto& case_info) { return case_info.param.name; });

TEST(VttFiles, WithoutSignatureAreNone) {
  for (const auto& bytes : {""s, "WEBVT"s, "webvtt\n"s, "WEBVTTX\n"s, "WEBVTT\f\n"s, " WEBVTT\n"s,
                            "\xEF\xBB\xBF\xEF\xBB\xBFWEBVTT\n"s}) {
    const auto file = parse_webvtt(bytes, "talk.vtt");
    ASSERT_FALSE(file) << bytes;
    EXPECT_EQ(render(file.error()), "talk.vtt:1:1: error: a WebVTT file begins with the word WEBVTT");
  }
}

TEST(VttFiles, TellWhichCuesAreLeftOut) {
  const auto file = parse_webvtt("WEBVTT\n\n" + kCue + "\nid\n00:01 --> 00:02\nlost\n", "talk.vtt");
  ASSERT_TRUE(file);
  ASSERT_EQ(file->problems.size(), 1U);
  EXPECT_EQ(file->problems[0].source_line, 7);
  EXPECT_EQ(file->cues[0].source_line, 3);
  EXPECT_EQ(
      file->problems[0].message,
      "the times of this caption cannot be read, it is left out; expected 00:01:02.500 --> 00:01:05.000");
}

TEST(VttFiles, KeepStylesAndRegions) {
  // WebVTT 6.2: settings are kept where they are understood; 100 % beyond is not.
  const auto file = parse_webvtt(
      "WEBVTT\n\nSTYLE\n::cue {\n  color: white;\n}\n\nREGION\nid:low width:40%\nlines:2 "
      "regionanchor:10%,90.5%\nviewportanchor:101%,9% scroll:up\n\n00:01.000 --> 00:02.000 region:low\na\n",
      "talk.vtt");
  ASSERT_TRUE(file);
  EXPECT_THAT(file->styles, ElementsAre("::cue {\n  color: white;\n}"));
  ASSERT_EQ(file->regions.size(), 1U);
  const auto& region = file->regions[0];
  EXPECT_EQ(region.id, "low");
  EXPECT_EQ(region.width, 40);
  EXPECT_EQ(region.lines, 2);
  EXPECT_EQ(region.region_anchor.x, 10);
  EXPECT_EQ(region.region_anchor.y, 90.5);
  EXPECT_EQ(region.viewport_anchor.x, 0);
  EXPECT_EQ(region.viewport_anchor.y, 100);
  EXPECT_EQ(region.scroll, VttScroll::Up);
  ASSERT_EQ(file->cues.size(), 1U);
  EXPECT_EQ(file->cues[0].region, 0U);
  EXPECT_THAT(file->problems, IsEmpty());
}

VttCue cue_with(const std::string& settings) {
  const auto file =
      parse_webvtt("WEBVTT\n\nREGION\nid:low\n\n00:01.000 --> 00:02.000 " + settings + "\na\n", "talk.vtt");
  return file && file->cues.size() == 1 ? file->cues[0] : VttCue{};
}

TEST(VttSettings, AreReadOneByOne) {
  // WebVTT 6.3, "parse the WebVTT cue settings".
  const auto cue = cue_with("vertical:rl line:-2,end position:25.5%,line-right size:50% align:right");
  EXPECT_EQ(cue.vertical, VttVertical::GrowingLeft);
  EXPECT_EQ(cue.line, -2);
  EXPECT_TRUE(cue.snap_to_lines);
  EXPECT_EQ(cue.line_align, VttLineAlign::End);
  EXPECT_EQ(cue.position, 25.5);
  EXPECT_EQ(cue.position_align, VttPositionAlign::LineRight);
  EXPECT_EQ(cue.size, 50);
  EXPECT_EQ(cue.align, VttAlign::Right);
  const auto percent = cue_with("line:70%");
  EXPECT_EQ(percent.line, 70);
  EXPECT_FALSE(percent.snap_to_lines);
}

TEST(VttSettings, WhatIsNotUnderstoodIsPassedOver) {
  // WebVTT 6.3: each of these rows leaves the settings as they were.
  for (const auto* settings : {"",
                               "line",
                               "line:",
                               ":1",
                               "line:x",
                               "line:1x",
                               "line:--1",
                               "line:1.",
                               "line:.5",
                               "line:1.2.3",
                               "line:1,middle",
                               "line:101%",
                               "line:-1%",
                               "line:1e3",
                               "position:50",
                               "position:101%",
                               "position:50%,left",
                               "size:50",
                               "size:%",
                               "size:150%",
                               "align:middle",
                               "vertical:lrx",
                               "vertical:",
                               "LINE:1",
                               "region:high"}) {
    const auto cue = cue_with(settings);
    EXPECT_EQ(cue.start, MediaTime::from_seconds(1)) << settings;
    EXPECT_FALSE(cue.line) << settings;
    EXPECT_EQ(cue.line_align, VttLineAlign::Start) << settings;
    EXPECT_FALSE(cue.position) << settings;
    EXPECT_EQ(cue.position_align, VttPositionAlign::Auto) << settings;
    EXPECT_EQ(cue.size, 100) << settings;
    EXPECT_EQ(cue.align, VttAlign::Center) << settings;
    EXPECT_EQ(cue.vertical, VttVertical::Horizontal) << settings;
    EXPECT_FALSE(cue.region) << settings;
  }
}

TEST(VttSettings, ARegionGivesWayToALineASizeOrADirection) {
  // WebVTT 6.3, the last step of the cue settings.
  EXPECT_EQ(cue_with("region:low").region, 0U);
  EXPECT_FALSE(cue_with("region:low line:1").region);
  EXPECT_FALSE(cue_with("size:50% region:low").region);
  EXPECT_FALSE(cue_with("region:low vertical:lr").region);
  EXPECT_EQ(cue_with("region:low size:100%").region, 0U);
}

struct TextCase {
  const char* raw;
  const char* tree;
};
void PrintTo(const TextCase& c, std::ostream* out) {
  *out << c.raw;
}

class VttText : public testing::TestWithParam<TextCase> {};

TEST_P(VttText, GivesThisTree) {
  EXPECT_EQ(printed_tree(parse_cue_text(GetParam().raw)), GetParam().tree);
}

// WebVTT 6.4 WebVTT cue text parsing rules; escapes: HTML, section 13.2.5.72 ff.
INSTANTIATE_TEST_SUITE_P(
    CueText, VttText,
    testing::Values(
        TextCase{"", ""}, TextCase{"rinse\nit", "| \"rinse\nit\"\n"},
        TextCase{"<i>rinse</i> it", "| <i>\n|   \"rinse\"\n| \" it\"\n"},
        TextCase{"<b.loud.first..x>rinse", "| <b>\n|   class=\"loud first x\"\n|   \"rinse\"\n"},
        TextCase{"<v.first Ines  &amp;\tBo>rinse</v>it",
                 "| <span>\n|   class=\"first\"\n|   title=\"Ines & Bo\"\n|   \"rinse\"\n| \"it\"\n"},
        TextCase{"<lang pt-PT>alho</lang>", "| <span>\n|   lang=\"pt-PT\"\n|   \"alho\"\n"},
        TextCase{"<i><b>a</i>b</b>c</i>d", "| <i>\n|   <b>\n|     \"a\"\n|     \"b\"\n|   \"c\"\n| \"d\"\n"},
        TextCase{"<ruby>a<rt>b</ruby>c", "| <ruby>\n|   \"a\"\n|   <rt>\n|     \"b\"\n| \"c\"\n"},
        TextCase{"<rt>a", "| \"a\"\n"}, TextCase{"<font color=red>a</font>", "| \"a\"\n"},
        TextCase{"a<00:01.500>b<1:00:00.000>c",
                 "| \"a\"\n| <?timestamp 00:00:01.500>\n| \"b\"\n| <?timestamp 01:00:00.000>\n| \"c\"\n"},
        TextCase{"a<00:01.500 >b<00:01>c", "| \"a\"\n| \"b\"\n| \"c\"\n"},
        TextCase{"&lt;&gt;&amp;&nbsp;&lrm;&rlm;", "| \"<>&\u00A0\u200E\u200F\"\n"},
        TextCase{"&frac12; &eacute; &copy &notit; &nosuch; &", "| \"½ é © ¬it; &nosuch; &\"\n"},
        TextCase{"&#189;&#xBD;&#XbD &#x96; &#0;&#xD800;&#x110000;&#99999999999; &#; &#x;",
                 "| \"½½½ – \uFFFD\uFFFD\uFFFD\uFFFD &#; &#x;\"\n"},
        TextCase{"a > b <", "| \"a > b \"\n"}, TextCase{"<i", "| <i>\n"}, TextCase{"a</i", "| \"a\"\n"},
        TextCase{"</>a<>b", "| \"a\"\n| \"b\"\n"}));

TEST(VttText, MayNestAsDeepAsItLikes) {
  std::string raw;
  for (int i = 0; i < 200'000; ++i) raw += "<b>";
  const auto nodes = parse_cue_text(raw + "a");
  ASSERT_EQ(nodes.size(), 200'001U);
  EXPECT_EQ(nodes.back().parent, 199'999U);
}

}  // namespace
}  // namespace panslate
