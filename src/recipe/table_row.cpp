#include "recipe/table_row.h"

#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/token.h"

namespace panslate {

namespace {

// The whole cell is an amount, or a number or unit that makes one with its neighbour.
bool is_amount_cell(const std::string& cell) {
  const auto tokens = tokenize(cell);
  if (tokens.empty() || tokens.size() > 12) return false;
  const auto scanned = scan_amount(tokens, 0, SpokenOrWritten::Written);
  return scanned && scanned->end == tokens.size();
}

bool is_unit_cell(const std::string& cell) {
  auto tokens = tokenize("1 " + cell);
  if (tokens.size() > 3) return false;
  const auto scanned = scan_amount(tokens, 0, SpokenOrWritten::Written);
  return scanned && scanned->has_unit && scanned->end == tokens.size();
}

}  // namespace

std::string row_as_line(std::string_view text) {
  if (trim(text).substr(0, 1) != "|") return std::string(text);
  std::vector<std::string> amounts, rest;
  for (const auto& cell : split(text, '|')) {
    const std::string words(trim(cell));
    if (words.empty() || words == "-") continue;
    const bool bare_number =
        !amounts.empty() && amounts.back().find_first_not_of("0123456789.,/- ") == std::string::npos;
    if (bare_number && is_unit_cell(words)) {
      amounts.back() += " " + words;
    } else if (is_amount_cell(words)) {
      amounts.push_back(words);
    } else {
      rest.push_back(words);
    }
  }
  auto line = join(amounts, " / ");
  if (!line.empty() && !rest.empty()) line += ' ';
  return line + join(rest, ", ");
}

}  // namespace panslate
