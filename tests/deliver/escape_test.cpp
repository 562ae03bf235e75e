#include "panslate/deliver/escape.h"

#include <random>
#include <string>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

namespace panslate {
namespace {

struct EscapeCase {
  const char* name;
  std::string (*escape)(std::string_view);
  std::string text;
  std::string expected;
  const char* source;
};

void PrintTo(const EscapeCase& one, std::ostream* out) {
  *out << one.name;
}

class Escape : public ::testing::TestWithParam<EscapeCase> {};

TEST_P(Escape, Gives) {
  EXPECT_EQ(GetParam().escape(GetParam().text), GetParam().expected) << GetParam().source;
}

INSTANTIATE_TEST_SUITE_P(
    Formats, Escape,
    ::testing::Values(
        EscapeCase{"html_markup", escape_html, "<b title=\"x\">salt & pepper's</b>",
                   "&lt;b title=&quot;x&quot;&gt;salt &amp; pepper&#39;s&lt;/b&gt;",
                   "HTML Living Standard 13.1.4"},
        EscapeCase{"html_control", escape_html,
                   "a\x01\x7F"
                   "b\r\nc",
                   "a\uFFFD\uFFFDb\n\nc", "HTML 13.1.4: no controls"},
        EscapeCase{"html_direction", escape_html, "a\u202Eb", "a\uFFFDb",
                   "Unicode UAX 9: RLO turns what follows"},
        EscapeCase{"csv_plain", escape_csv, "2 leeks", "2 leeks", "RFC 4180 2.5"},
        EscapeCase{"csv_comma", escape_csv, "leeks, sliced", "\"leeks, sliced\"", "RFC 4180 2.6"},
        EscapeCase{"csv_quote", escape_csv, "a \"pot\"", "\"a \"\"pot\"\"\"", "RFC 4180 2.7"},
        EscapeCase{"csv_formula", escape_csv, "=HYPERLINK(\"x\")", "\"'=HYPERLINK(\"\"x\"\")\"",
                   "OWASP, CSV Injection"},
        EscapeCase{"csv_minus", escape_csv, "-2+3", "\"'-2+3\"", "OWASP, CSV Injection"},
        EscapeCase{"csv_at", escape_csv, "@sum", "\"'@sum\"", "OWASP, CSV Injection"},
        EscapeCase{"csv_empty", escape_csv, "", "", "RFC 4180"},
        EscapeCase{"webvtt_arrow", escape_webvtt, "oven --> 180 & <i>hot</i>",
                   "oven --&gt; 180 &amp; &lt;i&gt;hot&lt;/i&gt;", "W3C WebVTT 3.1: cue text has no --> "},
        EscapeCase{"webvtt_empty_lines", escape_webvtt, "a\n\n \r\nb\n", "a\nb",
                   "W3C WebVTT 3.1: an empty line ends the cue"},
        EscapeCase{"subrip_tags", escape_subrip, "<i>a</i> --> {\\an8}b", "‹i›a‹/i› --› (\\an8)b",
                   "common practice, no source"},
        EscapeCase{"ass_override", escape_ass, "{\\an8}a\\Nb\nc", "(⧵an8)a⧵Nb\\Nc",
                   "ASS: { starts override codes"},
        EscapeCase{"terminal_escape", escape_terminal, "a\x1b[31mb\tc\nd", "a [31mb c\nd",
                   "ECMA-48: ESC starts a control"}),
    [](const auto& one) { return std::string(one.param.name); });

// Random texts over the characters that mean something in any of the formats.
std::string hostile_text(std::mt19937& random) {
  static const std::vector<std::string> kPieces{
      "<",  ">",    "&", "\"",     "'",   "{",    "}",        "\\",     "\\N",   "-->",    "\n",
      "\r", "\n\n", ",", ";",      "=",   "+",    "-",        "@",      "\t",    "\x1b",   "é",
      "½",  " ",    "a", "\u2028", "]]>", "<!--", "</style>", "\u202E", "{{x}}", "{{{y}}}"};
  std::string out;
  const auto length = random() % 12;
  for (unsigned i = 0; i < length; ++i) out += kPieces[random() % kPieces.size()];
  return out;
}

TEST(EscapeProperty, NothingOfTheFormatIsLeftInTheText) {
  std::mt19937 random(20'240'501);
  for (int i = 0; i < 20'000; ++i) {
    const auto text = hostile_text(random);
    const auto html = escape_html(text);
    EXPECT_EQ(html.find_first_of("<>\"'\x1b"), std::string::npos) << text;
    const auto webvtt = escape_webvtt(text);
    EXPECT_EQ(webvtt.find_first_of("<>\r\x1b"), std::string::npos) << text;
    EXPECT_EQ(webvtt.find("\n\n"), std::string::npos) << text;
    const auto subrip = escape_subrip(text);
    EXPECT_EQ(subrip.find_first_of("<>{}\r\x1b"), std::string::npos) << text;
    EXPECT_EQ(subrip.find("\n\n"), std::string::npos) << text;
    const auto ass = escape_ass(text);
    EXPECT_EQ(ass.find_first_of("{}\n\r\x1b"), std::string::npos) << text;
    for (auto at = ass.find('\\'); at != std::string::npos; at = ass.find('\\', at + 1))
      EXPECT_EQ(ass[at + 1], 'N') << text;
    const auto terminal = escape_terminal(text);
    EXPECT_EQ(terminal.find_first_of("\x1b\r\t"), std::string::npos) << text;
  }
}

// Reads one field back as RFC 4180 has it.
std::string read_csv_field(const std::string& field) {
  if (field.empty() || field.front() != '"') return field;
  std::string out;
  for (std::size_t i = 1; i + 1 < field.size(); ++i) {
    out += field[i];
    if (field[i] == '"') ++i;
  }
  return out;
}

TEST(EscapeProperty, ACsvFieldReadsBackAndNeverCalculates) {
  std::mt19937 random(7);
  for (int i = 0; i < 20'000; ++i) {
    const auto text = hostile_text(random);
    const auto back = read_csv_field(escape_csv(text));
    EXPECT_TRUE(back.empty() || std::string("=+-@\t\r").find(back[0]) == std::string::npos) << text;
    EXPECT_EQ(back.starts_with('\'') && !text.starts_with('\'') ? back.substr(1) : back, text);
  }
}

}  // namespace
}  // namespace panslate
