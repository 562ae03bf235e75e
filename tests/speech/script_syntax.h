#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

/// The part of ECMAScript that the W3C's WebVTT tests are written in, as a syntax tree. Only for tests:
/// whatever it does not know is an error that names it.
namespace panslate::script {

/// Text that is not understood, a run-time error, or an assertion that does not hold.
struct ScriptError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct Node {
  enum class Kind {
    Number,
    String,
    Name,
    This,
    Array,
    Object,    // keys: names, children: values
    Function,  // names: parameters, children: one Block; text: its name
    Unary,     // text: the operator
    Binary,
    Logical,
    Conditional,
    Assign,   // text: "=", "+=" or "-="; children: target, value
    Step,     // text: "++" or "--" before or behind; number: 1 when behind
    Member,   // children: object, key expression
    Call,     // children: callee, arguments
    Declare,  // text: the name; children: value or none
    Sequence,
    Block,
    If,
    For,    // children: start, condition, step, body; absent ones are empty Blocks
    ForIn,  // text: the name; children: object, body
    Return,
    Expression,
  };

  Kind kind = Kind::Block;
  std::string text = {};
  double number = 0;
  std::vector<std::string> names = {};
  std::vector<std::unique_ptr<Node>> children = {};
};

/// A whole script as a Block. Throws ScriptError.
[[nodiscard]] std::unique_ptr<Node> parse_script(std::string_view source);

}  // namespace panslate::script
