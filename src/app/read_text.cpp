#include "app/read_text.h"

#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/plain_text.h"
#include "panslate/deliver/read_words.h"

#include "app/item_list.h"
#include "app/text_table.h"

namespace panslate::app {

namespace {

std::string place_of(const ReadFinding& finding) {
  if (finding.line == 0) return "–";
  return std::to_string(finding.line) + ":" + std::to_string(finding.column);
}

void append_faults(std::string& out, const RecipeReading& reading, const Terminal& terminal) {
  std::vector<TableRow> rows;
  for (const auto level : {ReadLevel::Error, ReadLevel::Warning})
    for (const auto& finding : reading.findings) {
      if (finding.level != level) continue;
      TableRow row;
      row.cells = {
          {escape_terminal(finding.message), Look::Plain},
          {std::string(level_words(level)), level == ReadLevel::Error ? Look::Wrong : Look::Doubtful},
          {place_of(finding), Look::Quiet}};
      row.remark = escape_terminal(finding.advice);
      if (!finding.source.empty()) row.remark += " (" + escape_terminal(finding.source) + ")";
      rows.push_back(std::move(row));
    }
  if (rows.empty()) return;
  out += list_heading("To put right or to look at", rows.size(), terminal);
  out += text_table({"what", "do", "line"}, rows, terminal);
}

void append_notes(std::string& out, const RecipeReading& reading, const Terminal& terminal) {
  const auto count = std::count_if(reading.findings.begin(), reading.findings.end(),
                                   [](const auto& finding) { return finding.level == ReadLevel::Note; });
  if (count == 0) return;
  out += list_heading("Notes", static_cast<std::size_t>(count), terminal);
  for (const auto& finding : reading.findings) {
    if (finding.level != ReadLevel::Note) continue;
    auto text = finding.message;
    if (!finding.advice.empty()) text += " " + finding.advice;
    if (!finding.source.empty()) text += " (" + finding.source + ")";
    append_item(out, place_of(finding), text, terminal);
  }
}

void append_allergens(std::string& out, const RecipeReading& reading, const Recipe& recipe,
                      const Terminal& terminal) {
  const auto words = allergen_words(reading, recipe);
  if (words.empty()) {
    out += "\n";
    append_item(out, {}, "No word for one of the listed allergens was recognised; check every label.",
                terminal);
    return;
  }
  out += list_heading("Allergens", words.size(), terminal);
  for (const auto& allergen : words) {
    std::string text = allergen.name + " (" + allergen.lists + "): " + allergen.holds;
    if (!allergen.labels.empty())
      text += std::string(allergen.holds.empty() ? "" : "; ") + "check the label of " + allergen.labels;
    append_item(out, {}, text, terminal);
  }
}

void append_scaled(std::string& out, const RecipeReading& reading, const Recipe& recipe,
                   const Terminal& terminal) {
  if (!reading.scaled) return;
  Amount to;
  to.value = reading.scaled->to;
  const auto words = scaled_words(reading, recipe);
  out += list_heading("For " + to_text(to) + " servings", words.size(), terminal);
  for (const auto& line : words)
    append_item(out, {}, line.line + (line.remark.empty() ? std::string{} : " – " + line.remark), terminal);
  for (const auto& remark : reading.scaled->remarks) append_item(out, "note", remark, terminal);
}

}  // namespace

std::string read_terminal_text(const RecipeReading& reading, const Recipe& recipe, const Terminal& terminal) {
  std::string out;
  const auto width = std::min(terminal.width, kMostWide);
  const auto title = escape_terminal(recipe.title.empty() ? recipe.file.filename().string() : recipe.title);
  for (const auto& line : wrap(title, width)) out += terminal.styled(line, Look::Heading) + "\n";
  append_faults(out, reading, terminal);
  append_allergens(out, reading, recipe, terminal);
  append_scaled(out, reading, recipe, terminal);
  append_notes(out, reading, terminal);
  out += "\n";
  for (const auto& line : wrap(std::string(reading_caution()), width))
    out += terminal.styled(line, Look::Quiet) + "\n";
  for (const auto& line : wrap(reading_summary(reading), width))
    out += terminal.styled(line, reading.wants_attention() ? Look::Wrong : Look::Good) + "\n";
  return out;
}

}  // namespace panslate::app
