#include "recipe/json_text.h"

#include <array>
#include <cstdint>
#include <string>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"

namespace panslate {

namespace {

using nlohmann::json;

// Refused before it is read, so that it cannot fill the stack.
bool nests_too_deep(std::string_view text) {
  constexpr int kLimit = 200;
  int depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '\\')
        ++i;
      else if (c == '"')
        quoted = false;
      continue;
    }
    if (c == '"') quoted = true;
    if ((c == '{' || c == '[') && ++depth > kLimit) return true;
    if (c == '}' || c == ']') --depth;
  }
  return false;
}

std::optional<json> parsed(std::string_view text) {
  if (nests_too_deep(text)) return std::nullopt;
  auto value = json::parse(text.begin(), text.end(), nullptr, false, true);
  if (value.is_discarded()) return std::nullopt;
  return value;
}

// From the first bracket to the last: comment marks, CDATA and semicolons stand outside.
std::string_view core_of(std::string_view text) {
  for (const std::string_view mark : {"<![CDATA[", "]]>"})
    if (const auto at = text.find(mark); at != std::string_view::npos)
      text = mark.front() == '<' ? text.substr(at + mark.size()) : text.substr(0, at);
  const auto begin = text.find_first_of("{[");
  const auto end = text.find_last_of("}]");
  if (begin == std::string_view::npos || end == std::string_view::npos || end < begin) return {};
  return text.substr(begin, end + 1 - begin);
}

class Mender {
 public:
  explicit Mender(std::string_view text) : text_(text) { out_.reserve(text.size() + text.size() / 16); }

  std::string mend() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (quoted_)
        inside(c);
      else
        outside(c);
    }
    return std::move(out_);
  }

 private:
  std::size_t skip_spaces(std::size_t at) const {
    while (at < text_.size() && std::string_view(" \t\r\n").find(text_[at]) != std::string_view::npos) ++at;
    return at;
  }

  void outside(char c) {
    ++at_;
    if (c == ',') {
      const auto next = skip_spaces(at_);
      // One comma too many, before the end or before another.
      if (next < text_.size() && std::string_view("}],").find(text_[next]) != std::string_view::npos) return;
    }
    out_ += c;
    quoted_ = c == '"';
  }

  void inside(char c) {
    if (c == '\\') return escape();
    if (c == '"') {
      ++at_;
      quoted_ = !closes(at_);
      out_ += quoted_ ? "\\\"" : "\"";
      return;
    }
    ++at_;
    if (static_cast<unsigned char>(c) >= 0x20) {
      out_ += c;
      return;
    }
    if (c == '\n')
      out_ += "\\n";
    else if (c != '\r')
      out_ += ' ';
  }

  void escape() {
    const char next = at_ + 1 < text_.size() ? text_[at_ + 1] : '\0';
    const bool known = next != '\0' && std::string_view("\"\\/bfnrtu").find(next) != std::string_view::npos;
    if (!known) {  // "\'" and the like
      ++at_;
      return;
    }
    out_ += '\\';
    out_ += next;
    at_ += 2;
  }

  // A quote ends its string where JSON goes on behind it.
  bool closes(std::size_t after) const {
    const auto next = skip_spaces(after);
    if (next >= text_.size()) return true;
    if (text_[next] != ',') return std::string_view(":}]").find(text_[next]) != std::string_view::npos;
    // A 9", deep tin: behind the comma of JSON comes a string, a bracket, a number or a word of its own.
    const auto value = skip_spaces(next + 1);
    if (value >= text_.size()) return true;
    const char c = text_[value];
    if (std::string_view("\"{[}]-,").find(c) != std::string_view::npos || (c >= '0' && c <= '9')) return true;
    for (const std::string_view word : {"true", "false", "null"})
      if (text_.substr(value, word.size()) == word) return true;
    return false;
  }

  std::string_view text_;
  std::string out_;
  std::size_t at_ = 0;
  bool quoted_ = false;
};

// {&quot;@type&quot;: …}: the whole script escaped.
std::string unescaped(std::string_view text) {
  struct Escape {
    std::string_view written;
    char meant;
  };
  static constexpr std::array kEscapes = {Escape{"&quot;", '"'}, Escape{"&#34;", '"'}, Escape{"&#034;", '"'},
                                          Escape{"&amp;", '&'}};
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const Escape* found = nullptr;
    if (text[at] == '&')
      for (const auto& escape : kEscapes)
        if (text.substr(at, escape.written.size()) == escape.written) found = &escape;
    out += found != nullptr ? found->meant : text[at];
    at += found != nullptr ? found->written.size() : 1;
  }
  return out;
}

}  // namespace

std::optional<json> read_json_as_found(std::string_view text) {
  if (auto value = parsed(text)) return value;
  const auto core = core_of(text);
  if (core.empty()) return std::nullopt;
  if (core.find('"') == std::string_view::npos && core.find('&') != std::string_view::npos)
    return parsed(Mender(unescaped(core)).mend());
  return parsed(Mender(core).mend());
}

}  // namespace panslate
