// SubRip has no standard: the forms here are found in files (common practice, no source).
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/speech/transcript.h"

#include "speech/transcript_print.h"

namespace panslate {
namespace {

struct SubripCase {
  const char* name;
  std::string text;
  std::vector<std::string> cues;
  std::vector<std::string> warnings = {};
};
void PrintTo(const SubripCase& c, std::ostream* out) {
  *out << c.name;
}

class Subrip : public testing::TestWithParam<SubripCase> {};

TEST_P(Subrip, GivesTheseCues) {
  const auto transcript = read_captions(GetParam().text, "talk.srt");
  ASSERT_TRUE(transcript) << render(transcript.error());
  EXPECT_EQ(transcript->format, CaptionFormat::SubRip);
  EXPECT_EQ(printed_cues(*transcript), GetParam().cues);
  EXPECT_EQ(printed_warnings(*transcript), GetParam().warnings);
}

/// One cue from 1 s to 2 s with this text.
std::string cue_with(const std::string& text) {
  return "1\n00:00:01,000 --> 00:00:02,000\n" + text + "\n";
}
std::vector<std::string> read_as(const std::string& text) {
  return {"c1 00:00:01.000-00:00:02.000 '" + text + "'"};
}
/// One cue with these times and no text but "a".
SubripCase times_case(const char* name, const std::string& times, const std::string& read) {
  return {name, "1\n" + times + "\na\n", {"c1 " + read + " 'a'"}};
}

INSTANTIATE_TEST_SUITE_P(
    Times, Subrip,
    testing::Values(
        times_case("comma", "00:01:02,345 --> 00:01:03,456", "00:01:02.345-00:01:03.456"),
        times_case("full_stop", "00:01:02.345 --> 00:01:03.456", "00:01:02.345-00:01:03.456"),
        times_case("short_places", "0:1:2,3 --> 0:1:3,45", "00:01:02.300-00:01:03.450"),
        times_case("no_hours", "01:02,345 --> 01:03,456", "00:01:02.345-00:01:03.456"),
        times_case("no_decimals", "00:01:02 --> 00:01:03", "00:01:02.000-00:01:03.000"),
        times_case("long_hours", "100:00:00,000 --> 100:00:01,000", "100:00:00.000-100:00:01.000"),
        times_case("no_spaces", "00:01:02,345-->00:01:03,456", "00:01:02.345-00:01:03.456"),
        times_case("many_spaces", "  00:01:02,345   -->\t00:01:03,456  ", "00:01:02.345-00:01:03.456"),
        times_case("space_in_time", "00:01:02, 345 --> 00:01:03, 456", "00:01:02.345-00:01:03.456"),
        times_case("short_arrow", "00:01:02,345 -> 00:01:03,456", "00:01:02.345-00:01:03.456"),
        times_case("coordinates", "00:01:02,345 --> 00:01:03,456  X1:100 X2:600 Y1:1 Y2:9",
                   "00:01:02.345-00:01:03.456")),
    [](const auto& case_info) { return case_info.param.name; });

INSTANTIATE_TEST_SUITE_P(
    Text, Subrip,
    testing::Values(
        SubripCase{"italic", cue_with("<i>Rinse</i> it"), read_as("Rinse it")},
        SubripCase{"upper_case_tags", cue_with("<B>Rinse</B> <U>it</U>"), read_as("Rinse it")},
        SubripCase{"font", cue_with("<font color=\"#ffff00\" size='12'>Rinse</font> it"),
                   read_as("Rinse it")},
        SubripCase{"break_tag", cue_with("Rinse<br/>it"), read_as("Rinse\nit")},
        SubripCase{"position", cue_with("{\\an8}Rinse it"), read_as("Rinse it")},
        SubripCase{"braces_that_are_no_code", cue_with("{Rinse} it"), read_as("{Rinse} it")},
        SubripCase{"signs_that_are_no_tags", cue_with("a < b > c <3 <unknown> <i"),
                   read_as("a < b > c <3 <unknown> <i")},
        SubripCase{"escapes", cue_with("salt &amp; oil&nbsp;&lt;3 &pepper &copy"),
                   read_as("salt & oil\u00A0<3 &pepper &copy")},
        SubripCase{"two_lines", cue_with("Rinse it.\nDry it."), read_as("Rinse it.\nDry it.")},
        SubripCase{"blank_line_inside", cue_with("Rinse it.\n\nDry it.\n\n"), read_as("Rinse it.\nDry it.")},
        SubripCase{"only_space", cue_with("  \n \n"), read_as("")},
        SubripCase{"carriage_returns", "1\r\n00:00:01,000 --> 00:00:02,000\r\na\r\nb\r\n\r\n",
                   read_as("a\nb")},
        SubripCase{"old_line_ends", "1\r00:00:01,000 --> 00:00:02,000\ra\rb\r\r", read_as("a\nb")},
        SubripCase{"no_line_end", "1\n00:00:01,000 --> 00:00:02,000\na", read_as("a")},
        SubripCase{"nothing_after_times", "1\n00:00:01,000 --> 00:00:02,000", read_as("")}),
    [](const auto& case_info) { return case_info.param.name; });

INSTANTIATE_TEST_SUITE_P(
    Cues, Subrip,
    testing::Values(
        SubripCase{"counters_are_ids",
                   "7\n00:00:01,000 --> 00:00:02,000\na\n\n12\n00:00:03,000 --> 00:00:04,000\nb\n",
                   {"c7 00:00:01.000-00:00:02.000 'a'", "c12 00:00:03.000-00:00:04.000 'b'"}},
        SubripCase{"no_counters",
                   "00:00:01,000 --> 00:00:02,000\na\n\n00:00:03,000 --> 00:00:04,000\nb\n",
                   {"c1 00:00:01.000-00:00:02.000 'a'", "c2 00:00:03.000-00:00:04.000 'b'"}},
        SubripCase{"no_blank_line_between",
                   "1\n00:00:01,000 --> 00:00:02,000\na\n2\n00:00:03,000 --> 00:00:04,000\nb\n",
                   {"c1 00:00:01.000-00:00:02.000 'a'", "c2 00:00:03.000-00:00:04.000 'b'"}},
        SubripCase{"a_spoken_number_is_no_counter",
                   "00:00:01,000 --> 00:00:02,000\n350\n\n00:00:03,000 --> 00:00:04,000\n180\n"
                   "00:00:05,000 --> 00:00:06,000\nb\n",
                   {"c1 00:00:01.000-00:00:02.000 '350'", "c2 00:00:03.000-00:00:04.000 '180'",
                    "c3 00:00:05.000-00:00:06.000 'b'"}},
        SubripCase{"a_counter_twice",
                   "1\n00:00:01,000 --> 00:00:02,000\na\n\n1\n00:00:03,000 --> 00:00:04,000\nb\n",
                   {"c1 00:00:01.000-00:00:02.000 'a'", "c2 00:00:03.000-00:00:04.000 'b'"}},
        SubripCase{"unsorted",
                   "1\n00:00:05,000 --> 00:00:06,000\nb\n\n2\n00:00:01,000 --> 00:00:02,000\na\n\n3\n"
                   "00:00:05,000 --> 00:00:06,000\nc\n",
                   {"c2 00:00:01.000-00:00:02.000 'a'", "c1 00:00:05.000-00:00:06.000 'b'",
                    "c3 00:00:05.000-00:00:06.000 'c'"},
                   {"6: this caption begins before the one above it; the captions were put in the order of "
                    "their times"}},
        SubripCase{"overlapping",
                   "1\n00:00:01,000 --> 00:00:05,000\na\n\n2\n00:00:02,000 --> 00:00:06,000\nb\n",
                   {"c1 00:00:01.000-00:00:05.000 'a'", "c2 00:00:02.000-00:00:06.000 'b'"}},
        SubripCase{"end_before_start",
                   "1\n00:00:05,000 --> 00:00:01,000\na\n",
                   {"c1 00:00:05.000-00:00:05.000 'a'"},
                   {"2: this caption ends before it begins; its end is not used"}},
        SubripCase{"broken_times_are_left_out",
                   "1\n00:00:01,000 --> 00:00:02,000\na\n\n2\n00:00:99,000 --> 00:01:04,000\nlost\n\n3\n"
                   "00:00:05,000 --> 00:00:06,000\nb\n\n4\n-00:00:05,000 --> 00:00:06,000\nlost\n",
                   {"c1 00:00:01.000-00:00:02.000 'a'", "c3 00:00:05.000-00:00:06.000 'b'"},
                   {"6: the times of this caption cannot be read, it is left out; expected 00:01:02,500 --> "
                    "00:01:05,000",
                    "14: the times of this caption cannot be read, it is left out; expected 00:01:02,500 --> "
                    "00:01:05,000"}},
        SubripCase{"an_arrow_in_speech",
                   "1\n00:00:01,000 --> 00:00:02,000\nflour --> bowl\n",
                   {"c1 00:00:01.000-00:00:02.000 'flour --> bowl'"}},
        SubripCase{"text_before",
                   "Talk of Sunday\n\n1\n00:00:01,000 --> 00:00:02,000\na\n",
                   {"c1 00:00:01.000-00:00:02.000 'a'"},
                   {"1: text before the first caption is left out"}}),
    [](const auto& case_info) { return case_info.param.name; });

}  // namespace
}  // namespace panslate
