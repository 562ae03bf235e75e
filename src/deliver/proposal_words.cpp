#include <string_view>

#include <fmt/format.h>

#include "panslate/base/text.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/footage_log_files.h"
#include "panslate/deliver/plain_text.h"

#include "deliver/clip_names.h"
#include "deliver/page_marks.h"

namespace panslate {

namespace {

constexpr std::size_t kStepCharacters = 60;

}  // namespace

std::string part_moments(const ProposedPart& part) {
  return spoken(part.range.begin) + "–" + spoken(part.range.end);
}

std::string part_reason(const Project& project, const ProposedPart& part) {
  const auto& step = project.recipe.steps[part.step];
  return fmt::format("\"{}{}{}\" is {}: step {}, {}", part.cut_before ? "… " : "",
                     collapse_spaces(part.said.text), part.cut_behind ? " …" : "",
                     part.draft ? "heard in the draft of the words" : "said", part.step + 1,
                     shortened(collapse_spaces(step.text), kStepCharacters));
}

std::vector<std::string> left_out_words(const FootageLog& log, const LoggedProposals& proposals) {
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
  add(found.marked, "over parts already in the project");
  if (!reasons.empty()) out.push_back("not proposed: " + join(reasons, ", "));
  const auto named = [&](const std::vector<std::size_t>& media) {
    std::vector<std::size_t> clips;
    clips.reserve(media.size());
    for (const auto index : media) clips.push_back(proposals.clips[index]);
    return list_words(names_of_clips(log, clips));
  };
  if (!found.without_words.empty())
    out.push_back("no words yet for " + named(found.without_words) + ": give captions" +
                  (proposals.can_listen ? ", or run panslate listen" : ""));
  if (!found.without_voice.empty())
    out.push_back("nobody speaks in " + named(found.without_voice) + ": mark the parts of " +
                  (found.without_voice.size() == 1 ? "it" : "them") + " at the desk");
  return out;
}

}  // namespace panslate
