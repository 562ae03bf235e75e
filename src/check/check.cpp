#include "panslate/check/check.h"

#include <algorithm>
#include <utility>

#include "panslate/base/timestamp.h"
#include "panslate/kitchen/food.h"

#include "check/bracketed_names.h"
#include "check/extras.h"
#include "check/food_verdict.h"
#include "check/form_said.h"
#include "check/heard.h"
#include "check/misheard.h"
#include "check/requirements.h"
#include "check/sound_support.h"
#include "check/step_verdict.h"
#include "check/talk.h"
#include "check/timing_verdict.h"
#include "check/unclaimed_amounts.h"
#include "check/whereabouts.h"

namespace panslate {

namespace {

std::vector<FoodTarget> targets_of(const Recipe& recipe, const std::vector<Requirement>& requirements) {
  std::vector<FoodTarget> targets;
  const auto deeds_of = deeds_by_ingredient(recipe);
  for (std::size_t r = 0; r < requirements.size(); ++r) {
    const auto& requirement = requirements[r];
    const bool measured = !requirement.amounts.empty() && requirement.amounts.front().value.has_value();
    const bool counted = measured && dimension_of(requirement.amounts.front().unit) == Dimension::Count;
    if (requirement.kind == RequirementKind::MethodAmount)
      targets.push_back({r, requirement.name, 0, counted, measured, requirement.optional});
    if (requirement.kind != RequirementKind::Ingredient) continue;
    const auto& ingredient = recipe.ingredients[requirement.index];
    const auto& deeds = deeds_of[requirement.index];
    for (std::size_t part = 0; part < ingredient.foods.size(); ++part)
      targets.push_back({r, ingredient.foods[part], part, counted, measured, requirement.optional, deeds});
    // An alternative stands for the first food.
    for (const auto& other : ingredient.or_foods)
      targets.push_back({r, other, 0, counted, measured, requirement.optional, deeds});
    if (ingredient.foods.size() == 1)
      for (const auto& other : bracketed_names(ingredient.text))
        targets.push_back({r, other, 0, counted, measured, requirement.optional, deeds});
  }
  for (auto& target : targets) {
    const auto& requirement = requirements[target.requirement];
    for (const auto& token : tokenize(target.name))
      if (token.kind == TokenKind::Word) target.words.push_back(token.text);
    for (const auto& amount : requirement.amounts) target.units.push_back(amount.unit);
    if (requirement.kind != RequirementKind::Ingredient) continue;
    for (const auto& token : tokenize(recipe.ingredients[requirement.index].group))
      if (token.kind == TokenKind::Word) target.group_stems.push_back(stem(token.text));
  }
  return targets;
}

std::string_view description_of(Measures measures) {
  switch (measures) {
    case Measures::Us:
      return "American (cup 237 ml, tablespoon 14.8 ml)";
    case Measures::Metric:
      return "metric (cup 250 ml, tablespoon 15 ml)";
    case Measures::Au:
      return "Australian (cup 250 ml, tablespoon 20 ml)";
    case Measures::Uk:
      return "British (pint 568 ml, tablespoon 15 ml)";
  }
  return {};
}

/// One kind of evidence, wholly judged.
struct Judged {
  std::vector<FoodFinding> foods;
  TimingFindings timings;
  StepFindings steps;
  std::vector<Extra> extras;
  std::vector<Heard> heard;
  std::vector<TokenSpan> repeated;
  std::vector<CaptionCorrection> corrections;
};

class Checking {
 public:
  explicit Checking(const CheckInput& input) : input_(input), recipe_(*input.recipe) {}

  CheckReport run() {
    report_.requirements = requirements_of(recipe_);
    report_.duration = input_.duration;
    targets_ = targets_of(recipe_, report_.requirements);
    tell_measures();
    check_speech();
    heed_drafts();
    check_shown();
    for (auto& requirement : report_.requirements) conclude(requirement);
    return std::move(report_);
  }

 private:
  void tell_measures() {
    if (!recipe_.measures_guessed) return;
    const bool matters =
        std::any_of(report_.requirements.begin(), report_.requirements.end(), [](const Requirement& r) {
          return std::any_of(r.amounts.begin(), r.amounts.end(),
                             [](const Amount& a) { return varies_by_measures(a.unit); });
        });
    if (!matters) return;
    std::string message = "cups and spoons are taken as " + std::string(description_of(recipe_.measures));
    if (!recipe_.measures_reason.empty()) message += ": " + recipe_.measures_reason;
    report_.warnings.push_back(
        {"measures-guessed", WarningLevel::Note, std::move(message), std::nullopt, std::nullopt});
  }

  void check_speech() {
    std::optional<Talk> speech;
    std::optional<StepAlignment> steps;
    if (!input_.said.empty()) {
      speech.emplace(read_talk(input_.said, TextKind::Speech, targets_, recipe_));
      steps.emplace(recipe_, speech->text);
      const Whereabouts where(speech->text, *steps);
      auto judged = judge(*speech, *steps, where);
      take_channel(judged, &Requirement::said);
      for (std::size_t r = 0; r < report_.requirements.size(); ++r)
        report_.requirements[r].why = why_of(judged, r);
      report_.heard = std::move(judged.heard);
      report_.extras = std::move(judged.extras);
      report_.corrections = std::move(judged.corrections);
      tell_repeats(*speech);
      for (const auto& food : judged.foods)
        report_.warnings.insert(report_.warnings.end(), food.warnings.begin(), food.warnings.end());
    }
    if (input_.on_text.empty()) return;
    auto picture = read_talk(input_.on_text, TextKind::OnPicture, targets_, recipe_);
    const StepAlignment own(recipe_, picture.text);
    Whereabouts where(picture.text, own);
    if (speech) where.follow(speech->text, *steps);
    auto judged = judge(picture, own, where);
    take_channel(judged, &Requirement::on_text);
    for (auto& extra : judged.extras) report_.extras.push_back(std::move(extra));
    for (std::size_t r = 0; r < report_.requirements.size(); ++r) {
      auto& requirement = report_.requirements[r];
      const bool text_decides =
          requirement.on_text.verdict == Verdict::Differs ||
          (requirement.on_text.verdict == Verdict::Match && requirement.said.verdict != Verdict::Match) ||
          input_.said.empty();
      if (text_decides && requirement.said.verdict != Verdict::Differs) requirement.why = why_of(judged, r);
      if (text_decides && requirement.said.verdict == Verdict::Differs &&
          requirement.on_text.verdict == Verdict::Differs)
        requirement.why += "; " + why_of(judged, r);
    }
  }

  Judged judge(Talk& talk, const StepAlignment& steps, const Whereabouts& where) {
    Judged judged;
    const auto lines = choose_lines(talk, targets_, recipe_, report_.requirements, steps);
    take_unclaimed_amounts(talk, targets_, lines, recipe_, report_.requirements);
    judged.foods = judge_foods(talk, targets_, recipe_, report_.requirements, lines);
    warn_of_unsaid_forms(talk, targets_, recipe_, report_.requirements, lines, judged.foods);
    judged.timings = judge_timings(talk, recipe_, report_.requirements, where);
    judge_yields(talk, recipe_, report_.requirements, judged.timings);
    judged.steps = judge_steps(talk, report_.requirements, where, judged.timings);
    judged.extras = extras_of(talk, targets_, recipe_, judged.foods);
    judged.corrections = corrections_of(talk, targets_, lines);
    judged.heard = heard_in(talk, targets_, lines, judged.foods, judged.timings, report_.requirements);
    return judged;
  }

  void take_channel(Judged& judged, ChannelFinding Requirement::*channel) {
    for (std::size_t r = 0; r < report_.requirements.size(); ++r) {
      auto& requirement = report_.requirements[r];
      switch (requirement.kind) {
        case RequirementKind::Ingredient:
        case RequirementKind::MethodAmount:
          requirement.*channel = std::move(judged.foods[r].channel);
          break;
        case RequirementKind::Temperature:
        case RequirementKind::Time:
        case RequirementKind::Yield:
          requirement.*channel = std::move(judged.timings.channels[r]);
          break;
        case RequirementKind::Step:
        case RequirementKind::Cue:
          requirement.*channel = std::move(judged.steps.channels[r]);
          break;
      }
    }
  }

  static std::string why_of(const Judged& judged, std::size_t r) {
    for (const auto* why : {&judged.foods[r].why, &judged.timings.why[r], &judged.steps.why[r]})
      if (!why->empty()) return *why;
    return {};
  }

  void tell_repeats(const Talk& talk) {
    for (const auto& line : talk.repeated_lines) {
      const auto at = talk.text.when(line).begin;
      report_.warnings.push_back(
          {"repeated-line", WarningLevel::Note,
           "\"" + talk.text.text(line) + "\" is said twice; is the first try still in the film?",
           std::nullopt, at});
    }
  }

  // What stands in captions that a machine wrote by ear is nothing to rely on: at best somebody listens.
  void heed_drafts() {
    const auto is_draft = [](const TimedText& said) { return said.transcript->draft; };
    if (std::none_of(input_.said.begin(), input_.said.end(), is_draft)) return;
    const bool all = std::all_of(input_.said.begin(), input_.said.end(), is_draft);
    for (auto& requirement : report_.requirements) {
      auto& said = requirement.said;
      if (said.verdict == Verdict::NotChecked) continue;
      const auto from_draft = [&](const Mention& mention) {
        return std::any_of(input_.said.begin(), input_.said.end(), [&](const TimedText& text) {
          return text.transcript->draft && text.media == mention.media;
        });
      };
      if (!all && std::none_of(said.mentions.begin(), said.mentions.end(), from_draft)) continue;
      const bool differs =
          said.verdict == Verdict::Differs && !said.mentions.empty() && said.mentions[0].amount;
      if (differs)
        requirement.why =
            "the draft of the words has " + to_text(*said.mentions[0].amount) + " there: please listen";
      else if (said.verdict == Verdict::Missing)
        requirement.why = "the draft of the words does not have it, but may have misheard it: please listen";
      else
        requirement.why = "the words there are a draft that nobody has put right yet: please listen";
      said.verdict = Verdict::Unsure;
    }
    report_.warnings.push_back({"captions-draft", WarningLevel::Warning,
                                "the words are a draft, written by ear: nothing in them is taken for sure. "
                                "Put them right and take the note out of the file",
                                std::nullopt, std::nullopt});
  }

  void check_shown() {
    if (!input_.segments) return;
    for (auto& requirement : report_.requirements) {
      const bool food = requirement.kind == RequirementKind::Ingredient ||
                        requirement.kind == RequirementKind::MethodAmount;
      const bool step = requirement.kind == RequirementKind::Step || requirement.kind == RequirementKind::Cue;
      if (!food && !step) continue;
      auto& shown = requirement.shown;
      shown.verdict = ShownVerdict::No;
      for (const auto& segment : *input_.segments) {
        if (requirement.kind == RequirementKind::Ingredient && has(segment.shows, requirement.index)) {
          if (shown.verdict != ShownVerdict::Yes) shown.segments.clear();
          shown.verdict = ShownVerdict::Yes;
          shown.segments.push_back(segment.id);
        } else if (shown.verdict != ShownVerdict::Yes && films(segment, requirement)) {
          shown.verdict = ShownVerdict::Unconfirmed;
          shown.segments.push_back(segment.id);
        }
      }
    }
  }

  static bool has(const std::vector<std::size_t>& indices, std::size_t index) {
    return std::find(indices.begin(), indices.end(), index) != indices.end();
  }

  // A segment of a step that uses the food, or of the step itself.
  [[nodiscard]] bool films(const FilmedSegment& segment, const Requirement& requirement) const {
    return std::any_of(segment.steps.begin(), segment.steps.end(), [&](std::size_t step) {
      return requirement.kind == RequirementKind::Ingredient
                 ? has(recipe_.steps[step].uses, requirement.index)
                 : step == requirement.index;
    });
  }

  static void conclude(Requirement& requirement) {
    requirement.covered = CheckReport::is_covered(requirement);
    if (CheckReport::is_as_written(requirement) && requirement.shown.verdict == ShownVerdict::No)
      requirement.why += requirement.why.empty() ? "not shown" : ", but no part of a clip shows it";
    if (requirement.why.empty()) requirement.why = "there is nothing to look in";
  }

  const CheckInput& input_;
  const Recipe& recipe_;
  CheckReport report_;
  std::vector<FoodTarget> targets_;
};

}  // namespace

CheckReport check(const CheckInput& input) {
  return Checking(input).run();
}

}  // namespace panslate
