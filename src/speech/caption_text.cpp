#include "speech/caption_text.h"

#include <algorithm>
#include <optional>

#include "panslate/base/text.h"

#include "speech/character_reference.h"

namespace panslate {

namespace {

struct Utf8Census {
  std::size_t good = 0;  ///< characters of more than one byte
  std::size_t bad = 0;   ///< bytes that belong to no character
  std::size_t first_bad = 0;
};

Utf8Census count_utf8(std::string_view bytes) {
  Utf8Census census;
  for (std::size_t i = 0; i < bytes.size();) {
    const auto [value, next] = code_point_at(bytes, i);
    const bool is_written_out = bytes.substr(i, 3) == "\xEF\xBF\xBD";
    if (value == 0xFFFD && !is_written_out) {
      if (census.bad == 0) census.first_bad = i;
      census.bad += next - i;
    } else if (next - i > 1) {
      ++census.good;
    }
    i = next;
  }
  return census;
}

/// The byte order mark that UTF-16 without one should have had: every other byte of Latin text is zero.
std::optional<std::string_view> missing_mark(std::string_view bytes) {
  const auto sample = bytes.substr(0, 4096);
  std::size_t zero_at_even = 0;
  std::size_t zero_at_odd = 0;
  for (std::size_t i = 0; i < sample.size(); ++i)
    if (sample[i] == '\0') ++(i % 2 == 0 ? zero_at_even : zero_at_odd);
  const std::size_t most = sample.size() / 2;
  if (most < 4) return std::nullopt;
  if (zero_at_odd * 10 > most * 6 && zero_at_even * 10 < most) return "\xFF\xFE";
  if (zero_at_even * 10 > most * 6 && zero_at_odd * 10 < most) return "\xFE\xFF";
  return std::nullopt;
}

}  // namespace

CaptionText decode_captions(std::string_view bytes) {
  const auto encoding_of = [](std::string_view mark) {
    return mark.starts_with('\xFF') ? CaptionEncoding::Utf16LittleEndian : CaptionEncoding::Utf16BigEndian;
  };
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF"))
    return {to_utf8(bytes), {}, encoding_of(bytes)};
  if (const auto mark = missing_mark(bytes))
    return {to_utf8(std::string(*mark).append(bytes)), {}, encoding_of(*mark)};
  const auto census = count_utf8(bytes);
  if (census.bad == 0) return {to_utf8(bytes), {}, CaptionEncoding::Utf8};
  const int line = line_column_of(bytes, census.first_bad).line;
  if (census.good >= census.bad)
    return {to_utf8(bytes),
            {{"some letters of this file are broken and show as \uFFFD; save it as UTF-8", line}},
            CaptionEncoding::Utf8};
  CaptionText result;
  result.encoding = CaptionEncoding::Windows1252;
  result.warnings.push_back(
      {"this file is not UTF-8: its letters were read as Windows-1252; check accents, or save it as UTF-8",
       line});
  result.text.reserve(bytes.size());
  for (const char c : bytes) {
    const auto code = windows_1252(static_cast<unsigned char>(c));
    append_utf8(result.text, code == 0 ? U'\uFFFD' : code);
  }
  return result;
}

}  // namespace panslate
