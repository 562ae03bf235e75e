#include "recipe/source_lines.h"

#include <algorithm>
#include <optional>

#include "panslate/base/text.h"
#include "panslate/recipe/recipe.h"

#include "recipe/line_shape.h"

namespace panslate {

namespace {

bool digit(char c) {
  return c >= '0' && c <= '9';
}

bool ascii_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// Pictures and ticks that people put where a bullet goes; fractions (U+2150..U+2189) are none.
bool is_bullet_picture(char32_t c) {
  return (c >= 0x2190 && c <= 0x2211) || (c >= 0x2213 && c <= 0x245F) || (c >= 0x2500 && c <= 0x2BFF) ||
         (c >= 0x1F000 && c <= 0x1FAFF) || c == 0x2022 || c == 0x2023 || c == 0x2043 || c == 0xB7 ||
         c == 0xFE0F || c == 0x200D || c == 0x3030;
}

bool all_of_mark(std::string_view text, char mark) {
  return text.size() >= 3 && text.find_first_not_of(std::string{mark, ' '}) == std::string_view::npos;
}

// A line that only divides: ---, ***, ___, ~~~, ===, ─────, ```.
bool is_rule(std::string_view text) {
  if (text.substr(0, 3) == "```") return true;
  for (const char mark : {'-', '*', '_', '~', '='})
    if (all_of_mark(text, mark)) return true;
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) {
    const auto [value, next] = code_point_at(text, at);
    if (!(value >= 0x2500 && value <= 0x257F) && value != 0x2014 && value != 0x2013) return false;
    at = next;
  }
  return count >= 3;
}

bool is_table_rule(std::string_view text) {
  return text.find('-') != std::string_view::npos &&
         text.find_first_not_of("|-: \t") == std::string_view::npos &&
         text.find('|') != std::string_view::npos;
}

struct Mark {
  std::size_t length = 0;  // bytes up to the text after the mark
  LineKind kind = LineKind::Item;
};

std::size_t skip_spaces(std::string_view text, std::size_t at) {
  while (at < text.size()) {
    const auto [value, next] = code_point_at(text, at);
    if (!is_space(value)) break;
    at = next;
  }
  return at;
}

std::optional<Mark> number_mark(std::string_view text) {
  std::size_t at = text.substr(0, 1) == "(" ? 1 : 0;
  const bool bracketed = at == 1;
  const auto first = at;
  while (at < text.size() && digit(text[at])) ++at;
  if (at == first || at - first > 3 || at >= text.size()) return std::nullopt;
  if (text[at] != ')' && (bracketed || text[at] != '.')) return std::nullopt;
  ++at;
  const auto after = skip_spaces(text, at);
  // "1.5 kg" is an amount; "1.Mix" is a number set close.
  if (after == at && (at >= text.size() || !ascii_letter(text[at]))) return std::nullopt;
  return Mark{after, LineKind::Numbered};
}

std::optional<Mark> check_box(std::string_view text) {
  for (const std::string_view box : {"[ ]", "[x]", "[X]", "[]"})
    if (text.substr(0, box.size()) == box && text.substr(box.size(), 1) != "(")
      return Mark{skip_spaces(text, box.size()), LineKind::Item};
  return std::nullopt;
}

std::optional<Mark> bullet_mark(std::string_view text) {
  if (auto box = check_box(text)) return box;
  const char first = text[0];
  const auto after = skip_spaces(text, 1);
  if (first == '-' || first == '*' || first == '+') {
    const char next = text.size() > 1 ? text[1] : ' ';
    const bool close = after == 1;
    if (close && (first != '-' || next == '-')) return std::nullopt;
    const auto box = check_box(text.substr(after));
    return Mark{after + (box ? box->length : 0), LineKind::Item};
  }
  const auto [value, next] = code_point_at(text, 0);
  if (value == 0x2013 || value == 0x2014 || value == 0x2212)
    return Mark{skip_spaces(text, next), LineKind::Item};
  std::size_t at = 0;
  while (at < text.size()) {
    const auto [picture, past] = code_point_at(text, at);
    if (!is_bullet_picture(picture)) break;
    at = past;
  }
  if (at == 0 || at == text.size()) return std::nullopt;
  return Mark{skip_spaces(text, at), LineKind::Item};
}

int indent_of(std::string_view text, std::size_t& at) {
  int indent = 0;
  while (at < text.size()) {
    const auto [value, next] = code_point_at(text, at);
    if (value == U'\t') {
      indent += 4 - indent % 4;
    } else if (is_space(value)) {
      ++indent;
    } else {
      break;
    }
    at = next;
  }
  return indent;
}

bool wrapped_in(std::string_view text, std::string_view open, std::string_view close) {
  if (!text.empty() && text.back() == ':') text.remove_suffix(1);
  if (text.size() <= open.size() + close.size() || text.substr(0, open.size()) != open ||
      text.substr(text.size() - close.size()) != close)
    return false;
  const auto inside = text.substr(open.size(), text.size() - open.size() - close.size());
  return inside.find(open) == std::string_view::npos;
}

bool is_bold(std::string_view text) {
  return wrapped_in(text, "**", "**") || wrapped_in(text, "__", "__") || wrapped_in(text, "<b>", "</b>") ||
         wrapped_in(text, "<strong>", "</strong>");
}

bool is_capitals(std::string_view text) {
  std::size_t letters = 0;
  for (std::size_t at = 0; at < text.size();) {
    const auto [value, next] = code_point_at(text, at);
    if (value < 0x80) {
      const char c = static_cast<char>(value);
      if (c >= 'a' && c <= 'z') return false;
      if (digit(c)) return false;
      letters += static_cast<std::size_t>(c >= 'A' && c <= 'Z');
    }
    at = next;
  }
  return letters >= 3;
}

int html_heading_level(std::string_view text) {
  if (text.size() < 4 || text[0] != '<' || (text[1] != 'h' && text[1] != 'H') || text[2] < '1' ||
      text[2] > '6')
    return 0;
  return text[3] == '>' || text[3] == ' ' ? text[2] - '0' : 0;
}

SourceLine read_line(const TextLine& line, int number) {
  SourceLine out;
  out.number = number;
  std::size_t at = 0;
  out.indent = indent_of(line.text, at);
  while (at < line.text.size() && line.text[at] == '>') {  // quoted
    ++at;
    out.indent = indent_of(line.text, at);
  }
  auto rest = trim(line.text.substr(at));
  const auto place = [&](std::string_view part) {
    return line.offset + static_cast<std::size_t>(part.data() - line.text.data());
  };
  if (rest.empty()) return out;
  if (is_rule(rest) || is_table_rule(rest)) {
    out.kind = LineKind::Rule;
    out.body.text = std::string(rest.substr(0, 3));
    return out;
  }
  out.kind = LineKind::Text;
  const auto hashes = rest.find_first_not_of('#');
  if (hashes != std::string_view::npos && hashes >= 1 && hashes <= 6) {
    out.kind = LineKind::Heading;
    out.level = static_cast<int>(hashes);
    rest = trim(rest.substr(hashes));
    while (!rest.empty() && rest.back() == '#') rest = trim(rest.substr(0, rest.size() - 1));
  } else if (const int level = html_heading_level(rest)) {
    out.kind = LineKind::Heading;
    out.level = level;
  } else if (rest[0] == '|') {
    out.kind = LineKind::Row;
  } else if (!is_bold(rest)) {
    auto mark = number_mark(rest);
    if (!mark) mark = bullet_mark(rest);
    if (mark) {
      out.kind = mark->kind;
      rest = rest.substr(mark->length);
    }
  }
  out.body = strip_markup(rest, place(rest));
  if (out.body.text.empty() && out.kind != LineKind::Row) {
    out.kind = LineKind::Blank;
    return out;
  }
  out.capitals = is_capitals(out.body.text);
  out.strong = is_bold(rest) || out.capitals;
  return out;
}

// More than an amount: in "2   400 g tins of tomatoes" the first column is how many.
bool names_something(std::string_view text) {
  const auto name = read_ingredient_line(text).name;
  return std::any_of(name.begin(), name.end(), ascii_letter);
}

// "200 g flour          1 pinch salt": where the second column of a list starts; npos when there is none.
std::size_t second_column(std::string_view text) {
  constexpr std::string_view kGap = "   ";
  const auto tab = text.find('\t');
  const auto gap = std::min(text.find(kGap), tab);
  if (gap == std::string_view::npos || gap == 0) return std::string_view::npos;
  const auto start = text.find_first_not_of(" \t", gap);
  if (start == std::string_view::npos) return start;
  const auto left = text.substr(0, gap);
  return starts_with_amount(left) && starts_with_amount(text.substr(start)) && names_something(left)
             ? start
             : std::string_view::npos;
}

// A line of two or more columns as so many lines.
void add_columns(const TextLine& line, int number, std::vector<SourceLine>& out) {
  constexpr int kMostColumns = 4;
  const auto bare = trim(line.text);
  auto left = line;
  left.text = bare;
  left.offset += static_cast<std::size_t>(bare.data() - line.text.data());
  for (int i = 1; i < kMostColumns; ++i) {
    const auto start = second_column(left.text);
    if (start == std::string_view::npos) break;
    out.push_back(read_line({trim(left.text.substr(0, start)), left.offset}, number));
    left = {left.text.substr(start), left.offset + start};
  }
  out.push_back(read_line(left, number));
}

// "Enjoy!" and a dividing line below it are no heading.
bool can_be_underlined(const std::vector<SourceLine>& lines) {
  constexpr std::size_t kLongestUnderlined = 80;
  if (lines.empty() || lines.back().kind != LineKind::Text) return false;
  if (lines.size() > 1 && lines[lines.size() - 2].kind == LineKind::Text) return false;
  const auto& text = lines.back().body.text;
  return text.size() <= kLongestUnderlined &&
         std::string_view(".,!?;").find(text.back()) == std::string_view::npos;
}

}  // namespace

std::vector<SourceLine> read_source_lines(std::string_view text, std::size_t first_line) {
  std::vector<SourceLine> out;
  const auto lines = split_lines(text);
  for (auto i = first_line; i < lines.size(); ++i) {
    const auto bare = trim(lines[i].text);
    const bool underline = all_of_mark(bare, '=') || all_of_mark(bare, '-');
    if (underline && can_be_underlined(out) && bare.find(' ') == std::string_view::npos) {
      out.back().kind = LineKind::Heading;
      out.back().level = bare[0] == '=' ? 1 : 2;
      continue;
    }
    const auto number = static_cast<int>(i) + 1;
    if (bare.empty() || second_column(bare) == std::string_view::npos)
      out.push_back(read_line(lines[i], number));
    else
      add_columns(lines[i], number, out);
  }
  return out;
}

}  // namespace panslate
