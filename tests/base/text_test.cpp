#include "panslate/base/text.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace panslate {
namespace {

using namespace std::string_view_literals;

struct Bytes {
  std::string_view bytes, text;
  std::string_view what;
};

// Broken sequences become one U+FFFD per maximal part (Unicode 15, section 3.9, table 3-8).
constexpr Bytes kBytes[] = {
    {"", "", "nothing"},
    {"leek", "leek", "ASCII"},
    {"pur\xC3\xA9\x65", "pur\xC3\xA9\x65", "UTF-8"},
    {"\xEF\xBB\xBF"
     "leek",
     "leek", "UTF-8 byte order mark"},
    {"\xEF\xBB\xBF", "", "a byte order mark alone"},
    {"\xFF\xFEl\0e\0"sv, "le", "UTF-16, little-endian"},
    {"\xFE\xFF\0l\0e"sv, "le", "UTF-16, big-endian"},
    {"\xFF\xFE\xBD\0"sv, "\xC2\xBD", "a half in UTF-16"},
    {"\xFF\xFE\x3C\xD8\x5E\xDF"sv, "\xF0\x9F\x8D\x9E", "a surrogate pair: bread"},
    {"\xFF\xFE\x3C\xD8l\0"sv, "\xEF\xBF\xBDl", "half a surrogate pair"},
    {"\xFF\xFE\x3C\xD8"sv, "\xEF\xBF\xBD", "half a surrogate pair at the end"},
    {"\xFF\xFEl\0e"sv, "l\xEF\xBF\xBD", "half a UTF-16 unit at the end"},
    {"\xFF\xFE\0\0"sv, "\xEF\xBF\xBD", "NUL in UTF-16"},
    {"a\0b"sv,
     "a\xEF\xBF\xBD"
     "b",
     "NUL"},
    {"a\x80"
     "b",
     "a\xEF\xBF\xBD"
     "b",
     "a lone continuation byte"},
    {"a\xE2\x82", "a\xEF\xBF\xBD", "a character cut short"},
    {"\xC3(", "\xEF\xBF\xBD(", "a lead byte without its rest"},
    {"\xC0\xAF", "\xEF\xBF\xBD\xEF\xBF\xBD", "overlong"},
    {"\xED\xA0\x80", "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD", "a surrogate in UTF-8"},
    {"\xF5\x80\x80\x80", "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD", "beyond Unicode"},
    {"180\xB0"
     "C",
     "180\xEF\xBF\xBD"
     "C",
     "a degree sign in Latin-1"},
    {"a\r\nb\rc\n", "a\r\nb\rc\n", "line ends stay"},
};

TEST(Text, AnyBytesBecomeValidUtf8) {
  for (const auto& c : kBytes) EXPECT_EQ(to_utf8(c.bytes), c.text) << c.what;
}

TEST(Text, ValidUtf8ComesThroughUnchangedTwice) {
  for (const auto& c : kBytes) EXPECT_EQ(to_utf8(to_utf8(c.bytes)), c.text) << c.what;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> out;
  for (const auto& line : split_lines(text)) {
    EXPECT_EQ(text.substr(line.offset, line.text.size()), line.text);
    out.emplace_back(line.text);
  }
  return out;
}

TEST(Text, LinesEndWithLfCrlfOrCr) {
  using Lines = std::vector<std::string>;
  EXPECT_EQ(lines_of(""), Lines{});
  EXPECT_EQ(lines_of("a"), (Lines{"a"}));
  EXPECT_EQ(lines_of("a\n"), (Lines{"a"}));
  EXPECT_EQ(lines_of("\n"), (Lines{""}));
  EXPECT_EQ(lines_of("a\n\nb"), (Lines{"a", "", "b"}));
  EXPECT_EQ(lines_of("a\r\nb\rc\nd"), (Lines{"a", "b", "c", "d"}));
  EXPECT_EQ(lines_of("a\r\r\nb"), (Lines{"a", "", "b"}));
  EXPECT_EQ(lines_of("a\n\rb"), (Lines{"a", "", "b"}));
  EXPECT_EQ(lines_of("a\r"), (Lines{"a"}));
}

TEST(Text, TrimTakesAllWhiteSpaceAtBothEnds) {
  EXPECT_EQ(trim(" \t\r\nleek soup\v\f "), "leek soup");
  EXPECT_EQ(trim("\xC2\xA0leek\xE2\x80\x8B\xEF\xBB\xBF"), "leek");  // no-break space, zero-width space, BOM
  EXPECT_EQ(trim("\xE3\x80\x80\xE2\x80\xAF"), "");                  // ideographic and narrow no-break space
  EXPECT_EQ(trim(""), "");
  EXPECT_EQ(trim("\xC2\xBD"), "\xC2\xBD");  // ½ shares its last byte with no space
}

TEST(Text, TrimKeepsBrokenBytes) {
  EXPECT_EQ(trim("a \x80"), "a \x80");
  EXPECT_EQ(trim("\x80 a"), "\x80 a");
}

TEST(Text, SpacesCollapse) {
  EXPECT_EQ(collapse_spaces("  200\xC2\xA0g \t leeks\n"), "200 g leeks");
  EXPECT_EQ(collapse_spaces(" \n"), "");
}

struct Folded {
  std::string_view text, folded, bare;
};

constexpr Folded kFolded[] = {
    {"", "", ""},
    {"Leek SOUP", "leek soup", "leek soup"},
    {"Pur\xC3\xA9\x65", "pur\xC3\xA9\x65", "puree"},
    {"CR\xC3\x88ME", "cr\xC3\xA8me", "creme"},
    {"e\xCC\x81", "e\xCC\x81", "e"},                        // e with a combining acute
    {"Gr\xC3\xBC\xC3\x9F\x65", "gr\xC3\xBCsse", "grusse"},  // ß folds to ss (Unicode CaseFolding.txt)
    {"\xC4\xB0", "i\xCC\x87", "i"},                         // İ, whatever the locale
    {"\xC2\xBD", "\xC2\xBD", "\xC2\xBD"},                   // ½ stays one character
};

TEST(Text, FoldsForComparing) {
  for (const auto& c : kFolded) {
    EXPECT_EQ(fold_case(c.text), c.folded) << c.text;
    EXPECT_EQ(fold_accents(c.text), c.bare) << c.text;
  }
}

TEST(Text, ColumnsCountCharactersFromOne) {
  const std::string_view line = "pur\xC3\xA9\x65 \xC2\xBD";
  EXPECT_EQ(character_count(line), 7U);
  EXPECT_EQ(column_of(line, 0), 1);
  EXPECT_EQ(column_of(line, 3), 4);
  EXPECT_EQ(column_of(line, 5), 5);
  EXPECT_EQ(column_of(line, line.size()), 8);
  EXPECT_EQ(column_of(line, 1'000), 8) << "past the end is right after it";
}

struct Spot {
  std::size_t offset;
  int line, column;
};

TEST(Text, LineAndColumnOfAnOffset) {
  const std::string_view text =
      "a\r\n\xC3\xA9"
      "b\rc\n";  // bytes: a0 CR1 LF2 é3-4 b5 CR6 c7 LF8
  for (const auto& spot : {Spot{0, 1, 1}, Spot{1, 1, 2}, Spot{3, 2, 1}, Spot{5, 2, 2}, Spot{6, 2, 3},
                           Spot{7, 3, 1}, Spot{8, 3, 2}, Spot{9, 4, 1}, Spot{99, 4, 1}}) {
    const auto found = line_column_of(text, spot.offset);
    EXPECT_EQ(found.line, spot.line) << spot.offset;
    EXPECT_EQ(found.column, spot.column) << spot.offset;
  }
}

TEST(Text, CodePointsAreReadAndWritten) {
  for (const char32_t c : {U'a', U'\u00E9', U'\u20AC', U'\U0001F35E', U'\U0010FFFF'}) {
    std::string out;
    append_utf8(out, c);
    const auto read = code_point_at(out, 0);
    EXPECT_EQ(read.value, c);
    EXPECT_EQ(read.next, out.size());
  }
  std::string out;
  append_utf8(out, 0xD800);
  append_utf8(out, 0x110000);
  EXPECT_EQ(out, "\xEF\xBF\xBD\xEF\xBF\xBD") << "what is no character is written as U+FFFD";
}

TEST(Text, WordCharactersAreLettersDigitsAndMarks) {
  for (const char32_t c : {U'a', U'7', U'\u00E9', U'\u0301', U'\u4E94'}) EXPECT_TRUE(is_word_character(c));
  for (const char32_t c : {U' ', U'-', U'\'', U'\u2019', U'\u2013'}) EXPECT_FALSE(is_word_character(c));
}

TEST(Text, SplitsAndJoins) {
  EXPECT_THAT(split("a,,b", ','), testing::ElementsAre("a", "", "b"));
  EXPECT_THAT(split("", ','), testing::ElementsAre(""));
  EXPECT_THAT(split(",", ','), testing::ElementsAre("", ""));
  EXPECT_EQ(join({"a", "", "b"}, ", "), "a, , b");
  EXPECT_EQ(join({}, ", "), "");
  EXPECT_EQ(join({"a", "a"}, "+"), "a+a");
}

}  // namespace
}  // namespace panslate
