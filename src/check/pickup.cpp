#include "panslate/check/pickup.h"

#include <utility>

#include "panslate/base/timestamp.h"

namespace panslate {

namespace {

std::string amount_words(const Requirement& requirement) {
  return requirement.amounts.empty() ? std::string{} : to_text(requirement.amounts.front());
}

// "220 g leeks, washed (see note)" is said as "220 g leeks"; brackets may hold a comma of their own.
std::string without_preparation(const std::string& line) {
  int depth = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '(') ++depth;
    if (line[i] == ')') --depth;
    if (line[i] == ',' && depth == 0 && i + 1 < line.size() && line[i + 1] == ' ') return line.substr(0, i);
  }
  return line;
}

std::string sentence_to_say(const Requirement& requirement, const Recipe& recipe) {
  switch (requirement.kind) {
    case RequirementKind::Ingredient:
    case RequirementKind::MethodAmount: {
      return "Say: \"" + without_preparation(requirement.text) + "\"";
    }
    case RequirementKind::Temperature:
    case RequirementKind::Time:
      return "Say: \"" + requirement.text + "\" (step " +
             std::to_string(recipe.steps[requirement.index].number) + ")";
    case RequirementKind::Step:
      return "Say what is done: \"" + requirement.text + "\"";
    case RequirementKind::Yield:
    case RequirementKind::Cue:
      return "Say: \"" + requirement.text + "\"";
  }
  return {};
}

}  // namespace

std::vector<Pickup> pickups_of(const CheckReport& report, const Recipe& recipe) {
  std::vector<Pickup> pickups;
  for (std::size_t r = 0; r < report.requirements.size(); ++r) {
    const auto& requirement = report.requirements[r];
    if (!CheckReport::needs_attention(requirement)) continue;
    const auto add = [&](Pickup::Kind kind, std::string what, const ChannelFinding* channel) {
      Pickup pickup;
      pickup.kind = kind;
      pickup.requirement = r;
      pickup.what = std::move(what);
      if (channel != nullptr && !channel->mentions.empty()) {
        pickup.at = channel->mentions.front().when.begin;
        pickup.media = channel->mentions.front().media;
      }
      pickups.push_back(std::move(pickup));
    };
    const bool written_instead = requirement.on_text.verdict == Verdict::Match;
    switch (requirement.said.verdict) {
      case Verdict::Differs:
      case Verdict::Missing:
      case Verdict::NoAmount:
        if (!written_instead || requirement.said.verdict == Verdict::Differs)
          add(Pickup::Kind::SayAgain, sentence_to_say(requirement, recipe), &requirement.said);
        break;
      case Verdict::Unsure:
        if (!written_instead)
          add(Pickup::Kind::Listen,
              "Listen: is it " +
                  (requirement.amounts.empty() ? requirement.name : amount_words(requirement)) + "?",
              &requirement.said);
        break;
      case Verdict::Match:
      case Verdict::NotChecked:
        break;
    }
    if (requirement.on_text.verdict == Verdict::Differs)
      add(Pickup::Kind::CorrectText,
          "Put the text right: \"" + amount_words(requirement) + " " + requirement.name + "\"",
          &requirement.on_text);
    if (requirement.shown.verdict == ShownVerdict::No) {
      const bool food = requirement.kind == RequirementKind::Ingredient ||
                        requirement.kind == RequirementKind::MethodAmount;
      const auto amount = amount_words(requirement);
      add(Pickup::Kind::Film,
          food ? "Film close up: " + requirement.name + (amount.empty() ? "" : ", " + amount)
               : "Film step " + std::to_string(recipe.steps[requirement.index].number) + ": " +
                     requirement.text,
          nullptr);
    }
  }
  return pickups;
}

}  // namespace panslate
