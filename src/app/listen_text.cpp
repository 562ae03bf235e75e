#include "app/listen_text.h"

#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/listen_words.h"
#include "panslate/deliver/plain_text.h"

#include "app/item_list.h"

namespace panslate::app {

namespace {

std::string moment(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Spoken, Round::Down);
}

void append_wrapped(std::string& out, std::string_view text, Look look, const Terminal& terminal) {
  for (const auto& line : wrap(escape_terminal(text), std::min(terminal.width, kMostWide)))
    out += terminal.styled(line, look) + "\n";
}

void append_amounts(std::string& out, const Listening& clip, Heeded verdict, std::string_view title,
                    const Terminal& terminal) {
  std::vector<const ListenedAmount*> amounts;
  for (const auto& amount : clip.amounts)
    if (amount.verdict == verdict) amounts.push_back(&amount);
  if (amounts.empty()) return;
  out += list_heading(title, amounts.size(), terminal);
  for (const auto* amount : amounts)
    append_item(out, moment(amount->when.begin), listened_amount_words(clip, *amount), terminal);
}

void append_lines(std::string& out, const Listening& clip, const Terminal& terminal) {
  std::vector<const SpokenLine*> never;
  std::vector<const SpokenLine*> repeated;
  for (const auto& line : clip.lines) {
    if (line.never_spoken()) never.push_back(&line);
    if (line.takes.size() > 1 || (line.takes.size() == 1 && !line.takes[0].complete))
      repeated.push_back(&line);
  }
  const auto name = [&](const SpokenLine& line) {
    return (clip.of_captions ? "caption " : "line ") + std::to_string(line.number);
  };
  if (!never.empty()) out += list_heading("Never spoken", never.size(), terminal);
  for (const auto* line : never) append_item(out, name(*line), line->text, terminal);
  if (!repeated.empty()) out += list_heading("Several takes, or broken off", repeated.size(), terminal);
  for (const auto* line : repeated) {
    append_item(out, name(*line), line->text, terminal);
    for (const auto& take : line->takes)
      append_item(out, "", moment(take.when.begin) + "  " + take_words(take), terminal);
  }
}

void append_draft(std::string& out, const Listening& clip, const Terminal& terminal) {
  out += list_heading("Draft of what is said", clip.lines.size(), terminal);
  for (const auto& line : clip.lines)
    append_item(out, moment(line.takes.front().when.begin), line.text, terminal);
}

void append_other_speech(std::string& out, const Listening& clip, const Terminal& terminal) {
  if (clip.other_speech.empty()) return;
  out += list_heading("Other talk", clip.other_speech.size(), terminal);
  for (const auto& when : clip.other_speech)
    append_item(out, moment(when.begin), "to " + moment(when.end), terminal);
}

}  // namespace

std::string listen_text(const std::vector<Listening>& clips, const Terminal& terminal) {
  std::string out;
  for (const auto& clip : clips) {
    if (!out.empty()) out += "\n";
    append_wrapped(out, clip.file.filename().string() + " · " + moment(clip.duration), Look::Heading,
                   terminal);
    append_amounts(out, clip, Heeded::Differs, "Said otherwise", terminal);
    append_amounts(out, clip, Heeded::Unsure, "Please listen", terminal);
    if (clip.draft)
      append_draft(out, clip, terminal);
    else
      append_lines(out, clip, terminal);
    append_other_speech(out, clip, terminal);
    out += "\n";
    append_wrapped(out, listening_summary(clip), clip.wants_attention() ? Look::Wrong : Look::Good, terminal);
  }
  return out;
}

}  // namespace panslate::app
