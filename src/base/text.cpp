#include "panslate/base/text.h"

#include <algorithm>

#include <unicode/locid.h>
#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/utf16.h>
#include <unicode/utf8.h>

namespace panslate {

namespace {

constexpr char32_t kReplacement = 0xFFFD;

std::string from_utf16(std::string_view bytes, bool big_endian) {
  std::u16string units;
  units.reserve(bytes.size() / 2);
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    const auto first = static_cast<unsigned char>(bytes[i]);
    const auto second = static_cast<unsigned char>(bytes[i + 1]);
    units += static_cast<char16_t>(big_endian ? first << 8 | second : second << 8 | first);
  }
  if (bytes.size() % 2 != 0) units += static_cast<char16_t>(kReplacement);  // half a unit at the end
  std::string out;
  for (std::size_t i = 0; i < units.size(); ++i) {
    char32_t c = units[i];
    if (U16_IS_LEAD(c) && i + 1 < units.size() && U16_IS_TRAIL(units[i + 1])) {
      c = static_cast<char32_t>(U16_GET_SUPPLEMENTARY(units[i], units[i + 1]));
      ++i;
    } else if (U16_IS_SURROGATE(c)) {
      c = kReplacement;
    }
    append_utf8(out, c == 0 ? kReplacement : c);
  }
  return out;
}

// A pure ASCII text needs no ICU round trip; most words are.
bool is_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

std::string ascii_lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

}  // namespace

std::string to_utf8(std::string_view bytes) {
  if (bytes.size() >= 2 && bytes.substr(0, 2) == "\xFF\xFE") return from_utf16(bytes.substr(2), false);
  if (bytes.size() >= 2 && bytes.substr(0, 2) == "\xFE\xFF") return from_utf16(bytes.substr(2), true);
  if (bytes.substr(0, 3) == "\xEF\xBB\xBF") bytes.remove_prefix(3);
  std::string out;
  out.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size();) {
    const auto [value, next] = code_point_at(bytes, i);
    if (value == 0 || value == kReplacement)
      append_utf8(out, kReplacement);
    else
      out.append(bytes, i, next - i);
    i = next;
  }
  return out;
}

std::vector<TextLine> split_lines(std::string_view text) {
  std::vector<TextLine> lines;
  std::size_t start = 0;
  while (start < text.size()) {
    const auto end = text.find_first_of("\r\n", start);
    if (end == std::string_view::npos) {
      lines.push_back({text.substr(start), start});
      break;
    }
    lines.push_back({text.substr(start, end - start), start});
    const bool crlf = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
    start = end + (crlf ? 2 : 1);
  }
  return lines;
}

bool is_space(char32_t c) {
  return c == ' ' || (c >= 0x09 && c <= 0x0D) || c == 0x85 || c == 0xA0 || (c >= 0x2000 && c <= 0x200B) ||
         c == 0x2028 || c == 0x2029 || c == 0x202F || c == 0x205F || c == 0x3000 || c == 0xFEFF;
}

bool is_word_character(char32_t c) {
  const auto code = static_cast<UChar32>(c);
  if (u_isalnum(code)) return true;
  const auto type = u_charType(code);
  return type == U_NON_SPACING_MARK || type == U_COMBINING_SPACING_MARK || type == U_ENCLOSING_MARK;
}

std::string_view trim(std::string_view text) {
  std::size_t begin = 0;
  while (begin < text.size()) {
    const auto [value, next] = code_point_at(text, begin);
    if (!is_space(value)) break;
    begin = next;
  }
  std::size_t end = text.size();
  while (end > begin) {
    std::size_t start = end - 1;
    while (start > begin && (static_cast<unsigned char>(text[start]) & 0xC0U) == 0x80U) --start;
    const auto [value, next] = code_point_at(text, start);
    if (!is_space(value) || next != end) break;
    end = start;
  }
  return text.substr(begin, end - begin);
}

std::string collapse_spaces(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  bool pending = false;
  for (std::size_t i = 0; i < text.size();) {
    const auto [value, next] = code_point_at(text, i);
    if (is_space(value)) {
      pending = !out.empty();
    } else {
      if (pending) out += ' ';
      pending = false;
      out.append(text, i, next - i);
    }
    i = next;
  }
  return out;
}

std::string fold_case(std::string_view text) {
  if (is_ascii(text)) return ascii_lower(text);
  auto unicode =
      icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<int32_t>(text.size())));
  unicode.foldCase();
  std::string out;
  unicode.toUTF8String(out);
  return out;
}

std::string upper_case(std::string_view text) {
  auto unicode =
      icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<int32_t>(text.size())));
  unicode.toUpper(icu::Locale::getRoot());
  std::string out;
  unicode.toUTF8String(out);
  return out;
}

std::string fold_accents(std::string_view text) {
  if (is_ascii(text)) return ascii_lower(text);
  UErrorCode status = U_ZERO_ERROR;
  const auto* decompose = icu::Normalizer2::getNFDInstance(status);
  if (U_FAILURE(status)) return fold_case(text);
  auto unicode =
      icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<int32_t>(text.size())));
  unicode.foldCase();
  const auto decomposed = decompose->normalize(unicode, status);
  if (U_FAILURE(status)) return fold_case(text);
  icu::UnicodeString bare;
  for (int32_t i = 0; i < decomposed.length();) {
    const UChar32 c = decomposed.char32At(i);
    if (u_charType(c) != U_NON_SPACING_MARK) bare.append(c);
    i += U16_LENGTH(c);
  }
  std::string out;
  bare.toUTF8String(out);
  return out;
}

std::size_t character_count(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); i = code_point_at(text, i).next) ++count;
  return count;
}

int column_of(std::string_view line, std::size_t offset) {
  return static_cast<int>(character_count(line.substr(0, std::min(offset, line.size())))) + 1;
}

LineColumn line_column_of(std::string_view text, std::size_t offset) {
  offset = std::min(offset, text.size());
  LineColumn result;
  std::size_t line_start = 0;
  for (std::size_t i = 0; i < offset; ++i) {
    const bool ends_line =
        text[i] == '\n' || (text[i] == '\r' && (i + 1 >= text.size() || text[i + 1] != '\n'));
    if (!ends_line) continue;
    ++result.line;
    line_start = i + 1;
  }
  result.column = column_of(text.substr(line_start), offset - line_start);
  return result;
}

CodePoint code_point_at(std::string_view text, std::size_t offset) {
  const auto first = static_cast<unsigned char>(text[offset]);
  if (first < 0x80) return {first, offset + 1};
  // ICU's macro counts in int32; a window of four bytes holds any character of a text of any size.
  const auto window = text.substr(offset, 4);
  const auto* bytes = reinterpret_cast<const std::uint8_t*>(window.data());
  std::int32_t next = 0;
  UChar32 value = 0;
  U8_NEXT(bytes, next, static_cast<std::int32_t>(window.size()), value);
  return {value < 0 ? kReplacement : static_cast<char32_t>(value), offset + static_cast<std::size_t>(next)};
}

void append_utf8(std::string& out, char32_t code_point) {
  if (code_point > 0x10FFFF || (code_point >= 0xD800 && code_point <= 0xDFFF)) code_point = kReplacement;
  char buffer[U8_MAX_LENGTH];
  std::int32_t length = 0;
  U8_APPEND_UNSAFE(buffer, length, static_cast<UChar32>(code_point));
  out.append(buffer, static_cast<std::size_t>(length));
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  std::size_t start = 0;
  for (;;) {
    const auto end = text.find(separator, start);
    parts.emplace_back(text.substr(start, end == std::string_view::npos ? end : end - start));
    if (end == std::string_view::npos) return parts;
    start = end + 1;
  }
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
  std::string out;
  for (const auto& part : parts) {
    if (&part != &parts.front()) out += separator;
    out += part;
  }
  return out;
}

}  // namespace panslate
