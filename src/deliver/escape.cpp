#include "panslate/deliver/escape.h"

#include <algorithm>
#include <cstddef>
#include <initializer_list>

#include "panslate/base/text.h"

namespace panslate {

namespace {

bool is_control(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0);
}

// Marks that turn the reading direction of everything after them; they have no business in a recipe.
bool turns_direction(char32_t c) {
  return (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

// Lines without control characters and without empty lines: both would end or break a cue.
std::string cue_lines(std::string_view text) {
  std::string out;
  for (const auto& line : split_lines(text)) {
    std::string clean;
    for (std::size_t i = 0; i < line.text.size();) {
      const auto [value, next] = code_point_at(line.text, i);
      if (is_control(value) || value == 0x2028 || value == 0x2029)
        clean += ' ';
      else
        append_utf8(clean, value);
      i = next;
    }
    const auto trimmed = trim(clean);
    if (trimmed.empty()) continue;
    if (!out.empty()) out += '\n';
    out += trimmed;
  }
  return out;
}

struct Replacement {
  char what;
  std::string_view with;
};

// The lines of a cue with the characters that its format would read as more than text.
std::string cue_text(std::string_view text, std::initializer_list<Replacement> replacements) {
  std::string out;
  for (const char c : cue_lines(text)) {
    const auto* found =
        std::find_if(replacements.begin(), replacements.end(), [c](const auto& r) { return r.what == c; });
    if (found == replacements.end())
      out += c;
    else
      out += found->with;
  }
  return out;
}

}  // namespace

std::string escape_html(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const auto [value, next] = code_point_at(text, i);
    switch (value) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      case '\n':
      case '\t':
        out += static_cast<char>(value);
        break;
      case '\r':
        out += '\n';
        break;
      default:
        append_utf8(out, is_control(value) || turns_direction(value) ? 0xFFFD : value);
    }
    i = next;
  }
  return out;
}

std::string escape_csv(std::string_view field) {
  const bool calculates =
      !field.empty() && std::string_view("=+-@\t\r").find(field[0]) != std::string_view::npos;
  if (!calculates && field.find_first_of(",\"\r\n;\t") == std::string_view::npos) return std::string(field);
  std::string out = calculates ? "\"'" : "\"";
  for (const char c : field) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string csv_row(const std::vector<std::string>& fields) {
  std::string out;
  for (std::size_t i = 0; i < fields.size(); ++i) out += (i == 0 ? "" : ",") + escape_csv(fields[i]);
  return out + "\r\n";
}

std::string escape_webvtt(std::string_view text) {
  return cue_text(text, {{'&', "&amp;"}, {'<', "&lt;"}, {'>', "&gt;"}});
}

std::string escape_subrip(std::string_view text) {
  return cue_text(text, {{'<', "‹"}, {'>', "›"}, {'{', "("}, {'}', ")"}});
}

std::string escape_ass(std::string_view text) {
  return cue_text(text, {{'{', "("}, {'}', ")"}, {'\\', "⧵"}, {'\n', "\\N"}});
}

std::string escape_terminal(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const auto [value, next] = code_point_at(text, i);
    if (value == '\n')
      out += '\n';
    else if (is_control(value) || turns_direction(value))
      out += ' ';
    else
      append_utf8(out, value);
    i = next;
  }
  return out;
}

}  // namespace panslate
