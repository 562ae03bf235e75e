#include "check/step_verdict.h"

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/base/timestamp.h"
#include "panslate/kitchen/food.h"

#include "check/action_words.h"
#include "check/cue_verdict.h"

namespace panslate {

namespace {

// Share of a step's telling words that must be spoken before it counts as spoken of. Chosen on the
// development recipes.
constexpr double kSpoken = 0.3;
constexpr double kBarelySpoken = 0.15;  // enough where the action itself is told too

// Does the stretch tell something that is done in the step? "the oven goes on" for "heat the oven".
bool tells_action(const SpokenText& text, TokenSpan span, const std::string& step) {
  for (const auto& token : tokenize(step)) {
    if (token.kind != TokenKind::Word || !is_action_word(token.text)) continue;
    for (std::size_t i = span.begin; i < span.end; ++i)
      if (text[i].kind == TokenKind::Word && action_likeness(text[i].text, token.text) > 0) return true;
  }
  return false;
}

struct StepWords {
  std::set<std::string> foods;
  std::vector<std::string> verbs;
};

StepWords step_words(const std::string& step) {
  StepWords words;
  for (const auto& token : tokenize(step)) {
    if (token.kind != TokenKind::Word) continue;
    if (is_food_word(token.text)) words.foods.insert(name_stem(token.text));
    if (is_action_word(token.text)) words.verbs.push_back(token.text);
  }
  return words;
}

bool has_verb(const StepWords& step, const std::string& verb) {
  return std::any_of(step.verbs.begin(), step.verbs.end(),
                     [&](const auto& own) { return action_likeness(verb, own) == 2; });
}

// Its action on its food told in one breath, which no other step does to that food: "The okra comes back.
// Simmer it five more minutes."
std::optional<TokenSpan> told_in_passing(const SpokenText& text, std::size_t step,
                                         const std::vector<StepWords>& steps) {
  constexpr std::size_t kBreath = 10;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i].kind != TokenKind::Word || !is_action_word(text[i].text) ||
        !has_verb(steps[step], text[i].text))
      continue;
    for (std::size_t k = i > kBreath ? i - kBreath : 0; k < std::min(text.size(), i + kBreath); ++k) {
      if (text[k].kind != TokenKind::Word) continue;
      const auto food = name_stem(text[k].text);
      if (!steps[step].foods.contains(food)) continue;
      std::size_t doing_so = 0;
      for (const auto& other : steps)
        if (other.foods.contains(food) && has_verb(other, text[i].text)) ++doing_so;
      if (doing_so == 1) return TokenSpan{std::min(i, k), std::max(i, k) + 1};
    }
  }
  return std::nullopt;
}

void judge_step(const Talk& talk, const Whereabouts& where, const Requirement& requirement,
                const std::vector<StepWords>& steps, ChannelFinding& channel, std::string& why) {
  const auto span = where.own().best_span(requirement.index);
  const double coverage = where.own().coverage(requirement.index);
  const bool spoken =
      coverage >= kSpoken || (coverage >= kBarelySpoken && tells_action(talk.text, span, requirement.text));
  if (!span.empty() && spoken) {
    channel.verdict = Verdict::Match;
    channel.mentions.push_back(beginning_of(talk.text, span));
    why = "spoken at " + format_timestamp(channel.mentions.front().when.begin, TimestampStyle::Spoken);
    return;
  }
  if (const auto passing = told_in_passing(talk.text, requirement.index, steps)) {
    channel.verdict = Verdict::Match;
    channel.mentions.push_back(talk.text.mention(*passing));
    why = "spoken at " + format_timestamp(channel.mentions.front().when.begin, TimestampStyle::Spoken);
    return;
  }
  channel.verdict = Verdict::Missing;
  why = "nothing of this step is said";
}

// A time or an oven setting told for what the step does speaks of the step: "bake it for fifty minutes".
void take_timing(const std::vector<Requirement>& requirements, const TimingFindings& timings,
                 std::size_t step, StepFindings& findings) {
  for (std::size_t r = 0; r < requirements.size(); ++r) {
    const bool timing =
        requirements[r].kind == RequirementKind::Time || requirements[r].kind == RequirementKind::Temperature;
    const auto& told = timings.channels[r];
    if (!timing || requirements[r].index != requirements[step].index || told.mentions.empty() ||
        (told.verdict != Verdict::Match && told.verdict != Verdict::Differs))
      continue;
    findings.channels[step].verdict = Verdict::Match;
    findings.channels[step].mentions.push_back(told.mentions.front());
    findings.why[step] =
        "spoken at " + format_timestamp(told.mentions.front().when.begin, TimestampStyle::Spoken);
    return;
  }
}

}  // namespace

StepFindings judge_steps(const Talk& talk, const std::vector<Requirement>& requirements,
                         const Whereabouts& where, const TimingFindings& timings) {
  StepFindings findings;
  findings.channels.resize(requirements.size());
  findings.why.resize(requirements.size());
  std::vector<StepWords> steps;
  for (const auto& requirement : requirements)
    if (requirement.kind == RequirementKind::Step) {
      steps.resize(std::max(steps.size(), requirement.index + 1));
      steps[requirement.index] = step_words(requirement.text);
    }
  for (std::size_t r = 0; r < requirements.size(); ++r) {
    if (requirements[r].kind == RequirementKind::Step)
      judge_step(talk, where, requirements[r], steps, findings.channels[r], findings.why[r]);
    else if (requirements[r].kind == RequirementKind::Cue)
      judge_cue(talk, where, requirements[r], findings.channels[r], findings.why[r]);
  }
  for (std::size_t r = 0; r < requirements.size(); ++r)
    if (requirements[r].kind == RequirementKind::Step && findings.channels[r].verdict == Verdict::Missing)
      take_timing(requirements, timings, r, findings);
  return findings;
}

}  // namespace panslate
