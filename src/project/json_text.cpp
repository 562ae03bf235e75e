#include "project/json_text.h"

#include <deque>
#include <utility>

#include "project/json_break.h"

namespace panslate {

namespace {

using nlohmann::json;

// Walks the text beside the reader: the reader checks, this one only counts lines and columns, so each event
// of the reader finds the text in front of its own first character.
class TextCursor {
 public:
  explicit TextCursor(std::string_view text) : text_(text) {}

  // To the next character that is not between values.
  LineColumn next_value() {
    while (offset_ < text_.size() &&
           std::string_view(" \t\r\n,:").find(text_[offset_]) != std::string_view::npos)
      step();
    return at_;
  }

  void skip_bracket() { step(); }

  void skip_quoted() {
    step();
    while (offset_ < text_.size() && text_[offset_] != '"') {
      if (text_[offset_] == '\\') step();
      if (offset_ < text_.size()) step();
    }
    step();
  }

  void skip_word(std::size_t length) {
    for (std::size_t i = 0; i < length; ++i) step();
  }

  // A number as RFC 8259 has it, which ends where the next character cannot belong to it: 01 is 0, then 1.
  void skip_number() {
    if (front() == '-') step();
    if (front() == '0')
      step();
    else
      skip_digits();
    if (front() == '.') {
      step();
      skip_digits();
    }
    if (front() != 'e' && front() != 'E') return;
    step();
    if (front() == '+' || front() == '-') step();
    skip_digits();
  }

  [[nodiscard]] std::size_t offset() const { return offset_; }

 private:
  [[nodiscard]] char front() const { return offset_ < text_.size() ? text_[offset_] : '\0'; }

  void skip_digits() {
    while (front() >= '0' && front() <= '9') step();
  }

  void step() {
    if (offset_ >= text_.size()) return;
    const char c = text_[offset_++];
    const bool ends_line = c == '\n' || (c == '\r' && (offset_ >= text_.size() || text_[offset_] != '\n'));
    if (ends_line) {
      ++at_.line;
      at_.column = 1;
    } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
      ++at_.column;
    }
  }

  std::string_view text_;
  std::size_t offset_ = 0;
  LineColumn at_;
};

// The reader's events, made into values with their places.
class PlacingReader : public nlohmann::json_sax<json> {
 public:
  PlacingReader(std::string_view text, const std::filesystem::path& file, JsonText& out)
      : text_(text), file_(file), cursor_(text), out_(out) {}

  bool null() override { return word(json(nullptr), 4); }
  bool boolean(bool value) override { return word(json(value), value ? 4 : 5); }
  bool number_integer(number_integer_t value) override { return number(json(value)); }
  bool number_unsigned(number_unsigned_t value) override { return number(json(value)); }
  bool number_float(number_float_t value, const string_t& /*written*/) override {
    return number(json(value));
  }
  bool binary(binary_t& /*value*/) override { return false; }

  bool string(string_t& value) override {
    const auto at = next_value();
    cursor_.skip_quoted();
    if (value.find('\0') != std::string::npos)
      return stop(at.place, "\\u0000 stands inside the quotes, which no name and no text can hold", {});
    add(json(std::move(value)), at);
    return true;
  }

  bool start_object(std::size_t /*elements*/) override {
    return open(json::object(), JsonExpects::FirstName);
  }
  bool start_array(std::size_t /*elements*/) override { return open(json::array(), JsonExpects::FirstItem); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    key_at_ = next_value();
    cursor_.skip_quoted();
    key_ = name;
    expects_ = JsonExpects::Colon;
    return true;
  }

  bool parse_error(std::size_t /*position*/, const std::string& /*last*/,
                   const nlohmann::detail::exception& /*why*/) override {
    JsonBreak where{expects_, cursor_.offset(), '\0', {}, key_};
    if (!open_.empty()) {
      where.open = open_.back().value->is_object() ? '{' : '[';
      where.opened = open_.back().spot->at;
    }
    auto words = words_for_break(text_, where);
    return stop(line_column_of(text_, words.offset), std::move(words.message), std::move(words.hint));
  }

  [[nodiscard]] std::optional<Error> failure() && { return std::move(failure_); }

 private:
  struct Open {
    json* value;
    JsonSpot* spot;
  };

  bool stop(LineColumn at, std::string message, std::string hint) {
    failure_ =
        Error{ErrorCode::Malformed, std::move(message), Place{file_, at.line, at.column}, std::move(hint)};
    return false;
  }

  // Where a value begins, for people and in bytes.
  struct Start {
    LineColumn place;
    std::size_t offset = 0;
  };
  Start next_value() {
    const auto place = cursor_.next_value();
    return {place, cursor_.offset()};
  }

  bool word(json value, std::size_t length) {
    const auto at = next_value();
    cursor_.skip_word(length);
    add(std::move(value), at);
    return true;
  }

  bool number(json value) {
    const auto at = next_value();
    cursor_.skip_number();
    add(std::move(value), at);
    return true;
  }

  bool open(json value, JsonExpects expects) {
    const auto at = next_value();
    cursor_.skip_bracket();
    if (open_.size() >= kJsonDepthLimit)
      return stop(at.place,
                  "more than " + std::to_string(kJsonDepthLimit) + " brackets stand inside each other", {});
    open_.push_back(add(std::move(value), at));
    expects_ = expects;
    return true;
  }

  bool close() {
    cursor_.next_value();
    cursor_.skip_bracket();
    open_.back().spot->end = cursor_.offset();
    open_.pop_back();
    after_value();
    return true;
  }

  void after_value() { expects_ = open_.empty() ? JsonExpects::Nothing : JsonExpects::CommaOrClose; }

  // The cursor stands behind a word, a number or a text; behind the bracket of what is open yet.
  Open add(json value, Start at) {
    JsonSpot spot{at.place, at.place, {}, {}, at.offset, cursor_.offset(), at.offset};
    Open added{};
    if (open_.empty()) {
      out_.value = std::move(value);
      out_.spot = std::move(spot);
      added = {&out_.value, &out_.spot};
    } else if (open_.back().value->is_array()) {
      auto& list = open_.back();
      list.value->push_back(std::move(value));
      list.spot->items.push_back(std::move(spot));
      added = {&list.value->back(), &list.spot->items.back()};
    } else {
      added = add_member(open_.back(), std::move(value), std::move(spot));
    }
    after_value();
    return added;
  }

  Open add_member(const Open& object, json value, JsonSpot spot) {
    spot.key = key_at_.place;
    spot.key_begin = key_at_.offset;
    const auto [member, is_new] = object.spot->members.try_emplace(key_, std::move(spot));
    if (is_new) {
      json& added = (*object.value)[key_] = std::move(value);
      return {&added, &member->second};
    }
    out_.oddities.push_back(
        {ErrorCode::Malformed,
         "\"" + key_ + "\" is written twice, first on line " + std::to_string(member->second.key.line),
         Place{file_, key_at_.place.line, key_at_.place.column}, "keep one of them"});
    // What stands under the second name is read all the same, for its own mistakes, and then forgotten.
    auto& forgotten = forgotten_.emplace_back(std::move(value), JsonSpot{});
    return {&forgotten.first, &forgotten.second};
  }

  std::string_view text_;
  std::filesystem::path file_;
  TextCursor cursor_;
  JsonText& out_;
  std::vector<Open> open_;
  std::deque<std::pair<json, JsonSpot>> forgotten_;
  JsonExpects expects_ = JsonExpects::Value;
  std::string key_;
  Start key_at_;
  std::optional<Error> failure_;
};

}  // namespace

Result<JsonText> read_json(std::string_view text, const std::filesystem::path& file) {
  JsonText out;
  PlacingReader reader(text, file, out);
  if (!json::sax_parse(text.begin(), text.end(), &reader)) {
    auto failure = std::move(reader).failure();
    if (failure) return tl::unexpected(*std::move(failure));
    return fail(ErrorCode::Malformed, "this is not written as a project file must be", Place{file});
  }
  return out;
}

}  // namespace panslate
