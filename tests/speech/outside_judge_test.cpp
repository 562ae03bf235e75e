// libavformat reads the same captions as we do: the ffmpeg program is the judge, started as it is. Samples
// keep to what both know; where it
// differs from the W3C (libavformat 59 reads nothing after a STYLE block) or players differ (escapes in
// SubRip) there is no judge.
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <ostream>
#include <string>

#include <gtest/gtest.h>

#include "panslate/base/timestamp.h"
#include "panslate/speech/transcript.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

std::string output_of(const std::string& command) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  std::string out;
  if (!pipe) return out;
  std::array<char, 4096> buffer{};
  for (std::size_t n = 0; (n = fread(buffer.data(), 1, buffer.size(), pipe.get())) > 0;)
    out.append(buffer.data(), n);
  return out;
}

bool has_ffmpeg() {
  return output_of("command -v ffmpeg").find("ffmpeg") != std::string::npos;
}

/// Our cues in the form in which ffmpeg writes plain SubRip.
std::string as_plain_subrip(const Transcript& transcript) {
  std::string out;
  int number = 0;
  for (const auto& cue : transcript.cues)
    out += std::to_string(++number) + "\n" + format_timestamp(cue.when.begin, TimestampStyle::Comma) +
           " --> " + format_timestamp(cue.when.end, TimestampStyle::Comma) + "\n" + cue.text + "\n\n";
  return out;
}

struct JudgedCase {
  const char* name;
  const char* extension;
  std::string bytes;
};
void PrintTo(const JudgedCase& c, std::ostream* out) {
  *out << c.name;
}

class OutsideJudge : public testing::TestWithParam<JudgedCase> {};

TEST_P(OutsideJudge, ReadsTheSameTimesAndTexts) {
  if (!has_ffmpeg()) GTEST_SKIP() << "no ffmpeg program here";
  const auto& c = GetParam();
  const auto path = fs::path(testing::TempDir()) / ("judged_" + std::string(c.name) + c.extension);
  std::ofstream(path, std::ios::binary) << c.bytes;
  auto judged = output_of("ffmpeg -nostdin -v error -i '" + path.string() + "' -c:s text -f srt - 2>&1");
  std::erase(judged, '\r');  // which it writes inside a text, not behind it
  fs::remove(path);
  const auto transcript = read_captions(c.bytes, path);
  ASSERT_TRUE(transcript) << render(transcript.error());
  ASSERT_GE(transcript->cues.size(), 2U);
  EXPECT_EQ(as_plain_subrip(*transcript), judged);
}

const std::string kSubrip =
    "1\n00:00:01,000 --> 00:00:02,500\n<i>Rinse</i> the freekeh.\nNow.\n\n"
    "2\n00:00:03,250 --> 00:00:05,000 X1:1 X2:2 Y1:3 Y2:4\n{\\an8}Add <font color=\"#ff0000\">180 g</font> "
    "of it.\n\n"
    "3\n01:02:03,004 --> 01:02:04,005\n<b>½ cup</b> crème fraîche – <u>stir</u>\n";

std::string with_crlf(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') out += '\r';
    out += c;
  }
  return out;
}

INSTANTIATE_TEST_SUITE_P(
    Subrip, OutsideJudge,
    testing::Values(
        JudgedCase{"subrip", ".srt", kSubrip}, JudgedCase{"subrip_crlf", ".srt", with_crlf(kSubrip)},
        JudgedCase{"subrip_mark", ".srt", "\xEF\xBB\xBF" + kSubrip},
        JudgedCase{"subrip_full_stop", ".srt",
                   "1\n00:00:01.000 --> 00:00:02.500\na\n\n2\n00:00:03.000 --> 00:00:04.000\nb\n"},
        JudgedCase{"subrip_blank_line_inside", ".srt",
                   "1\n00:00:01,000 --> 00:00:02,500\na\n\nb\n\n2\n00:00:03,000 --> 00:00:04,000\nc\n"},
        JudgedCase{"subrip_odd_counters", ".srt",
                   "7\n00:00:01,000 --> 00:00:02,500\na\n\n9\n00:00:03,000 --> 00:00:04,000\nb\n"},
        JudgedCase{"subrip_unsorted", ".srt",
                   "1\n00:00:03,000 --> 00:00:04,000\nb\n\n2\n00:00:01,000 --> 00:00:02,500\na\n"},
        JudgedCase{"subrip_overlapping", ".srt",
                   "1\n00:00:01,000 --> 00:00:05,000\na\n\n2\n00:00:02,000 --> 00:00:06,000\nb\n"}),
    [](const auto& case_info) { return case_info.param.name; });

const std::string kWebvtt =
    "WEBVTT - talk\nKind: captions\n\nNOTE not spoken\n\n"
    "intro\n00:01.000 --> 00:02.500 align:start position:10%\n<i>Rinse</i> the freekeh.\nNow.\n\n"
    "00:00:03.250 --> 00:00:05.000 line:0\n<c.loud>Add</c> 180 g &amp; stir &lt;it&gt;\n\n"
    "01:02:03.004 --> 01:02:04.005\n<b>½ cup</b> crème fraîche – <u>stir</u>\n";

INSTANTIATE_TEST_SUITE_P(Webvtt, OutsideJudge,
                         testing::Values(JudgedCase{"webvtt", ".vtt", kWebvtt},
                                         JudgedCase{"webvtt_crlf", ".vtt", with_crlf(kWebvtt)},
                                         JudgedCase{"webvtt_mark", ".vtt", "\xEF\xBB\xBF" + kWebvtt},
                                         JudgedCase{"webvtt_long", ".vtt",
                                                    "WEBVTT\n\n100:00:00.000 --> 100:00:01.000\na\n\n"
                                                    "100:00:02.000 --> 100:00:03.000\nb\n"}),
                         [](const auto& case_info) { return case_info.param.name; });

}  // namespace
}  // namespace panslate
