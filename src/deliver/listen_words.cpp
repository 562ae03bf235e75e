#include "panslate/deliver/listen_words.h"

#include <algorithm>

#include "panslate/deliver/check_digest.h"

namespace panslate {

namespace {

std::size_t amounts_that(const Listening& clip, Heeded verdict) {
  return static_cast<std::size_t>(
      std::count_if(clip.amounts.begin(), clip.amounts.end(),
                    [verdict](const ListenedAmount& amount) { return amount.verdict == verdict; }));
}

}  // namespace

std::string listened_amount_words(const Listening& clip, const ListenedAmount& amount) {
  if (clip.draft) return "“" + amount.heard_text + "”: " + to_text(amount.script);
  std::string out;
  const bool differs = amount.verdict == Heeded::Differs;
  if (!amount.heard_text.empty()) out += (differs ? "heard “" : "perhaps “") + amount.heard_text + "”, ";
  out += (clip.of_captions ? "the captions have " : "the script has ") + to_text(amount.script);
  if (!clip.of_captions) out += " (line " + std::to_string(amount.line) + ")";
  if (!amount.why.empty()) out += ": " + amount.why;
  return out;
}

std::string take_words(const SpokenTake& take) {
  std::string out = take.complete ? "whole" : "broken off";
  if (take.chosen) out += ", the one to use";
  if (!take.why.empty()) out += ": " + take.why;
  return out;
}

std::string listening_summary(const Listening& clip) {
  if (clip.status == ListenStatus::Failed) return "The words could not be found: " + clip.reason;
  if (clip.draft)
    return "A draft of what is said, written by ear: " + count_in_words(clip.lines.size(), "line", "lines") +
           ". Put it right by the sound before you rely on any of it.";
  const auto spoken = static_cast<std::size_t>(
      std::count_if(clip.lines.begin(), clip.lines.end(), [](const SpokenLine& line) {
        return std::any_of(line.takes.begin(), line.takes.end(),
                           [](const SpokenTake& take) { return take.complete; });
      }));
  const bool elsewhere = std::any_of(clip.lines.begin(), clip.lines.end(),
                                     [](const SpokenLine& line) { return line.in_other_clip; });
  std::string out = std::to_string(spoken) + " of " +
                    count_in_words(clip.lines.size(), "line is", "lines are") + " spoken" +
                    (elsewhere ? " here, others in other clips." : ".");
  const auto differs = amounts_that(clip, Heeded::Differs);
  const auto unsure = amounts_that(clip, Heeded::Unsure);
  const bool whole = spoken == clip.lines.size();
  if (!clip.amounts.empty() && differs == 0 && unsure == 0)
    out += clip.amounts.size() == 1 ? " The one amount sounds as written."
           : whole                  ? " All amounts sound as written."
                                    : " All their amounts sound as written.";
  if (differs > 0) out += " " + count_in_words(differs, "amount is", "amounts are") + " said otherwise.";
  if (unsure > 0) out += " " + count_in_words(unsure, "amount", "amounts") + " must be listened to.";
  if (clip.status == ListenStatus::Partly) out += " Not all of the sound could be followed: " + clip.reason;
  return out;
}

}  // namespace panslate
