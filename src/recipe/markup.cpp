#include "recipe/markup.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "panslate/base/text.h"

namespace panslate {

namespace {

struct Entity {
  std::string_view name;
  char32_t character;
};

// HTML Living Standard, section 13.5 (named character references): those that recipes use.
constexpr std::array kEntities = {
    Entity{"amp", U'&'},    Entity{"apos", U'\''},  Entity{"deg", U'°'},    Entity{"eacute", U'é'},
    Entity{"egrave", U'è'}, Entity{"frac12", U'½'}, Entity{"frac13", U'⅓'}, Entity{"frac14", U'¼'},
    Entity{"frac18", U'⅛'}, Entity{"frac23", U'⅔'}, Entity{"frac34", U'¾'}, Entity{"frac38", U'⅜'},
    Entity{"frasl", U'⁄'},  Entity{"gt", U'>'},     Entity{"half", U'½'},   Entity{"hellip", U'…'},
    Entity{"icirc", U'î'},  Entity{"laquo", U'«'},  Entity{"ldquo", U'“'},  Entity{"lsquo", U'‘'},
    Entity{"lt", U'<'},     Entity{"mdash", U'—'},  Entity{"minus", U'−'},  Entity{"nbsp", U' '},
    Entity{"ndash", U'–'},  Entity{"ntilde", U'ñ'}, Entity{"ocirc", U'ô'},  Entity{"ouml", U'ö'},
    Entity{"quot", U'"'},   Entity{"raquo", U'»'},  Entity{"rdquo", U'”'},  Entity{"rsquo", U'’'},
    Entity{"thinsp", U' '}, Entity{"times", U'×'},  Entity{"uuml", U'ü'},   Entity{"auml", U'ä'},
    Entity{"ccedil", U'ç'}, Entity{"agrave", U'à'}, Entity{"acirc", U'â'},  Entity{"ecirc", U'ê'},
};

bool ascii_alnum(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool ascii_alpha(char c) {
  return ascii_alnum(c) && !(c >= '0' && c <= '9');
}

// A word character in the sense of emphasis: any letter or digit, any byte of a longer character.
bool wordish(char c) {
  return ascii_alnum(c) || static_cast<unsigned char>(c) >= 0x80;
}

class Stripper {
 public:
  Stripper(std::string_view line, std::size_t offset) : line_(line), offset_(offset) {
    out_.text.reserve(line.size());
    out_.origin.reserve(line.size());
  }

  PlainText run() {
    while (at_ < line_.size()) step();
    while (!out_.text.empty() && out_.text.back() == ' ') {
      out_.text.pop_back();
      out_.origin.pop_back();
    }
    return std::move(out_);
  }

 private:
  char peek(std::size_t ahead) const { return at_ + ahead < line_.size() ? line_[at_ + ahead] : '\0'; }
  char before() const { return at_ > 0 ? line_[at_ - 1] : '\0'; }

  void put(char32_t c, std::size_t from) {
    if (is_space(c)) {
      if (out_.text.empty() || out_.text.back() == ' ') return;
      c = U' ';
    }
    const auto start = out_.text.size();
    append_utf8(out_.text, c);
    for (auto i = start; i < out_.text.size(); ++i)
      out_.origin.push_back(static_cast<std::uint32_t>(offset_ + from));
  }

  void step() {
    const char c = line_[at_];
    if (c == '\\' && at_ + 1 < line_.size() && !wordish(line_[at_ + 1]) && line_[at_ + 1] != ' ') {
      put(static_cast<char32_t>(line_[at_ + 1]), at_ + 1);
      at_ += 2;
      return;
    }
    if (c == '!' && peek(1) == '[' && skip_picture()) return;
    if (c == '[' && skip_footnote()) return;
    if ((c == '[' || c == ']') && link_bracket()) return;
    if (c == '<' && skip_tag()) return;
    if (c == '&' && entity()) return;
    if (c == '`') {
      ++at_;
      return;
    }
    if ((c == '*' || c == '_' || c == '~' || c == '=') && emphasis(c)) return;
    const auto [value, next] = code_point_at(line_, at_);
    if (value != 0xFE0F && value != 0x200D && value != 0xAD) put(value, at_);
    at_ = next;
  }

  bool skip_picture() {
    const auto close = find(']', at_ + 2);
    if (close == std::string_view::npos || close + 1 >= line_.size() || line_[close + 1] != '(') return false;
    const auto end = find(')', close + 2);
    if (end == std::string_view::npos) return false;
    at_ = end + 1;
    return true;
  }

  bool skip_footnote() {
    if (peek(1) != '^') return false;
    const auto close = find(']', at_);
    if (close == std::string_view::npos) return false;
    at_ = close + 1;
    return true;
  }

  // `[words](place)` and `[words][name]` keep the words.
  bool link_bracket() {
    if (line_[at_] == '[') {
      const auto close = find(']', at_ + 1);
      if (close == std::string_view::npos || close + 1 >= line_.size()) return false;
      if (line_[close + 1] != '(' && line_[close + 1] != '[') return false;
      if (find(line_[close + 1] == '(' ? ')' : ']', close + 2) == std::string_view::npos) return false;
      link_end_ = close;
      ++at_;
      return true;
    }
    if (at_ != link_end_) return false;
    at_ = find(line_[at_ + 1] == '(' ? ')' : ']', at_ + 2) + 1;
    link_end_ = std::string_view::npos;
    return true;
  }

  bool skip_tag() {
    const char next = peek(1);
    if (!ascii_alpha(next) && next != '/') return false;
    const auto close = find('>', at_ + 1);
    if (close == std::string_view::npos || close - at_ > kLongestTag) return false;
    const auto inside = line_.substr(at_ + 1, close - at_ - 1);
    if (inside.substr(0, 4) == "http" || inside.find('@') != std::string_view::npos) {
      at_ = close + 1;  // <https://…>: an address is no text of a recipe
      return true;
    }
    const auto name = inside.substr(0, inside.find_first_of(" \t/", 1));
    if (name == "br" || name == "p" || name == "/p" || name == "li" || name == "/li" || name == "div" ||
        name == "/div")
      put(U' ', at_);
    at_ = close + 1;
    return true;
  }

  bool entity() {
    const auto end = line_.substr(at_, kLongestEntity).find(';');
    if (end == std::string_view::npos || end < 2) return false;
    const auto character = entity_character(line_.substr(at_ + 1, end - 1));
    if (character == 0) return false;
    // "1&frac12;" is one and a half; NFKC-like gluing would make eleven halves of it only for the eye.
    put(character, at_);
    at_ += end + 1;
    return true;
  }

  bool emphasis(char mark) {
    std::size_t run = 1;
    while (peek(run) == mark) ++run;
    const char left = before();
    const char right = peek(run);
    if (mark == '=' && run != 2) return false;
    if (mark == '~' && run != 2) return false;
    if (mark == '_' && wordish(left) && wordish(right)) return false;
    if (mark == '*') {
      const bool left_open = left == '\0' || left == ' ';
      const bool right_open = right == '\0' || right == ' ';
      if (left_open && right_open && run == 1 && left != '\0') return false;  // "2 * 400 g"
      if (run == 1 && left >= '0' && left <= '9' && right >= '0' && right <= '9') return false;
    }
    at_ += run;
    return true;
  }

  // Remembers where the next one stands, so that many openings before one end cost no more than one.
  std::size_t find(char c, std::size_t from) {
    auto& known = c == ']' ? square_ : c == ')' ? round_ : angle_;
    if (known.from <= from && from <= known.at) return known.at;
    known = {from, line_.find(c, from)};
    return known.at;
  }

  struct Known {
    std::size_t from = 1, at = 0;
  };

  static constexpr std::size_t kLongestTag = 2000;
  static constexpr std::size_t kLongestEntity = 12;

  std::string_view line_;
  std::size_t offset_;
  std::size_t at_ = 0;
  std::size_t link_end_ = std::string_view::npos;
  Known square_, round_, angle_;
  PlainText out_;
};

// Where the region that starts at `at` ends; npos when none starts there.
std::size_t hidden_end(std::string_view text, std::size_t at) {
  struct Hidden {
    std::string_view open, close;
  };
  static constexpr std::array kHidden = {Hidden{"<!--", "-->"}, Hidden{"<script", "</script>"},
                                         Hidden{"<style", "</style>"}};
  for (const auto& [open, close] : kHidden) {
    if (text.substr(at, open.size()) != open) continue;
    const auto end = text.find(close, at + open.size());
    return end == std::string_view::npos ? text.size() : end + close.size();
  }
  return std::string_view::npos;
}

}  // namespace

PlainText PlainText::part(std::size_t begin, std::size_t end) const {
  while (begin < end && text[begin] == ' ') ++begin;
  while (end > begin && text[end - 1] == ' ') --end;
  PlainText out;
  out.text = text.substr(begin, end - begin);
  out.origin.assign(origin.begin() + static_cast<std::ptrdiff_t>(begin),
                    origin.begin() + static_cast<std::ptrdiff_t>(end));
  return out;
}

void PlainText::append(const PlainText& next) {
  if (next.text.empty()) return;
  if (!text.empty()) {
    text += ' ';
    origin.push_back(next.origin.front());
  }
  text += next.text;
  origin.insert(origin.end(), next.origin.begin(), next.origin.end());
}

PlainText strip_markup(std::string_view line, std::size_t offset) {
  return Stripper(line, offset).run();
}

std::string blank_comments(std::string_view text) {
  std::string out(text);
  for (auto at = text.find('<'); at != std::string_view::npos; at = text.find('<', at)) {
    const auto end = hidden_end(text, at);
    if (end == std::string_view::npos) {
      ++at;
      continue;
    }
    for (auto i = at; i < end; ++i)
      if (out[i] != '\n' && out[i] != '\r') out[i] = ' ';
    at = end;
  }
  return out;
}

char32_t entity_character(std::string_view name) {
  if (name.size() > 1 && name[0] == '#') {
    const bool hex = name[1] == 'x' || name[1] == 'X';
    const auto digits = name.substr(hex ? 2 : 1);
    std::uint32_t value = 0;
    const auto result = std::from_chars(digits.data(), digits.data() + digits.size(), value, hex ? 16 : 10);
    if (result.ec != std::errc{} || result.ptr != digits.data() + digits.size()) return 0;
    return value == 0 || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF) ? 0 : value;
  }
  const auto found =
      std::find_if(kEntities.begin(), kEntities.end(), [&](const Entity& e) { return e.name == name; });
  return found == kEntities.end() ? 0 : found->character;
}

std::string plain_string(std::string_view text) {
  std::string out;
  for (const auto& line : split_lines(text)) {
    const auto plain = strip_markup(line.text, 0);
    if (plain.text.empty()) continue;
    if (!out.empty()) out += ' ';
    out += plain.text;
  }
  return out;
}

}  // namespace panslate
