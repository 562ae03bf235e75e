#include "recipe/front_matter.h"

#include "panslate/base/text.h"

#include "recipe/markup.h"

namespace panslate {

namespace {

std::string unquoted(std::string_view text) {
  text = trim(text);
  if (text.size() >= 2 && (text.front() == '"' || text.front() == '\'') && text.back() == text.front())
    text = text.substr(1, text.size() - 2);
  return std::string(text);
}

std::vector<std::string> bracketed(std::string_view value) {
  std::vector<std::string> out;
  for (const auto& one : split(value.substr(1, value.size() - 2), ','))
    if (auto word = unquoted(one); !word.empty()) out.push_back(std::move(word));
  return out;
}

}  // namespace

FrontMatter read_front_matter(std::string_view text) {
  constexpr std::size_t kLongest = 200;
  FrontMatter out;
  const auto lines = split_lines(text);
  std::size_t first = 0;
  while (first < lines.size() && trim(lines[first].text).empty()) ++first;
  if (first >= lines.size() || trim(lines[first].text) != "---") return out;
  for (auto i = first + 1; i < lines.size() && i < first + kLongest; ++i) {
    const auto line = lines[i].text;
    const auto bare = trim(line);
    if (bare == "---" || bare == "...") {
      out.lines = i + 1;
      return out;
    }
    if (bare.substr(0, 2) == "- " && !out.entries.empty()) {
      out.entries.back().list.push_back(unquoted(bare.substr(2)));
      continue;
    }
    const auto colon = line.find(':');
    if (bare.empty() || bare[0] == '#' || colon == std::string_view::npos) continue;
    if (line[0] == ' ' || line[0] == '\t') continue;
    FrontMatterEntry entry{static_cast<int>(i) + 1, fold_case(trim(line.substr(0, colon))), {}, {}};
    const auto value = trim(line.substr(colon + 1));
    if (value.size() >= 2 && value.front() == '[' && value.back() == ']') {
      entry.list = bracketed(value);
    } else {
      entry.value = plain_string(unquoted(value));
    }
    out.entries.push_back(std::move(entry));
  }
  return {};
}

}  // namespace panslate
