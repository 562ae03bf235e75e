#include "panslate/speech/script_lines.h"

#include <algorithm>

#include "panslate/base/text.h"

#include "speech/spelled_number.h"

namespace panslate {

namespace {

constexpr std::size_t kMostWords = 100'000;
constexpr std::size_t kLongestWord = 200;  // bytes; what is longer is not spoken

bool is_digit(char32_t c) {
  return c >= '0' && c <= '9';
}

// A mark that stands between the letters of one word: don't, 1.5.
bool joins(std::string_view text, std::size_t at, char32_t before, const CodePoint& mark) {
  if (mark.next >= text.size()) return false;
  const auto after = code_point_at(text, mark.next).value;
  if (mark.value == '\'' || mark.value == 0x2019) return at > 0 && is_word_character(after);
  return (mark.value == '.' || mark.value == ',') && is_digit(before) && is_digit(after);
}

ScriptWord word_from(std::string_view text) {
  ScriptWord word{.text = std::string(text)};
  if (text.size() > kLongestWord) return word;
  std::string spoken = fold_case(text);
  if (is_digit(static_cast<unsigned char>(spoken.front()))) {
    word.readings = spelled_number(spoken);
  } else {
    word.readings = {{std::move(spoken)}};
  }
  return word;
}

}  // namespace

std::vector<ScriptWord> script_words(std::string_view text) {
  std::vector<ScriptWord> words;
  std::size_t begin = 0;
  std::size_t end = 0;
  char32_t before = 0;
  const auto finish = [&] {
    if (end > begin) words.push_back(word_from(text.substr(begin, end - begin)));
    before = 0;
  };
  for (std::size_t at = 0; at < text.size();) {
    const auto mark = code_point_at(text, at);
    // "200g" is said as two words.
    const bool turns = before != 0 && is_word_character(mark.value) &&
                       is_digit(before) != is_digit(mark.value) && (is_digit(before) || is_digit(mark.value));
    if (is_word_character(mark.value) && !turns) {
      if (before == 0) begin = at;
      end = mark.next;
      before = mark.value;
    } else if (before == 0 || turns || !joins(text, at, before, mark)) {
      finish();
      begin = end = 0;
      if (mark.value == '&') words.push_back({.text = "&", .readings = {{"and"}}});
      if (mark.value == '%') words.push_back({.text = "%", .readings = {{"percent"}}});
      if (turns) continue;  // it begins the next one
    }
    at = mark.next;
  }
  finish();
  return words;
}

Result<std::vector<ScriptLine>> read_script(std::string_view text, const std::filesystem::path& file) {
  std::vector<ScriptLine> script;
  std::size_t count = 0;
  int number = 0;
  for (const auto& line : split_lines(text)) {
    ++number;
    const auto content = trim(line.text);
    if (content.empty() || content.front() == '#') continue;
    auto words = script_words(content);
    if (words.empty()) continue;
    count += words.size();
    if (count > kMostWords)
      return fail(ErrorCode::Malformed, "this script has more than 100,000 words", Place{file, number, 1},
                  "give the script of one video");
    script.push_back({.number = number, .text = std::string(content), .words = std::move(words)});
  }
  if (script.empty())
    return fail(ErrorCode::Malformed, "this script has no line to be spoken", Place{file, 0, 0},
                "write one spoken sentence a line");
  return script;
}

}  // namespace panslate
