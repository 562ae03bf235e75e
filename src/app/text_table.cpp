#include "app/text_table.h"

#include <algorithm>
#include <numeric>

#include "panslate/base/text.h"
#include "panslate/deliver/plain_text.h"

namespace panslate::app {

namespace {

constexpr std::size_t kIndent = 2;
constexpr std::size_t kGap = 2;
constexpr std::size_t kLeastFirst = 18;
constexpr std::size_t kShortCell = 10;
constexpr std::size_t kMostWide = 120;  // longer lines are hard to follow

// What must stay on one line: the longest word, and a cell as short as a time ("about 1:36") whole.
std::size_t longest_piece(std::string_view text) {
  std::size_t longest = 0;
  if (const auto whole = character_count(text); whole <= kShortCell) return whole;
  for (const auto& word : split(collapse_spaces(text), ' '))
    longest = std::max(longest, character_count(word));
  return longest;
}

struct Columns {
  std::vector<std::size_t> widths;
  bool fits = true;
};

// Columns after the first start at the width of their longest word and grow towards their longest cell while
// the first one keeps room.
Columns columns_for(const std::vector<std::string>& headings, const std::vector<TableRow>& rows,
                    std::size_t width) {
  const auto count = headings.size();
  std::vector<std::size_t> least(count), most(count);
  for (std::size_t c = 0; c < count; ++c) {
    least[c] = longest_piece(headings[c]);
    most[c] = character_count(headings[c]);
    for (const auto& row : rows) {
      least[c] = std::max(least[c], longest_piece(row.cells[c].text));
      most[c] = std::max(most[c], character_count(row.cells[c].text));
    }
  }
  least[0] = kLeastFirst;
  const auto gaps = kIndent + kGap * (count - 1);
  const auto needed = std::accumulate(least.begin(), least.end(), gaps);
  if (needed > width) return {{}, false};
  auto spare = width - needed;
  // The first column asks for half of what is left before the others grow.
  const auto first = std::min(most[0] > least[0] ? most[0] - least[0] : 0, spare / 2 + spare % 2);
  auto widths = least;
  widths[0] += first;
  spare -= first;
  for (std::size_t c = 1; c < count; ++c) {
    const auto more = std::min(spare, most[c] - least[c]);
    widths[c] += more;
    spare -= more;
  }
  if (most[0] > widths[0]) widths[0] += std::min(spare, most[0] - widths[0]);
  return {widths, true};
}

std::string padded(std::string_view text, std::size_t width, const Terminal& terminal, Look look, bool last) {
  std::string out = terminal.styled(text, look);
  const auto used = character_count(text);
  if (!last && used < width) out.append(width - used, ' ');
  return out;
}

void append_row(std::string& out, const std::vector<Cell>& cells, const std::vector<std::size_t>& widths,
                const Terminal& terminal) {
  std::vector<std::vector<std::string>> wrapped;
  std::size_t height = 1;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    wrapped.push_back(wrap(cells[c].text, widths[c]));
    height = std::max(height, wrapped.back().size());
  }
  for (std::size_t l = 0; l < height; ++l) {
    std::size_t last = 0;
    for (std::size_t c = 0; c < cells.size(); ++c)
      if (l < wrapped[c].size() && !wrapped[c][l].empty()) last = c;
    out.append(kIndent, ' ');
    for (std::size_t c = 0; c <= last; ++c) {
      if (c > 0) out.append(kGap, ' ');
      out += padded(l < wrapped[c].size() ? wrapped[c][l] : std::string{}, widths[c], terminal, cells[c].look,
                    c == last);
    }
    out += '\n';
  }
}

void append_wrapped(std::string& out, std::string_view text, std::size_t indent, std::size_t width, Look look,
                    const Terminal& terminal) {
  for (const auto& line : wrap(text, width > indent ? width - indent : 1))
    out += std::string(indent, ' ') + terminal.styled(line, look) + '\n';
}

std::string as_blocks(const std::vector<std::string>& headings, const std::vector<TableRow>& rows,
                      std::size_t width, const Terminal& terminal) {
  std::string out;
  for (const auto& row : rows) {
    append_wrapped(out, row.cells[0].text, kIndent, width, Look::Heading, terminal);
    for (std::size_t c = 1; c < headings.size(); ++c)
      if (!row.cells[c].text.empty())
        append_wrapped(out, headings[c] + ": " + row.cells[c].text, 2 * kIndent, width, row.cells[c].look,
                       terminal);
    if (!row.remark.empty()) append_wrapped(out, row.remark, 2 * kIndent, width, Look::Plain, terminal);
  }
  return out;
}

}  // namespace

std::string text_table(const std::vector<std::string>& headings, const std::vector<TableRow>& rows,
                       const Terminal& terminal) {
  const auto width = std::min(terminal.width, kMostWide);
  const auto columns = columns_for(headings, rows, width);
  if (!columns.fits) return as_blocks(headings, rows, width, terminal);
  std::string out;
  std::vector<Cell> head;
  head.reserve(headings.size());
  for (const auto& heading : headings) head.push_back({heading, Look::Quiet});
  append_row(out, head, columns.widths, terminal);
  const auto total =
      std::accumulate(columns.widths.begin(), columns.widths.end(), kGap * (headings.size() - 1));
  std::string rule;
  for (std::size_t i = 0; i < total; ++i) rule += "─";
  out += std::string(kIndent, ' ') + terminal.styled(rule, Look::Quiet) + '\n';
  for (std::size_t r = 0; r < rows.size(); ++r) {
    append_row(out, rows[r].cells, columns.widths, terminal);
    if (!rows[r].remark.empty())
      append_wrapped(out, rows[r].remark, 2 * kIndent, width, Look::Plain, terminal);
    if (r + 1 < rows.size()) out += '\n';
  }
  return out;
}

}  // namespace panslate::app
