#include "speech/script_syntax.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <utility>

#include "panslate/base/text.h"

namespace panslate::script {

namespace {

using NodePtr = std::unique_ptr<Node>;

struct Token {
  enum class Kind { End, Name, Number, String, Sign };
  Kind kind = Kind::End;
  std::string text = {};
  double number = 0;
};

bool is_name_char(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '$';
}

class Lexer {
 public:
  explicit Lexer(std::string_view source) : source_(source) {}

  std::vector<Token> run() {
    std::vector<Token> tokens;
    for (;;) {
      skip_space();
      if (at_ >= source_.size()) break;
      tokens.push_back(next());
    }
    tokens.emplace_back();
    return tokens;
  }

 private:
  void skip_space() {
    for (;;) {
      while (at_ < source_.size() &&
             (source_[at_] == ' ' || source_[at_] == '\n' || source_[at_] == '\t' || source_[at_] == '\r'))
        ++at_;
      const auto rest = source_.substr(at_);
      if (rest.starts_with("//"))
        at_ = std::min(source_.find('\n', at_), source_.size());
      else if (rest.starts_with("/*"))
        at_ = std::min(source_.find("*/", at_ + 2), source_.size() - 2) + 2;
      else
        return;
    }
  }

  Token next() {
    const char c = source_[at_];
    if (c == '\'' || c == '"') return string();
    if (c >= '0' && c <= '9') {
      Token token{Token::Kind::Number};
      const auto* begin = source_.data() + at_;
      const auto result = std::from_chars(begin, source_.data() + source_.size(), token.number);
      at_ += static_cast<std::size_t>(result.ptr - begin);
      return token;
    }
    if (is_name_char(c)) {
      const std::size_t start = at_;
      while (at_ < source_.size() && is_name_char(source_[at_])) ++at_;
      return {Token::Kind::Name, std::string(source_.substr(start, at_ - start))};
    }
    static constexpr std::array<std::string_view, 13> kLongSigns{
        "===", "!==", "=>", "==", "!=", "<=", ">=", "&&", "||", "++", "--", "+=", "-="};
    for (const auto sign : kLongSigns)
      if (source_.substr(at_).starts_with(sign)) {
        at_ += sign.size();
        return {Token::Kind::Sign, std::string(sign)};
      }
    ++at_;
    return {Token::Kind::Sign, std::string(1, c)};
  }

  Token string() {
    const char quote = source_[at_++];
    Token token{Token::Kind::String};
    while (at_ < source_.size() && source_[at_] != quote) {
      if (source_[at_] != '\\') {
        token.text += source_[at_++];
        continue;
      }
      const char c = at_ + 1 < source_.size() ? source_[at_ + 1] : '\\';
      at_ += 2;
      if (c == 'n') {
        token.text += '\n';
      } else if (c == 't') {
        token.text += '\t';
      } else if (c == 'u') {
        std::uint32_t code = 0;
        const auto digits = source_.substr(at_, 4);
        std::from_chars(digits.data(), digits.data() + digits.size(), code, 16);
        append_utf8(token.text, code);
        at_ += 4;
      } else {
        token.text += c;
      }
    }
    if (at_ >= source_.size()) throw ScriptError("a string without end");
    ++at_;
    return token;
  }

  std::string_view source_;
  std::size_t at_ = 0;
};

NodePtr make(Node::Kind kind, std::string text = {}) {
  auto node = std::make_unique<Node>();
  node->kind = kind;
  node->text = std::move(text);
  return node;
}

template <class... Children>
NodePtr make_with(Node::Kind kind, std::string text, Children... children) {
  auto node = make(kind, std::move(text));
  (node->children.push_back(std::move(children)), ...);
  return node;
}

class Parser {
 public:
  explicit Parser(std::vector<Token> tokens) : tokens_(std::move(tokens)) {}

  NodePtr script() {
    auto block = make(Node::Kind::Block);
    while (peek().kind != Token::Kind::End) block->children.push_back(statement());
    return block;
  }

 private:
  [[nodiscard]] const Token& peek(std::size_t ahead = 0) const {
    return tokens_[std::min(at_ + ahead, tokens_.size() - 1)];
  }
  Token take() { return tokens_[at_ < tokens_.size() - 1 ? at_++ : at_]; }
  [[nodiscard]] bool sees(std::string_view text, std::size_t ahead = 0) const {
    const auto& token = peek(ahead);
    return (token.kind == Token::Kind::Sign || token.kind == Token::Kind::Name) && token.text == text;
  }
  bool accept(std::string_view text) {
    if (!sees(text)) return false;
    ++at_;
    return true;
  }
  void expect(std::string_view text) {
    if (!accept(text))
      throw ScriptError("expected '" + std::string(text) + "' instead of '" + peek().text + "'");
  }
  std::string name() {
    if (peek().kind != Token::Kind::Name)
      throw ScriptError("expected a name instead of '" + peek().text + "'");
    return take().text;
  }

  NodePtr block() {
    expect("{");
    auto node = make(Node::Kind::Block);
    while (!accept("}")) node->children.push_back(statement());
    return node;
  }

  NodePtr statement() {
    if (sees("{")) return block();
    if (accept(";")) return make(Node::Kind::Block);
    if (sees("function")) return function();
    if (accept("if")) {
      expect("(");
      auto condition = expression();
      expect(")");
      auto node = make_with(Node::Kind::If, {}, std::move(condition), statement());
      if (accept("else")) node->children.push_back(statement());
      return node;
    }
    if (accept("for")) return for_loop();
    if (accept("return")) {
      auto node = make(Node::Kind::Return);
      if (!sees(";") && !sees("}")) node->children.push_back(expression());
      accept(";");
      return node;
    }
    auto node = starts_declaration() ? declaration() : make_with(Node::Kind::Expression, {}, expression());
    accept(";");
    return node;
  }

  [[nodiscard]] bool starts_declaration() const { return sees("var") || sees("let") || sees("const"); }

  NodePtr declaration() {
    take();
    auto all = make(Node::Kind::Sequence);
    do {
      auto one = make(Node::Kind::Declare, name());
      if (accept("=")) one->children.push_back(assignment());
      all->children.push_back(std::move(one));
    } while (accept(","));
    return all;
  }

  NodePtr for_loop() {
    expect("(");
    if (starts_declaration() && sees("in", 2)) {
      take();
      auto variable = name();
      expect("in");
      auto object = expression();
      expect(")");
      return make_with(Node::Kind::ForIn, std::move(variable), std::move(object), statement());
    }
    const auto nothing = [] { return make(Node::Kind::Block); };
    auto start = sees(";") ? nothing() : starts_declaration() ? declaration() : expression();
    expect(";");
    auto condition = sees(";") ? nothing() : expression();
    expect(";");
    auto step = sees(")") ? nothing() : expression();
    expect(")");
    return make_with(Node::Kind::For, {}, std::move(start), std::move(condition), std::move(step),
                     statement());
  }

  NodePtr function() {
    expect("function");
    auto node = make(Node::Kind::Function);
    if (!sees("(")) node->text = name();
    expect("(");
    while (!accept(")")) {
      node->names.push_back(name());
      accept(",");
    }
    node->children.push_back(block());
    return node;
  }

  NodePtr expression() { return assignment(); }

  NodePtr assignment() {
    auto target = conditional();
    for (const auto* sign : {"=", "+=", "-="})
      if (accept(sign)) return make_with(Node::Kind::Assign, sign, std::move(target), assignment());
    return target;
  }

  NodePtr conditional() {
    auto condition = logical();
    if (!accept("?")) return condition;
    auto yes = assignment();
    expect(":");
    return make_with(Node::Kind::Conditional, {}, std::move(condition), std::move(yes), assignment());
  }

  NodePtr logical() {
    auto left = comparison();
    while (sees("&&") || sees("||")) {
      auto sign = take().text;
      left = make_with(Node::Kind::Logical, std::move(sign), std::move(left), comparison());
    }
    return left;
  }

  NodePtr comparison() {
    auto left = sum();
    for (;;) {
      bool found = false;
      for (const auto* sign : {"===", "!==", "==", "!=", "<=", ">=", "<", ">", "in"})
        if (!found && accept(sign)) {
          left = make_with(Node::Kind::Binary, sign, std::move(left), sum());
          found = true;
        }
      if (!found) return left;
    }
  }

  NodePtr sum() {
    auto left = product();
    while (sees("+") || sees("-")) {
      auto sign = take().text;
      left = make_with(Node::Kind::Binary, std::move(sign), std::move(left), product());
    }
    return left;
  }

  NodePtr product() {
    auto left = unary();
    while (sees("*") || sees("/")) {
      auto sign = take().text;
      left = make_with(Node::Kind::Binary, std::move(sign), std::move(left), unary());
    }
    return left;
  }

  NodePtr unary() {
    for (const auto* sign : {"!", "-"})
      if (accept(sign)) return make_with(Node::Kind::Unary, sign, unary());
    for (const auto* sign : {"++", "--"})
      if (accept(sign)) return make_with(Node::Kind::Step, sign, unary());
    auto node = member();
    for (const auto* sign : {"++", "--"})
      if (accept(sign)) {
        node = make_with(Node::Kind::Step, sign, std::move(node));
        node->number = 1;
        return node;
      }
    return node;
  }

  NodePtr member() {
    auto node = primary();
    for (;;) {
      if (accept(".")) {
        node = make_with(Node::Kind::Member, {}, std::move(node), make(Node::Kind::String, name()));
      } else if (accept("[")) {
        node = make_with(Node::Kind::Member, {}, std::move(node), expression());
        expect("]");
      } else if (accept("(")) {
        node = make_with(Node::Kind::Call, {}, std::move(node));
        while (!accept(")")) {
          node->children.push_back(assignment());
          accept(",");
        }
      } else {
        return node;
      }
    }
  }

  NodePtr primary() {
    if (sees("function")) return function();
    if (accept("this")) return make(Node::Kind::This);
    if (accept("(")) {
      auto node = expression();
      expect(")");
      return node;
    }
    if (accept("[")) {
      auto node = make(Node::Kind::Array);
      while (!accept("]")) {
        node->children.push_back(assignment());
        accept(",");
      }
      return node;
    }
    if (accept("{")) {
      auto node = make(Node::Kind::Object);
      while (!accept("}")) {
        if (peek().kind != Token::Kind::Name && peek().kind != Token::Kind::String)
          throw ScriptError("expected a key instead of '" + peek().text + "'");
        node->names.push_back(take().text);
        expect(":");
        node->children.push_back(assignment());
        accept(",");
      }
      return node;
    }
    const auto token = take();
    switch (token.kind) {
      case Token::Kind::Number: {
        auto node = make(Node::Kind::Number);
        node->number = token.number;
        return node;
      }
      case Token::Kind::String:
        return make(Node::Kind::String, token.text);
      case Token::Kind::Name:
        return make(Node::Kind::Name, token.text);
      case Token::Kind::Sign:
      case Token::Kind::End:
        break;
    }
    throw ScriptError("'" + token.text + "' is not understood here");
  }

  std::vector<Token> tokens_;
  std::size_t at_ = 0;
};

}  // namespace

std::unique_ptr<Node> parse_script(std::string_view source) {
  return Parser(Lexer(source).run()).script();
}

}  // namespace panslate::script
