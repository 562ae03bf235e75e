#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "speech/script_syntax.h"

/// Runs the tests of the W3C as they are written. Only for tests.
namespace panslate::script {

struct Object;
struct Null {
  friend bool operator==(const Null&, const Null&) = default;
};

/// undefined, null, a truth value, a number, a text or an object. Objects belong to their Interpreter.
using Value = std::variant<std::monostate, Null, bool, double, std::string, Object*>;
using Arguments = std::vector<Value>;
using Native = std::function<Value(const Value& self, const Arguments& arguments)>;

struct Object {
  std::map<std::string, Value> properties = {};
  std::vector<Value> elements = {};
  bool is_array = false;
  Native call = {};  ///< empty when it is no function
};

/// What a person reads of a value.
[[nodiscard]] std::string to_text(const Value& value);

/// The same value, as ECMAScript's SameValue has it: minus zero is not zero, objects are the same one.
[[nodiscard]] bool same_value(const Value& a, const Value& b);

class Interpreter {
 public:
  Interpreter();

  Object* object();
  Object* array(std::vector<Value> elements = {});
  Object* function(Native native);

  void set_global(const std::string& name, Value value);

  /// Runs a script in the global scope. Throws ScriptError.
  void run(std::string_view source);

  static Value call(const Value& callee, const Value& self, const Arguments& arguments);

 private:
  struct Scope {
    std::map<std::string, Value> names = {};
    Scope* parent = nullptr;
    Value self = {};
  };
  using Returned = std::optional<Value>;

  Scope* scope(Scope* parent);
  Value evaluate(const Node& node, Scope& in);
  Returned execute(const Node& node, Scope& in);
  Returned execute_all(const Node& block, Scope& in);
  Value closure(const Node& node, Scope& in);
  Value get(const Value& from, const Value& key);
  Value& place(const Node& node, Scope& in);
  Value call_node(const Node& node, Scope& in);
  void add_library();

  std::vector<std::unique_ptr<Object>> objects_;
  std::vector<std::unique_ptr<Scope>> scopes_;
  std::vector<std::unique_ptr<Node>> scripts_;
  Scope* global_ = nullptr;
};

}  // namespace panslate::script
