#include <string_view>

#include <fmt/format.h>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/footage_log_files.h"
#include "panslate/deliver/plain_text.h"

namespace panslate {

namespace {

constexpr std::size_t kStepCharacters = 60;

std::string moment(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Spoken, Round::Down);
}

}  // namespace

std::string part_moments(const ProposedPart& part) {
  return moment(part.range.begin) + "–" + moment(part.range.end);
}

std::string part_reason(const Project& project, const ProposedPart& part) {
  const auto& step = project.recipe.steps[part.step];
  return fmt::format("\"{}\" is {}: step {}, {}", collapse_spaces(part.said.text),
                     part.draft ? "heard in the draft of the words" : "said", part.step + 1,
                     shortened(collapse_spaces(step.text), kStepCharacters));
}

std::vector<std::string> left_out_words(const LoggedProposals& proposals) {
  const auto& found = proposals.found;
  std::vector<std::string> out;
  std::vector<std::string> reasons;
  const auto add = [&](std::size_t count, std::string_view why) {
    if (count == 0) return;
    reasons.push_back(
        (reasons.empty() ? count_in_words(count, "stretch", "stretches") : std::to_string(count)) + " " +
        std::string(why));
  };
  add(found.untold, "where the words tell no step");
  add(found.between_steps, "where two steps are about as likely");
  add(found.marked, "over parts that you marked");
  if (!reasons.empty()) out.push_back("not proposed: " + join(reasons, ", "));
  if (const auto count = found.without_words.size(); count > 0)
    out.push_back("no words yet for " + count_in_words(count, "clip", "clips") + ": give captions" +
                  (proposals.can_listen ? ", or run panslate listen" : ""));
  if (const auto count = found.without_voice.size(); count > 0)
    out.push_back("nobody speaks in " + count_in_words(count, "clip", "clips") + ": mark the parts of " +
                  (count == 1 ? "it" : "them") + " at the desk");
  return out;
}

}  // namespace panslate
