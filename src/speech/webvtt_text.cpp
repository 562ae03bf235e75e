#include <algorithm>
#include <array>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/speech/webvtt.h"

#include "speech/character_reference.h"
#include "speech/webvtt_scan.h"

namespace panslate {

namespace {

struct Token {
  enum class Kind { Text, StartTag, EndTag, Timestamp };
  Kind kind = Kind::Text;
  std::string value;  ///< the text, the tag's name, or the digits of a timestamp
  std::vector<std::string> classes;
  std::string annotation;
};

/// The WebVTT cue text tokenizer (section 6.4). One function reads one kind of token, where the specification
/// has one state a part of it.
class Tokenizer {
 public:
  explicit Tokenizer(std::string_view input) : input_(input) {}

  [[nodiscard]] bool at_end() const { return position_ >= input_.size(); }

  Token next() { return input_[position_] == '<' ? tag() : text(); }

 private:
  static constexpr bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\f'; }

  void append_reference(std::string& out) {
    if (const auto reference = character_reference_at(input_, position_)) {
      out += reference->text;
      position_ += reference->length;
    } else {
      out += '&';
      ++position_;
    }
  }

  Token text() {
    Token token;
    while (!at_end() && input_[position_] != '<') {
      if (input_[position_] == '&')
        append_reference(token.value);
      else
        token.value += input_[position_++];
    }
    return token;
  }

  Token tag() {
    ++position_;
    if (at_end()) return {.kind = Token::Kind::StartTag, .value = {}, .classes = {}, .annotation = {}};
    const char c = input_[position_];
    if (c == '/') {
      ++position_;
      return rest_of_tag(Token::Kind::EndTag);
    }
    if (is_vtt_digit(c)) return rest_of_tag(Token::Kind::Timestamp);
    return start_tag();
  }

  Token rest_of_tag(Token::Kind kind) {
    const auto end = std::min(input_.find('>', position_), input_.size());
    Token token;
    token.kind = kind;
    token.value = input_.substr(position_, end - position_);
    position_ = std::min(end + 1, input_.size());
    return token;
  }

  Token start_tag() {
    Token token;
    token.kind = Token::Kind::StartTag;
    std::string* part = &token.value;
    for (; !at_end(); ++position_) {
      const char c = input_[position_];
      if (c == '>') {
        ++position_;
        return token;
      }
      if (is_blank(c) || c == '\n') {
        ++position_;
        token.annotation = annotation();
        return token;
      }
      if (c == '.')
        part = &token.classes.emplace_back();
      else
        *part += c;
    }
    return token;
  }

  std::string annotation() {
    std::string raw;
    while (!at_end() && input_[position_] != '>') {
      if (input_[position_] == '&')
        append_reference(raw);
      else
        raw += input_[position_++];
    }
    if (!at_end()) ++position_;
    std::string out;
    for (const char c : raw) {
      if (!is_vtt_space(c))
        out += c;
      else if (!out.empty() && out.back() != ' ')
        out += ' ';
    }
    if (out.ends_with(' ')) out.pop_back();
    return out;
  }

  std::string_view input_;
  std::size_t position_ = 0;
};

constexpr std::array kTags{std::pair{std::string_view("c"), VttNode::Kind::Class},
                           std::pair{std::string_view("i"), VttNode::Kind::Italic},
                           std::pair{std::string_view("b"), VttNode::Kind::Bold},
                           std::pair{std::string_view("u"), VttNode::Kind::Underline},
                           std::pair{std::string_view("ruby"), VttNode::Kind::Ruby},
                           std::pair{std::string_view("rt"), VttNode::Kind::RubyText},
                           std::pair{std::string_view("v"), VttNode::Kind::Voice},
                           std::pair{std::string_view("lang"), VttNode::Kind::Language}};

std::optional<VttNode::Kind> kind_of(std::string_view tag) {
  for (const auto& [name, kind] : kTags)
    if (name == tag) return kind;
  return std::nullopt;
}

/// The cue text parsing rules (section 6.4): tokens to nodes.
class TreeBuilder {
 public:
  void add(Token token) {
    switch (token.kind) {
      case Token::Kind::Text:
        append(VttNode::Kind::Text).value = std::move(token.value);
        return;
      case Token::Kind::StartTag:
        open(std::move(token));
        return;
      case Token::Kind::EndTag:
        close(token.value);
        return;
      case Token::Kind::Timestamp: {
        std::size_t at = 0;
        const auto time = collect_vtt_timestamp(token.value, at);
        if (time && at == token.value.size()) append(VttNode::Kind::Timestamp).time = *time;
        return;
      }
    }
  }

  std::vector<VttNode> take() { return std::move(nodes_); }

 private:
  VttNode& append(VttNode::Kind kind) {
    auto& node = nodes_.emplace_back();
    node.kind = kind;
    node.parent = current_;
    return node;
  }

  [[nodiscard]] bool current_is(VttNode::Kind kind) const {
    return current_ && nodes_[*current_].kind == kind;
  }

  void open(Token token) {
    const auto kind = kind_of(token.value);
    if (!kind || (*kind == VttNode::Kind::RubyText && !current_is(VttNode::Kind::Ruby))) return;
    auto& node = append(*kind);
    for (auto& name : token.classes)
      if (!name.empty()) node.classes.push_back(std::move(name));
    if (*kind == VttNode::Kind::Voice || *kind == VttNode::Kind::Language)
      node.value = std::move(token.annotation);
    current_ = nodes_.size() - 1;
  }

  void close(std::string_view name) {
    const auto kind = kind_of(name);
    if (!kind) return;
    if (current_is(*kind)) {
      current_ = nodes_[*current_].parent;
    } else if (*kind == VttNode::Kind::Ruby && current_is(VttNode::Kind::RubyText)) {
      current_ = nodes_[*nodes_[*current_].parent].parent;
    }
  }

  std::vector<VttNode> nodes_;
  std::optional<std::size_t> current_;
};

}  // namespace

std::vector<VttNode> parse_cue_text(std::string_view raw) {
  Tokenizer tokens(raw);
  TreeBuilder tree;
  while (!tokens.at_end()) tree.add(tokens.next());
  return tree.take();
}

}  // namespace panslate
