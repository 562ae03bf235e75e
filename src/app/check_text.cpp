#include "app/check_text.h"

#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/pickup_words.h"
#include "panslate/deliver/plain_text.h"

#include "app/item_list.h"
#include "app/text_table.h"

namespace panslate::app {

namespace {

constexpr std::size_t kLongestWritten = 160;  // a step of the method is told by its start
constexpr std::size_t kLongestHeld = 14;

Look look_of(Standing standing) {
  switch (standing) {
    case Standing::Good:
      return Look::Good;
    case Standing::Doubtful:
      return Look::Doubtful;
    case Standing::Wrong:
      return Look::Wrong;
    case Standing::Absent:
    case Standing::NotLooked:
      return Look::Quiet;
  }
  return Look::Plain;
}

// A number is not parted from its unit; longer details may break.
std::string held_together(const std::string& detail) {
  return character_count(detail) > kLongestHeld ? detail : join(split(detail, ' '), "\u00A0");
}

// What was not looked at says nothing of the film: a dash, explained once below the table.
Cell cell_of(const Finding& finding) {
  if (finding.standing == Standing::NotLooked) return {"–", Look::Quiet};
  std::string text = finding.words;
  if (!finding.detail.empty()) text += ": " + held_together(escape_terminal(finding.detail));
  return {text, look_of(finding.standing)};
}

void append_attention(std::string& out, const CheckDigest& digest, const Terminal& terminal) {
  if (digest.attention.empty()) return;
  out += list_heading("Needs attention", digest.attention.size(), terminal);
  std::vector<TableRow> rows;
  for (const auto& line : digest.attention) {
    TableRow row;
    row.cells = {{shortened(escape_terminal(line.written), kLongestWritten), Look::Plain},
                 cell_of(line.said),
                 cell_of(line.shown),
                 cell_of(line.on_picture),
                 {escape_terminal(line.when), Look::Plain}};
    row.remark = escape_terminal(line.why);
    rows.push_back(std::move(row));
  }
  out += text_table({"written", "said", "shown", "on the picture", "when"}, rows, terminal);
  const auto not_looked = [](const CheckLine& line) {
    return line.said.standing == Standing::NotLooked || line.shown.standing == Standing::NotLooked ||
           line.on_picture.standing == Standing::NotLooked;
  };
  if (std::any_of(digest.attention.begin(), digest.attention.end(), not_looked))
    out += "\n  " + terminal.styled("– not looked at", Look::Quiet) + "\n";
}

// One short line each: these need no reading, only the certainty that they were looked at.
void append_lines(std::string& out, std::string_view title, const std::vector<CheckLine>& lines,
                  const Terminal& terminal) {
  if (lines.empty()) return;
  out += list_heading(title, lines.size(), terminal);
  const auto width = std::min(terminal.width, kMostWide);
  for (const auto& line : lines) {
    const auto when = escape_terminal(line.when);
    const auto room =
        width > kWhenWidth + 12 ? width - 2 - std::max(kWhenWidth, character_count(when) + 1) : 10;
    append_item(out, when, shortened(escape_terminal(line.written), room), terminal);
  }
}

void append_pickups(std::string& out, const std::vector<Pickup>& pickups, const Terminal& terminal) {
  if (pickups.empty()) return;
  out += list_heading("What to do", pickups.size(), terminal);
  const auto naming = clock_naming(pickups);
  for (const auto& pickup : pickups)
    append_item(out, pickup_place(pickup, naming), collapse_spaces(pickup.what), terminal);
}

void append_changes(std::string& out, const std::vector<ReportChange>& changes, const Terminal& terminal) {
  if (changes.empty()) return;
  out += list_heading("Since the last check", changes.size(), terminal);
  constexpr std::size_t kMost = 20;
  for (std::size_t i = 0; i < changes.size() && i < kMost; ++i)
    append_item(out, {}, changes[i].what + ": " + changes[i].before + " → " + changes[i].after, terminal);
  if (changes.size() > kMost)
    append_item(out, {}, "and " + std::to_string(changes.size() - kMost) + " more", terminal);
}

void append_extras(std::string& out, const std::vector<Extra>& extras, const Terminal& terminal) {
  if (extras.empty()) return;
  out += list_heading("Also said, not in the recipe", extras.size(), terminal);
  for (const auto& extra : extras)
    append_item(out, format_timestamp(extra.when.begin, TimestampStyle::Spoken, Round::Down), extra.text,
                terminal);
}

void append_corrections(std::string& out, const std::vector<CaptionCorrection>& corrections,
                        const Terminal& terminal) {
  if (corrections.empty()) return;
  out += list_heading("Words the captions misheard", corrections.size(), terminal);
  for (const auto& correction : corrections)
    append_item(out, format_timestamp(correction.when.begin, TimestampStyle::Spoken, Round::Down),
                "\"" + correction.heard + "\", " + (correction.sure ? "meant: " : "perhaps meant: ") +
                    correction.meant,
                terminal);
}

void append_warnings(std::string& out, const std::vector<CheckWarning>& warnings, const Terminal& terminal) {
  if (warnings.empty()) return;
  out += list_heading("Also noticed", warnings.size(), terminal);
  for (const auto level : {WarningLevel::Warning, WarningLevel::Note})
    for (const auto& warning : warnings) {
      if (warning.level != level) continue;
      std::string text = warning.message;
      if (warning.line) text += " (line " + std::to_string(*warning.line) + " of the recipe)";
      if (warning.at)
        text += " (at " + format_timestamp(*warning.at, TimestampStyle::Spoken, Round::Down) + ")";
      append_item(out, level == WarningLevel::Warning ? "warning" : "note", text, terminal);
    }
}

}  // namespace

std::string check_text(const CheckReport& report, const Recipe& recipe, const std::vector<Pickup>& pickups,
                       const Terminal& terminal, const ReportSetting& setting) {
  const auto digest = digest_of(report);
  std::string out;
  auto title = escape_terminal(recipe.title.empty() ? recipe.file.filename().string() : recipe.title);
  if (report.duration)
    title += " · " + format_timestamp(*report.duration, TimestampStyle::Spoken, Round::Down);
  for (const auto& line : wrap(title, std::min(terminal.width, kMostWide)))
    out += terminal.styled(line, Look::Heading) + "\n";
  for (const auto& line : wrap(escape_terminal(setting.looked_in), std::min(terminal.width, kMostWide)))
    if (!line.empty()) out += terminal.styled(line, Look::Quiet) + "\n";
  append_attention(out, digest, terminal);
  append_changes(out, setting.changes, terminal);
  append_lines(out, "As written", digest.in_order, terminal);
  append_lines(out, "Not found, and need not be", digest.not_needed, terminal);
  append_pickups(out, pickups, terminal);
  append_extras(out, report.extras, terminal);
  append_corrections(out, report.corrections, terminal);
  append_warnings(out, report.warnings, terminal);
  out += "\n";
  for (const auto& line : wrap(digest.summary, std::min(terminal.width, kMostWide)))
    out += terminal.styled(line, report.wants_attention() ? Look::Wrong : Look::Good) + "\n";
  return out;
}

}  // namespace panslate::app
