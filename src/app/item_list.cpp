#include "app/item_list.h"

#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/plain_text.h"

namespace panslate::app {

std::string list_heading(std::string_view words, std::size_t count, const Terminal& terminal) {
  std::string out = "\n";
  for (const auto& line : wrap(std::string(words) + " (" + std::to_string(count) + ")", terminal.width))
    out += terminal.styled(line, Look::Heading) + "\n";
  return out + "\n";
}

void append_item(std::string& out, std::string_view when, std::string_view text, const Terminal& terminal) {
  const auto width = std::min(terminal.width, kMostWide);
  const auto left = std::max(kWhenWidth, character_count(when) + 1);
  const auto indent = 2 + left;
  const auto lines = wrap(escape_terminal(text), width > indent + 8 ? width - indent : 8);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto label = i == 0 ? std::string(when) : std::string{};
    out += "  " + terminal.styled(label, Look::Quiet) + std::string(left - character_count(label), ' ') +
           lines[i] + "\n";
  }
}

}  // namespace panslate::app
