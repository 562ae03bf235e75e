#pragma once

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// UTF-8 text. Everything inside panslate is valid UTF-8 with LF line ends as far as it can be made so at the
/// edge: `to_utf8` is that edge. Positions are byte offsets; columns shown to people count characters from 1.
namespace panslate {

/// Bytes of a text file as valid UTF-8: a UTF-8 or UTF-16 byte order mark is honoured and removed, bytes that
/// are no UTF-8 become U+FFFD, NUL becomes U+FFFD. Never fails. Line ends are left as they are.
[[nodiscard]] std::string to_utf8(std::string_view bytes);

/// One line of a text, without its line end.
struct TextLine {
  std::string_view text;
  std::size_t offset = 0;  ///< of its first byte in the whole text
};

/// Lines of a text; CRLF, LF and CR end a line. A last line without an end counts; an empty text has no
/// lines.
[[nodiscard]] std::vector<TextLine> split_lines(std::string_view text);
/// The lines look into the text: a string that dies with the statement cannot be split.
template <class String>
requires std::same_as<String, std::string> std::vector<TextLine> split_lines(String&& text)
= delete;

/// Without white space (ASCII and U+00A0, U+2000..U+200B, U+202F, U+3000, U+FEFF) at both ends.
[[nodiscard]] std::string_view trim(std::string_view text);

/// Every run of white space (as in trim) made one space, ends trimmed.
[[nodiscard]] std::string collapse_spaces(std::string_view text);

/// Lower case for comparing, locale-independent (Unicode case folding), diacritics kept.
[[nodiscard]] std::string fold_case(std::string_view text);

/// Capitals throughout, locale-independent.
[[nodiscard]] std::string upper_case(std::string_view text);

/// fold_case without diacritics ("purée" = "puree").
[[nodiscard]] std::string fold_accents(std::string_view text);

/// Number of characters (code points).
[[nodiscard]] std::size_t character_count(std::string_view text);

/// Column of a byte offset in a line: characters before it, plus 1.
[[nodiscard]] int column_of(std::string_view line, std::size_t offset);

/// Line and column, both from 1, of a byte offset in a whole text.
struct LineColumn {
  int line = 1;
  int column = 1;
};
[[nodiscard]] LineColumn line_column_of(std::string_view text, std::size_t offset);

/// The code point at `offset` (which must start a character), and the offset of the next; U+FFFD for broken
/// bytes.
struct CodePoint {
  char32_t value = 0;
  std::size_t next = 0;
};
[[nodiscard]] CodePoint code_point_at(std::string_view text, std::size_t offset);

/// Appends a code point as UTF-8.
void append_utf8(std::string& out, char32_t code_point);

/// True for the white space that trim removes.
[[nodiscard]] bool is_space(char32_t code_point);

/// True for letters and digits of any script (ICU u_isalnum) and for combining marks.
[[nodiscard]] bool is_word_character(char32_t code_point);

[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);

[[nodiscard]] std::string join(const std::vector<std::string>& parts, std::string_view separator);

}  // namespace panslate
