#include "panslate/deliver/plain_text.h"

#include <algorithm>

#include "panslate/base/text.h"

namespace panslate {

namespace {

// Byte offset of the character after `count` characters from `at`, or the end.
std::size_t advance(std::string_view text, std::size_t at, std::size_t count) {
  while (count > 0 && at < text.size()) {
    at = code_point_at(text, at).next;
    --count;
  }
  return at;
}

// Only plain spaces may break a line: "200 g" is held together by a no-break space (U+00A0).
std::vector<std::string_view> breakable_words(std::string_view text) {
  static constexpr std::string_view kBreaks = " \t\r\n";
  std::vector<std::string_view> words;
  for (auto begin = text.find_first_not_of(kBreaks); begin != std::string_view::npos;) {
    const auto end = std::min(text.find_first_of(kBreaks, begin), text.size());
    words.push_back(text.substr(begin, end - begin));
    begin = text.find_first_not_of(kBreaks, end);
  }
  return words;
}

}  // namespace

std::vector<std::string> wrap(std::string_view text, std::size_t width) {
  if (width < 1) width = 1;
  std::vector<std::string> lines;
  std::string line;
  std::size_t used = 0;
  for (const auto word_text : breakable_words(text)) {
    auto word = word_text;
    auto length = character_count(word);
    if (used > 0 && used + 1 + length > width) {
      lines.push_back(line);
      line.clear();
      used = 0;
    }
    while (length > width) {
      const auto cut = advance(word, 0, width);
      lines.emplace_back(word.substr(0, cut));
      word.remove_prefix(cut);
      length -= width;
    }
    if (used > 0) line += ' ';
    used += (used > 0 ? 1 : 0) + length;
    line += word;
  }
  if (!line.empty() || lines.empty()) lines.push_back(line);
  return lines;
}

std::string shortened(std::string_view text, std::size_t width) {
  if (character_count(text) <= width) return std::string(text);
  auto cut = advance(text, 0, width > 0 ? width - 1 : 0);
  // Behind a whole word, where that leaves half of the width at least.
  if (text[cut] != ' ') {
    const auto space = text.substr(0, cut).rfind(' ');
    if (space != std::string_view::npos && space >= advance(text, 0, width / 2)) cut = space;
  }
  return std::string(trim(text.substr(0, cut))) + "…";
}

}  // namespace panslate
