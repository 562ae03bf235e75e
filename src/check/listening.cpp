#include "panslate/check/listening.h"

#include <algorithm>
#include <set>

namespace panslate {

bool SpokenLine::never_whole() const {
  return !in_other_clip &&
         std::none_of(takes.begin(), takes.end(), [](const SpokenTake& take) { return take.complete; });
}

bool Listening::wants_attention() const {
  return draft || status == ListenStatus::Failed ||
         std::any_of(amounts.begin(), amounts.end(),
                     [](const ListenedAmount& amount) { return amount.verdict != Heeded::AsWritten; }) ||
         std::any_of(lines.begin(), lines.end(), [](const SpokenLine& line) { return line.never_whole(); });
}

void leave_to_a_person(Listening& heard) {
  for (auto& amount : heard.amounts)
    if (amount.verdict == Heeded::AsWritten) {
      amount.verdict = Heeded::Unsure;
      amount.why = "its words are still a draft";
    }
  if (heard.status == ListenStatus::Aligned) heard.status = ListenStatus::Partly;
  if (!heard.reason.empty()) heard.reason += "; ";
  heard.reason += "its captions are still a draft: put them right, and take the note out of the file";
}

void tell_lines_of_other_clips(std::span<Listening* const> clips) {
  std::set<int> spoken;
  for (const auto* clip : clips)
    for (const auto& line : clip->lines)
      if (!line.takes.empty() && !line.never_whole()) spoken.insert(line.number);
  for (auto* clip : clips)
    for (auto& line : clip->lines) line.in_other_clip = line.never_whole() && spoken.contains(line.number);
}

std::string_view spelling_of(ListenStatus status) {
  switch (status) {
    case ListenStatus::Aligned:
      return "aligned";
    case ListenStatus::Partly:
      return "partly";
    case ListenStatus::Failed:
      return "failed";
  }
  return "failed";
}

std::string_view spelling_of(Heeded verdict) {
  switch (verdict) {
    case Heeded::AsWritten:
      return "as-written";
    case Heeded::Differs:
      return "differs";
    case Heeded::Unsure:
      return "unsure";
  }
  return "unsure";
}

}  // namespace panslate
