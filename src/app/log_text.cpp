#include "app/log_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/footage_log_files.h"
#include "panslate/deliver/plain_text.h"

#include "app/item_list.h"
#include "app/text_table.h"

namespace panslate::app {

namespace {

constexpr std::size_t kMostFaults = 8;
constexpr std::size_t kMostParts = 30;

std::string moment(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Spoken, Round::Down);
}

TableRow row_of(const LoggedClip& clip) {
  TableRow row;
  const auto name = escape_terminal(clip.file.filename().string());
  if (!clip.log) {
    row.cells = {{name, Look::Plain},
                 {"", Look::Plain},
                 {"cannot be read", Look::Wrong},
                 {"", Look::Plain},
                 {"", Look::Plain}};
    if (clip.why) row.remark = escape_terminal(clip.why->message);
    return row;
  }
  const auto& log = *clip.log;
  row.cells = {{name, Look::Plain},
               {moment(log.facts.duration), Look::Plain},
               {kind_words(log.facts), Look::Plain},
               {log.facts.picture ? count_in_words(log.shots.size(), "shot", "shots") : "", Look::Plain},
               {join(sound_words(log, LoudnessWords::Short), ", "), Look::Plain}};
  return row;
}

void append_faults(std::string& out, const LoggedClip& clip, const Terminal& terminal) {
  const auto worst = worst_first(*clip.log);
  for (std::size_t i = 0; i < std::min(kMostFaults, worst.size()); ++i) {
    const auto& fault = worst[i];
    const auto length = fault.when.duration().seconds();
    auto words = clip.file.filename().string() + ": " + std::string(fault_words(fault.kind));
    if (length >= 0.5) words += fmt::format(" for {:.1f} s", length);
    if (!fault.detail.empty()) words += " (" + fault.detail + ")";
    append_item(out, moment(fault.when.begin), words, terminal);
  }
  if (worst.size() > kMostFaults)
    append_item(out, "", more_words(worst.size() - kMostFaults) + " that --out saves", terminal);
}

void append_proposals(std::string& out, const FootageLog& log, const LoggedProposals& proposals,
                      const Terminal& terminal) {
  const auto& parts = proposals.found.parts;
  const auto left_out = left_out_words(log, proposals);
  if (parts.empty() && left_out.empty()) return;
  out += list_heading(proposals.written ? "Parts written into the project" : "Proposed parts of clips",
                      parts.size(), terminal);
  for (std::size_t i = 0; i < std::min(kMostParts, parts.size()); ++i) {
    const auto& part = parts[i];
    append_item(out, part_moments(part),
                log.clips[proposals.clips[part.media]].file.filename().string() + ": " +
                    part_reason(proposals.project, part),
                terminal);
  }
  if (parts.size() > kMostParts)
    append_item(
        out, "",
        "and " + std::to_string(parts.size() - kMostParts) + " more, in the contact sheet that --out saves",
        terminal);
  for (const auto& words : left_out) append_item(out, "", words, terminal);
}

}  // namespace

std::string log_text(const FootageLog& log, const Terminal& terminal, const LoggedProposals* proposals) {
  std::vector<TableRow> rows;
  std::size_t faults = 0;
  for (const auto& clip : log.clips) {
    rows.push_back(row_of(clip));
    if (clip.log) faults += clip.log->faults.size();
  }
  std::string out = text_table({"Clip", "Length", "Picture", "Shots", "Sound"}, rows, terminal);
  if (faults > 0) out += list_heading("What is wrong with the clips", faults, terminal);
  for (const auto& clip : log.clips)
    if (clip.log) append_faults(out, clip, terminal);
  if (!log.duplicates.empty()) out += list_heading("The same twice", log.duplicates.size(), terminal);
  for (const auto& one : log.duplicates) append_item(out, "", duplicate_words(log, one), terminal);
  if (!log.warnings.empty()) out += list_heading("Please check", log.warnings.size(), terminal);
  for (const auto& one : log.warnings) append_item(out, "", warning_words(log, one), terminal);
  if (proposals != nullptr) append_proposals(out, log, *proposals, terminal);
  return out;
}

}  // namespace panslate::app
