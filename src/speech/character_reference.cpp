#include "speech/character_reference.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <unordered_map>

#include "panslate/base/text.h"

#include "embedded/character_references.h"

namespace panslate {

namespace {

struct NameTable {
  std::unordered_map<std::string_view, std::string> names;
  std::size_t longest = 0;
};

NameTable read_names() {
  NameTable table;
  for (const auto& [line, offset] : split_lines(embedded::character_references)) {
    const auto tab = line.find('\t');
    if (line.starts_with('#') || tab == std::string_view::npos) continue;
    std::string text;
    for (const auto& hex : split(line.substr(tab + 1), ' ')) {
      std::uint32_t code = 0;
      std::from_chars(hex.data(), hex.data() + hex.size(), code, 16);
      append_utf8(text, code);
    }
    table.longest = std::max(table.longest, tab);
    table.names.emplace(line.substr(0, tab), std::move(text));
  }
  return table;
}

/// HTML reads the numbers 0x80 to 0x9F as Windows-1252 (section 13.2.5.80).
constexpr std::array<char32_t, 32> kWindows1252{
    0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0x8D,   0x017D, 0x8F,   0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};

std::optional<CharacterReference> number_at(std::string_view text, std::size_t offset) {
  std::size_t i = offset + 2;
  const bool hex = i < text.size() && (text[i] == 'x' || text[i] == 'X');
  if (hex) ++i;
  const std::size_t start = i;
  char32_t value = 0;
  for (; i < text.size(); ++i) {
    const char c = text[i];
    char32_t digit = 0;
    if (c >= '0' && c <= '9')
      digit = static_cast<char32_t>(c - '0');
    else if (hex && c >= 'a' && c <= 'f')
      digit = static_cast<char32_t>(c - 'a' + 10);
    else if (hex && c >= 'A' && c <= 'F')
      digit = static_cast<char32_t>(c - 'A' + 10);
    else
      break;
    if (value <= 0x10FFFF) value = value * (hex ? 16 : 10) + digit;
  }
  if (i == start) return std::nullopt;
  if (i < text.size() && text[i] == ';') ++i;
  if (value == 0)
    value = 0xFFFD;
  else if (value >= 0x80 && value <= 0x9F)
    value = windows_1252(static_cast<unsigned char>(value));
  CharacterReference reference;
  append_utf8(reference.text, value);
  reference.length = i - offset;
  return reference;
}

}  // namespace

char32_t windows_1252(unsigned char byte) {
  return byte >= 0x80 && byte <= 0x9F ? kWindows1252[byte - 0x80U] : byte;
}

std::optional<CharacterReference> character_reference_at(std::string_view text, std::size_t offset) {
  if (offset + 1 >= text.size()) return std::nullopt;
  if (text[offset + 1] == '#') return number_at(text, offset);
  static const NameTable table = read_names();
  const auto name = text.substr(offset + 1, table.longest);
  std::size_t length = 0;
  while (length < name.size() &&
         ((name[length] >= '0' && name[length] <= '9') || (name[length] >= 'a' && name[length] <= 'z') ||
          (name[length] >= 'A' && name[length] <= 'Z')))
    ++length;
  if (length < name.size() && name[length] == ';') ++length;
  for (; length > 0; --length)
    if (const auto found = table.names.find(name.substr(0, length)); found != table.names.end())
      return CharacterReference{found->second, length + 1};
  return std::nullopt;
}

}  // namespace panslate
