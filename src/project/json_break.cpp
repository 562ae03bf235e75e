#include "project/json_break.h"

#include <algorithm>
#include <charconv>
#include <optional>

namespace panslate {

namespace {

constexpr std::string_view kBlank = " \t\r\n";
constexpr std::string_view kQuotesHint = "names and words stand in straight double quotes: \"…\"";

bool is_plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-' ||
         c == '+' || c == '.' || (static_cast<unsigned char>(c) & 0x80U) != 0;
}

// First character of the run that `offset` stands in: of "01", read as a 0 and a 1.
std::size_t start_of_plain(std::string_view text, std::size_t offset) {
  while (offset > 0 && is_plain(text[offset - 1])) --offset;
  return offset;
}

// What stands at `offset`, short enough to be shown.
std::string found_at(std::string_view text, std::size_t offset) {
  constexpr std::size_t kMost = 20;
  std::size_t end = offset;
  for (std::size_t characters = 0; end < text.size() && is_plain(text[end]) && characters < kMost;
       ++characters)
    end = code_point_at(text, end).next;
  if (end == offset) end = code_point_at(text, offset).next;
  return "'" + std::string(text.substr(offset, end - offset)) + "'";
}

bool is_typographic_quote(std::string_view text, std::size_t offset) {
  const auto c = code_point_at(text, offset).value;
  return c == '\'' || c == '`' || (c >= 0x2018 && c <= 0x201F) || c == 0xAB || c == 0xBB;
}

// The number behind \u at `offset`; empty where four digits do not stand there.
std::optional<unsigned> escaped_unit(std::string_view text, std::size_t offset) {
  if (text.substr(offset, 2) != "\\u" || offset + 6 > text.size()) return std::nullopt;
  unsigned unit = 0;
  const char* begin = text.data() + offset + 2;
  const auto [end, error] = std::from_chars(begin, begin + 4, unit, 16);
  if (error != std::errc() || end != begin + 4) return std::nullopt;
  return unit;
}

// What is wrong with the \u at `offset`; no words when nothing is.
JsonBreakWords broken_escape(std::string_view text, std::size_t offset) {
  const std::string hint = "write the character itself";
  const auto unit = escaped_unit(text, offset);
  if (!unit) return {offset, "\\u and four digits or letters a to f belong together", hint};
  const auto before = offset >= 6 ? escaped_unit(text, offset - 6) : std::nullopt;
  const auto after = escaped_unit(text, offset + 6);
  const auto is_first = [](std::optional<unsigned> u) { return u && *u >= 0xD800 && *u < 0xDC00; };
  const auto is_second = [](std::optional<unsigned> u) { return u && *u >= 0xDC00 && *u < 0xE000; };
  if ((is_first(unit) && !is_second(after)) || (is_second(unit) && !is_first(before)))
    return {offset, "this is half of a character", hint};
  return {};
}

JsonBreakWords broken_words(std::string_view text, std::size_t open_quote) {
  for (std::size_t i = open_quote + 1; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"') break;
    if (c == '\n' || c == '\r') break;
    if (static_cast<unsigned char>(c) < 0x20)
      return {i, "a tab or another control character stands inside the quotes", "put a space in its place"};
    if (c != '\\') continue;
    const char next = i + 1 < text.size() ? text[i + 1] : '\0';
    if (next == 'u') {
      if (auto words = broken_escape(text, i); !words.message.empty()) return words;
      i += 5;
      continue;
    }
    if (std::string_view("\"\\/bfnrt").find(next) == std::string_view::npos)
      return {i, "the backslash cannot stand here", "write / between folders, and \\\\ for a backslash"};
    ++i;
  }
  return {open_quote, "the quotes that open here are not closed on this line", "add the missing \""};
}

std::string opened_on(const JsonBreak& where) {
  return std::string("the ") + where.open + " of line " + std::to_string(where.opened.line);
}

JsonBreakWords no_value(std::string_view text, std::size_t at) {
  const char c = text[at];
  if (c == '"') return broken_words(text, at);
  if (is_typographic_quote(text, at))
    return {at, "these are not the quotes that are needed here", std::string(kQuotesHint)};
  if (c == '}' || c == ']' || c == ',' || c == ':')
    return {at, std::string("something is missing before this ") + c, {}};
  if ((c >= '0' && c <= '9') || c == '-' || c == '+' || c == '.')
    return {at, found_at(text, at) + " is no number that can be read", "times and dates stand in quotes"};
  return {at, found_at(text, at) + " cannot stand here without quotes", std::string(kQuotesHint)};
}

JsonBreakWords no_name(std::string_view text, std::size_t at) {
  if (text[at] == '"') return broken_words(text, at);
  if (is_typographic_quote(text, at))
    return {at, "these are not the quotes that are needed here", std::string(kQuotesHint)};
  return {at, "a name in quotes was expected, found " + found_at(text, at), std::string(kQuotesHint)};
}

}  // namespace

JsonBreakWords words_for_break(std::string_view text, const JsonBreak& where) {
  JsonExpects expects = where.expects;
  std::size_t at = where.offset;
  std::optional<std::size_t> comma;
  for (;;) {
    at = std::min(text.find_first_not_of(kBlank, at), text.size());
    if (at == text.size()) {
      if (where.open == '\0') return {0, "the file is empty", "start one with: panslate new"};
      const char close = where.open == '{' ? '}' : ']';
      return {at, "the file ends too early: " + opened_on(where) + " is not closed",
              std::string("add the missing ") + close};
    }
    const char c = text[at];
    if (c == '/' || c == '#')
      return {at, "a remark cannot stand here", "keep it under a name of its own: \"note\": \"…\""};
    const bool closes = c == '}' || c == ']';
    if (closes && comma)
      return {*comma, std::string("the comma before ") + c + " is one too many", "take it out"};
    switch (expects) {
      case JsonExpects::Value:
      case JsonExpects::FirstItem:
        if (closes && where.open == '[')
          return {at, std::string("this ") + c + " does not close " + opened_on(where), {}};
        return no_value(text, at);
      case JsonExpects::FirstName:
        return no_name(text, at);
      case JsonExpects::Colon:
        if (c != ':') return {at, "a colon is missing after \"" + where.name + "\"", {}};
        expects = JsonExpects::Value;
        ++at;
        continue;
      case JsonExpects::CommaOrClose:
        if (closes) return {at, std::string("this ") + c + " does not close " + opened_on(where), {}};
        if (c != ',' && at == where.offset && is_plain(c)) return no_value(text, start_of_plain(text, at));
        if (c != ',') return {at, "a comma is missing before " + found_at(text, at), {}};
        expects = where.open == '{' ? JsonExpects::FirstName : JsonExpects::Value;
        comma = at++;
        continue;
      case JsonExpects::Nothing:
        return {at, "nothing can stand after the last bracket, found " + found_at(text, at), {}};
    }
  }
}

}  // namespace panslate
