#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"

#include "check/food_verdict.h"
#include "check/phrase.h"

namespace panslate {

namespace {

std::set<std::string> stems_of(const std::string& text) {
  std::set<std::string> stems;
  for (const auto& token : tokenize(text))
    if (token.kind == TokenKind::Word && !is_filler(token.text)) stems.insert(stem(token.text));
  return stems;
}

class Choosing {
 public:
  Choosing(const Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe,
           const std::vector<Requirement>& requirements, const StepAlignment& steps)
      : talk_(talk), targets_(targets), recipe_(recipe), requirements_(requirements), steps_(steps) {}

  LineChoice run() {
    LineChoice choice;
    choice.targets_of.reserve(talk_.sightings.size());
    std::set<std::string> groups;
    for (const auto& ingredient : recipe_.ingredients) groups.insert(ingredient.group);
    for (const auto& group : groups)
      if (!group.empty()) group_stems_[group] = stems_of(group);
    // A word that stands in every group's name ("for the …") tells none apart.
    for (std::size_t i = 0; i < talk_.sightings.size(); ++i) choice.targets_of.push_back(settle(i));
    settle_by_order(choice);
    return choice;
  }

 private:
  std::vector<std::size_t> settle(std::size_t index) {
    const auto& sighting = talk_.sightings[index];
    auto left = sighting.targets;
    if (left.size() > 1 && sighting.strength != NameStrength::Full) left = by_fuller_name(index, left);
    if (left.size() > 1) left = by_group(sighting, left);
    if (left.size() > 1) left = by_step(sighting, left);
    if (sighting.strength == NameStrength::Full && left.size() == 1)
      last_full_[left.front()] = sighting.span.begin;
    return left;
  }

  // "the red onion … and the onion": the one named in full shortly before.
  std::vector<std::size_t> by_fuller_name(std::size_t index, const std::vector<std::size_t>& among) const {
    constexpr std::size_t kShortly = 40;
    const auto at = talk_.sightings[index].span.begin;
    std::vector<std::size_t> recent;
    for (const auto target : among) {
      const auto found = last_full_.find(target);
      if (found != last_full_.end() && at - found->second <= kShortly) recent.push_back(target);
    }
    return recent.size() == 1 ? recent : among;
  }

  [[nodiscard]] const Ingredient* ingredient_of(std::size_t target) const {
    const auto& requirement = requirements_[targets_[target].requirement];
    return requirement.kind == RequirementKind::Ingredient ? &recipe_.ingredients[requirement.index]
                                                           : nullptr;
  }

  // "for the pastry, 200 grams of flour"
  std::vector<std::size_t> by_group(const FoodSighting& sighting,
                                    const std::vector<std::size_t>& among) const {
    constexpr std::size_t kReach = 20;
    const auto sentence = sentence_around(talk_.text, sighting.span.begin, kReach);
    std::set<std::string> spoken;
    for (std::size_t i = sentence.begin; i < sentence.end; ++i)
      if (talk_.text[i].kind == TokenKind::Word && !sighting.span.overlaps({i, i + 1}))
        spoken.insert(stem(talk_.text[i].text));
    std::vector<std::size_t> fitting;
    for (const auto target : among) {
      const auto* ingredient = ingredient_of(target);
      if (ingredient == nullptr || ingredient->group.empty()) continue;
      const auto& words = group_stems_.at(ingredient->group);
      if (std::any_of(words.begin(), words.end(), [&](const auto& word) { return spoken.contains(word); }))
        fitting.push_back(target);
    }
    return fitting.size() == 1 ? fitting : among;
  }

  std::vector<std::size_t> by_step(const FoodSighting& sighting,
                                   const std::vector<std::size_t>& among) const {
    const auto step = steps_.step_at(sighting.span.begin);
    if (!step || !steps_.is_grounded(talk_.text.utterance_of(sighting.span.begin))) return among;
    std::vector<std::size_t> used;
    for (const auto target : among) {
      const auto& requirement = requirements_[targets_[target].requirement];
      if (requirement.kind == RequirementKind::MethodAmount) {
        if (requirement.index == *step) used.push_back(target);
        continue;
      }
      const auto& uses = recipe_.steps[*step].uses;
      const auto* ingredient = ingredient_of(target);
      const bool in_step = std::find(uses.begin(), uses.end(), requirement.index) != uses.end();
      const bool of_part = ingredient != nullptr && !ingredient->group.empty() &&
                           !recipe_.steps[*step].part.empty() &&
                           shares_word(ingredient->group, recipe_.steps[*step].part);
      if (in_step && (of_part || !any_of_part(among, *step))) used.push_back(target);
    }
    return used.size() == 1 ? used : among;
  }

  [[nodiscard]] bool any_of_part(const std::vector<std::size_t>& among, std::size_t step) const {
    return std::any_of(among.begin(), among.end(), [&](std::size_t target) {
      const auto* ingredient = ingredient_of(target);
      return ingredient != nullptr && !ingredient->group.empty() &&
             shares_word(ingredient->group, recipe_.steps[step].part);
    });
  }

  [[nodiscard]] static bool shares_word(const std::string& a, const std::string& b) {
    const auto first = stems_of(a);
    const auto second = stems_of(b);
    return std::any_of(first.begin(), first.end(), [&](const auto& word) { return second.contains(word); });
  }

  // Two lines of one food, both amounts told one after the other with nothing else to go by: the order of the
  // recipe, as she reads it out.
  void settle_by_order(LineChoice& choice) const {
    std::map<std::vector<std::size_t>, std::vector<std::size_t>> open;
    for (const auto& amount : talk_.amounts) {
      if (!amount.food || amount.taken_back || amount.suggested || amount.portion || amount.late ||
          amount.repeated)
        continue;
      const auto& left = choice.targets_of[*amount.food];
      if (left.size() > 1 && talk_.sightings[*amount.food].strength == NameStrength::Full)
        open[left].push_back(*amount.food);
    }
    for (const auto& entry : open) {
      const auto& targets = entry.first;
      const auto& sightings = entry.second;
      if (targets.size() != sightings.size()) continue;
      const bool adjacent =
          std::adjacent_find(sightings.begin(), sightings.end(), [&](std::size_t a, std::size_t b) {
            return talk_.sightings[b].span.begin - talk_.sightings[a].span.end > 60;
          }) == sightings.end();
      const bool taken =
          std::any_of(choice.targets_of.begin(), choice.targets_of.end(), [&](const auto& other) {
            return other.size() == 1 &&
                   std::find(targets.begin(), targets.end(), other.front()) != targets.end();
          });
      if (!adjacent || taken) continue;
      for (std::size_t k = 0; k < targets.size(); ++k) choice.targets_of[sightings[k]] = {targets[k]};
    }
  }

  const Talk& talk_;
  const std::vector<FoodTarget>& targets_;
  const Recipe& recipe_;
  const std::vector<Requirement>& requirements_;
  const StepAlignment& steps_;
  std::map<std::size_t, std::size_t> last_full_;
  std::map<std::string, std::set<std::string>> group_stems_;
};

}  // namespace

LineChoice choose_lines(const Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe,
                        const std::vector<Requirement>& requirements, const StepAlignment& steps) {
  return Choosing(talk, targets, recipe, requirements, steps).run();
}

}  // namespace panslate
