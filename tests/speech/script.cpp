#include "speech/script.h"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace panslate::script {

namespace {

bool is_true(const Value& value) {
  if (const auto* truth = std::get_if<bool>(&value)) return *truth;
  if (const auto* number = std::get_if<double>(&value)) return *number != 0 && !std::isnan(*number);
  if (const auto* text = std::get_if<std::string>(&value)) return !text->empty();
  return std::holds_alternative<Object*>(value);
}

double to_number(const Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return *number;
  throw ScriptError("no number: " + to_text(value));
}

const std::string& key_text(const Value& value) {
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  throw ScriptError("no key: " + to_text(value));
}

const Value& argument(const Arguments& arguments, std::size_t index) {
  static const Value undefined;
  return index < arguments.size() ? arguments[index] : undefined;
}

Object& object_of(const Value& value) {
  if (auto* const* object = std::get_if<Object*>(&value)) return **object;
  throw ScriptError("no object: " + to_text(value));
}

}  // namespace

std::string to_text(const Value& value) {
  if (std::holds_alternative<std::monostate>(value)) return "undefined";
  if (std::holds_alternative<Null>(value)) return "null";
  if (const auto* truth = std::get_if<bool>(&value)) return *truth ? "true" : "false";
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  if (const auto* number = std::get_if<double>(&value)) {
    std::array<char, 400> buffer{};
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), *number);
    return {buffer.data(), end};
  }
  return object_of(value).is_array ? "[array]" : "[object]";
}

bool same_value(const Value& a, const Value& b) {
  const auto* x = std::get_if<double>(&a);
  const auto* y = std::get_if<double>(&b);
  if (x != nullptr && y != nullptr && std::isnan(*x) && std::isnan(*y)) return true;
  return a == b && (x == nullptr || *x != 0 || std::signbit(*x) == std::signbit(*y));
}

Interpreter::Interpreter() {
  global_ = scope(nullptr);
  add_library();
}

Object* Interpreter::object() {
  return objects_.emplace_back(std::make_unique<Object>()).get();
}

Object* Interpreter::array(std::vector<Value> elements) {
  auto* made = object();
  made->is_array = true;
  made->elements = std::move(elements);
  return made;
}

Object* Interpreter::function(Native native) {
  auto* made = object();
  made->call = std::move(native);
  return made;
}

void Interpreter::set_global(const std::string& name, Value value) {
  global_->names[name] = std::move(value);
}

void Interpreter::run(std::string_view source) {
  scripts_.push_back(parse_script(source));
  execute_all(*scripts_.back(), *global_);
}

Value Interpreter::call(const Value& callee, const Value& self, const Arguments& arguments) {
  const auto& function = object_of(callee);
  if (!function.call) throw ScriptError("no function");
  return function.call(self, arguments);
}

Interpreter::Scope* Interpreter::scope(Scope* parent) {
  auto* made = scopes_.emplace_back(std::make_unique<Scope>()).get();
  made->parent = parent;
  if (parent != nullptr) made->self = parent->self;
  return made;
}

void Interpreter::add_library() {
  set_global("undefined", {});
  set_global("null", Null{});
  set_global("true", true);
  set_global("false", false);
  auto* number = object();
  number->properties["MAX_VALUE"] = std::numeric_limits<double>::max();
  number->properties["MIN_VALUE"] = std::numeric_limits<double>::denorm_min();
  set_global("Number", number);
  auto* arrays = object();
  arrays->properties["from"] = function(
      [this](const Value&, const Arguments& given) { return array(object_of(argument(given, 0)).elements); });
  set_global("Array", arrays);
  auto* json = object();
  json->properties["parse"] = function([this](const Value&, const Arguments& given) {
    // JSON is an expression of this language too.
    scripts_.push_back(parse_script("return (" + key_text(argument(given, 0)) + ");"));
    return execute_all(*scripts_.back(), *global_).value_or(Value{});
  });
  set_global("JSON", json);
}

Value Interpreter::closure(const Node& node, Scope& in) {
  return function([this, &node, &in](const Value& self, const Arguments& arguments) -> Value {
    auto* inner = scope(&in);
    inner->self = self;
    for (std::size_t i = 0; i < node.names.size(); ++i) inner->names[node.names[i]] = argument(arguments, i);
    return execute_all(*node.children[0], *inner).value_or(Value{});
  });
}

Value Interpreter::get(const Value& from, const Value& key) {
  if (const auto* text = std::get_if<std::string>(&from); text != nullptr && key == Value("length"))
    return static_cast<double>(text->size());
  auto& object = object_of(from);
  if (const auto* number = std::get_if<double>(&key)) {
    const auto index = static_cast<std::size_t>(*number);
    return index < object.elements.size() ? object.elements[index] : Value{};
  }
  const auto& name = key_text(key);
  if (const auto found = object.properties.find(name); found != object.properties.end()) return found->second;
  if (!object.is_array) return {};
  if (name == "length") return static_cast<double>(object.elements.size());
  if (name == "forEach" || name == "map")
    return function([this](const Value& self, const Arguments& given) -> Value {
      std::vector<Value> results;
      const auto elements = object_of(self).elements;
      for (std::size_t i = 0; i < elements.size(); ++i)
        results.push_back(call(argument(given, 0), {}, {elements[i], static_cast<double>(i)}));
      return array(std::move(results));
    });
  throw ScriptError("arrays have no " + name + " here");
}

Value& Interpreter::place(const Node& node, Scope& in) {
  if (node.kind == Node::Kind::Name) {
    for (auto* s = &in; s != nullptr; s = s->parent)
      if (const auto found = s->names.find(node.text); found != s->names.end()) return found->second;
    throw ScriptError("nothing is called " + node.text);
  }
  if (node.kind != Node::Kind::Member) throw ScriptError("this cannot be assigned to");
  auto& object = object_of(evaluate(*node.children[0], in));
  const auto key = evaluate(*node.children[1], in);
  if (const auto* number = std::get_if<double>(&key))
    return object.elements.at(static_cast<std::size_t>(*number));
  return object.properties[key_text(key)];
}

Value Interpreter::call_node(const Node& node, Scope& in) {
  const auto& callee = *node.children[0];
  Value self;
  Value function;
  if (callee.kind == Node::Kind::Member) {
    self = evaluate(*callee.children[0], in);
    function = get(self, evaluate(*callee.children[1], in));
  } else {
    function = evaluate(callee, in);
  }
  Arguments arguments;
  for (std::size_t i = 1; i < node.children.size(); ++i) arguments.push_back(evaluate(*node.children[i], in));
  return call(function, self, arguments);
}

Value Interpreter::evaluate(const Node& node, Scope& in) {
  const auto child = [&](std::size_t i) { return evaluate(*node.children[i], in); };
  switch (node.kind) {
    case Node::Kind::Number:
      return node.number;
    case Node::Kind::String:
      return node.text;
    case Node::Kind::Name:
      return place(node, in);
    case Node::Kind::This:
      return in.self;
    case Node::Kind::Array: {
      std::vector<Value> elements;
      for (std::size_t i = 0; i < node.children.size(); ++i) elements.push_back(child(i));
      return array(std::move(elements));
    }
    case Node::Kind::Object: {
      auto* made = object();
      for (std::size_t i = 0; i < node.children.size(); ++i) made->properties[node.names[i]] = child(i);
      return made;
    }
    case Node::Kind::Function:
      return closure(node, in);
    case Node::Kind::Unary: {
      const auto value = child(0);
      if (node.text == "!") return !is_true(value);
      return -to_number(value);
    }
    case Node::Kind::Logical: {
      auto left = child(0);
      return is_true(left) == (node.text == "&&") ? child(1) : left;
    }
    case Node::Kind::Conditional:
      return is_true(child(0)) ? child(1) : child(2);
    case Node::Kind::Binary: {
      const auto left = child(0);
      const auto right = child(1);
      if (node.text == "in") return object_of(right).properties.contains(key_text(left));
      if (node.text == "===" || node.text == "==") return left == right;
      if (node.text == "!==" || node.text == "!=") return left != right;
      const bool texts =
          std::holds_alternative<std::string>(left) || std::holds_alternative<std::string>(right);
      if (node.text == "+" && texts) return to_text(left) + to_text(right);
      const double a = to_number(left);
      const double b = to_number(right);
      if (node.text == "+") return a + b;
      if (node.text == "-") return a - b;
      if (node.text == "*") return a * b;
      if (node.text == "/") return a / b;
      if (node.text == "<") return a < b;
      if (node.text == ">") return a > b;
      return node.text == "<=" ? a <= b : a >= b;
    }
    case Node::Kind::Assign: {
      auto value = evaluate(*node.children[1], in);
      auto& target = place(*node.children[0], in);
      if (node.text != "=") value = to_number(target) + (node.text == "+=" ? 1 : -1) * to_number(value);
      return target = value;
    }
    case Node::Kind::Step: {
      auto& target = place(*node.children[0], in);
      const double before = to_number(target);
      const double after = before + (node.text == "++" ? 1 : -1);
      target = after;
      return node.number == 1 ? before : after;
    }
    case Node::Kind::Member:
      return get(child(0), child(1));
    case Node::Kind::Call:
      return call_node(node, in);
    default:
      throw ScriptError("a statement where a value was expected");
  }
}

Interpreter::Returned Interpreter::execute_all(const Node& block, Scope& in) {
  for (const auto& statement : block.children)
    if (statement->kind == Node::Kind::Function) in.names[statement->text] = closure(*statement, in);
  for (const auto& statement : block.children)
    if (auto returned = execute(*statement, in)) return returned;
  return std::nullopt;
}

Interpreter::Returned Interpreter::execute(const Node& node, Scope& in) {
  switch (node.kind) {
    case Node::Kind::Function:
      return std::nullopt;  // declared when its block began
    case Node::Kind::Block:
      return execute_all(node, *scope(&in));
    case Node::Kind::Sequence:
      for (const auto& child : node.children) execute(*child, in);
      return std::nullopt;
    case Node::Kind::Declare:
      in.names[node.text] = node.children.empty() ? Value{} : evaluate(*node.children[0], in);
      return std::nullopt;
    case Node::Kind::Expression:
      evaluate(*node.children[0], in);
      return std::nullopt;
    case Node::Kind::Return:
      return node.children.empty() ? Value{} : evaluate(*node.children[0], in);
    case Node::Kind::If:
      if (is_true(evaluate(*node.children[0], in))) return execute(*node.children[1], in);
      return node.children.size() > 2 ? execute(*node.children[2], in) : std::nullopt;
    case Node::Kind::ForIn: {
      const auto properties = object_of(evaluate(*node.children[0], in)).properties;
      for (const auto& [name, value] : properties) {
        auto& inner = *scope(&in);
        inner.names[node.text] = name;
        if (auto returned = execute(*node.children[1], inner)) return returned;
      }
      return std::nullopt;
    }
    case Node::Kind::For: {
      auto& inner = *scope(&in);
      const auto is_absent = [&](std::size_t i) { return node.children[i]->kind == Node::Kind::Block; };
      if (node.children[0]->kind == Node::Kind::Sequence)
        execute(*node.children[0], inner);
      else if (!is_absent(0))
        evaluate(*node.children[0], inner);
      while (is_absent(1) || is_true(evaluate(*node.children[1], inner))) {
        if (auto returned = execute(*node.children[3], inner)) return returned;
        if (!is_absent(2)) evaluate(*node.children[2], inner);
      }
      return std::nullopt;
    }
    default:
      throw ScriptError("a value where a statement was expected");
  }
}

}  // namespace panslate::script
