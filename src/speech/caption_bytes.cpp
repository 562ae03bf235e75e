#include "speech/caption_bytes.h"

#include "panslate/base/text.h"

#include "speech/character_reference.h"

namespace panslate {

namespace {

std::size_t mark_size(std::string_view bytes, CaptionEncoding encoding) {
  switch (encoding) {
    case CaptionEncoding::Utf8:
      return bytes.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    case CaptionEncoding::Utf16LittleEndian:
      return bytes.starts_with("\xFF\xFE") ? 2 : 0;
    case CaptionEncoding::Utf16BigEndian:
      return bytes.starts_with("\xFE\xFF") ? 2 : 0;
    case CaptionEncoding::Windows1252:
      break;
  }
  return 0;
}

// Bytes of a character in the file; `utf8` is what it takes in the decoded text.
std::size_t size_in(CaptionEncoding encoding, char32_t character, std::size_t utf8) {
  switch (encoding) {
    case CaptionEncoding::Utf8:
      return utf8;
    case CaptionEncoding::Utf16LittleEndian:
    case CaptionEncoding::Utf16BigEndian:
      return character > 0xFFFF ? 4 : 2;
    case CaptionEncoding::Windows1252:
      break;
  }
  return 1;
}

std::optional<char> byte_of_windows_1252(char32_t character) {
  for (int byte = 0; byte < 256; ++byte)
    if (windows_1252(static_cast<unsigned char>(byte)) == character) return static_cast<char>(byte);
  return std::nullopt;
}

void append_utf16(std::string& out, char32_t unit, CaptionEncoding encoding) {
  const auto high = static_cast<char>(unit >> 8U);
  const auto low = static_cast<char>(unit & 0xFFU);
  out += encoding == CaptionEncoding::Utf16LittleEndian ? low : high;
  out += encoding == CaptionEncoding::Utf16LittleEndian ? high : low;
}

std::string encoded(std::string_view text, CaptionEncoding encoding) {
  if (encoding == CaptionEncoding::Utf8) return std::string(text);
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const auto [character, next] = code_point_at(text, i);
    if (encoding == CaptionEncoding::Windows1252) {
      out += byte_of_windows_1252(character).value_or('?');
    } else if (character > 0xFFFF) {
      append_utf16(out, 0xD800U + ((character - 0x10000U) >> 10U), encoding);
      append_utf16(out, 0xDC00U + ((character - 0x10000U) & 0x3FFU), encoding);
    } else {
      append_utf16(out, character, encoding);
    }
    i = next;
  }
  return out;
}

}  // namespace

bool can_encode(std::string_view text, CaptionEncoding encoding) {
  if (encoding != CaptionEncoding::Windows1252) return true;
  for (std::size_t i = 0; i < text.size();) {
    const auto [character, next] = code_point_at(text, i);
    if (!byte_of_windows_1252(character)) return false;
    i = next;
  }
  return true;
}

std::optional<std::string> apply_edits(std::string_view bytes, const CaptionText& decoded,
                                       const std::vector<TextEdit>& edits) {
  const auto& text = decoded.text;
  std::string out;
  out.reserve(bytes.size());
  std::size_t copied = 0;  // bytes of the file that are in `out` or replaced
  std::size_t at = mark_size(bytes, decoded.encoding);
  std::size_t edit = 0;
  std::size_t i = 0;
  // Broken letters and zeros are shorter in the file than the sign that stands for them.
  while (at <= bytes.size()) {
    if (edit < edits.size() && edits[edit].begin == i) {
      out.append(bytes.substr(copied, at - copied));
      out += encoded(edits[edit].text, decoded.encoding);
      for (; i < edits[edit].end;) {
        const auto [character, next] = code_point_at(text, i);
        at += size_in(decoded.encoding, character, next - i);
        i = next;
      }
      copied = at;
      ++edit;
      continue;
    }
    if (i >= text.size()) break;
    const auto [character, next] = code_point_at(text, i);
    at += size_in(decoded.encoding, character, next - i);
    i = next;
  }
  if (at != bytes.size() || edit != edits.size()) return std::nullopt;
  return out.append(bytes.substr(copied));
}

}  // namespace panslate
