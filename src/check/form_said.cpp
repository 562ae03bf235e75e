#include "check/form_said.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "panslate/base/timestamp.h"
#include "panslate/kitchen/food.h"

#include "check/phrase.h"

namespace panslate {

namespace {

struct WrittenForm {
  FoodForm form;
  std::string word;
};

// The form that the line asks for, where it makes another food of the food.
std::optional<WrittenForm> written_form(const Ingredient& ingredient) {
  for (const auto& token : tokenize(ingredient.name))
    if (const auto form = form_of(token.text); form && form_makes_another_food(*form, ingredient.name))
      return WrittenForm{*form, token.text};
  const bool in_tins = !ingredient.amounts.empty() && ingredient.amounts.front().unit == Unit::Can;
  if (in_tins && form_makes_another_food(FoodForm::Tinned, ingredient.name))
    return WrittenForm{FoodForm::Tinned, "tinned"};
  return std::nullopt;
}

// Is the form told beside the food? "apricots, the dried ones", "two tins of tomatoes"
bool tells_form(const SpokenText& text, TokenSpan food, FoodForm form) {
  constexpr std::size_t kReach = 8;
  const auto near = sentence_around(text, food.begin, kReach);
  for (auto i = near.begin; i < std::max(near.end, food.end); ++i) {
    if (text[i].kind != TokenKind::Word) continue;
    if (form_of(text[i].text) == form || form_of(stem(text[i].text)) == form) return true;
  }
  return false;
}

// "Two tins of the chopped ones": the amount tells it, wherever the food was named.
bool is_told_in_tins(const Talk& talk, const std::vector<std::size_t>& amounts) {
  return std::any_of(amounts.begin(), amounts.end(),
                     [&](std::size_t a) { return talk.amounts[a].scan.amount.unit == Unit::Can; });
}

}  // namespace

void warn_of_unsaid_forms(const Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe,
                          const std::vector<Requirement>& requirements, const LineChoice& lines,
                          std::vector<FoodFinding>& findings) {
  if (talk.text.kind() == TextKind::OnPicture) return;  // too short to hold it against
  for (std::size_t r = 0; r < requirements.size(); ++r) {
    const auto& requirement = requirements[r];
    auto& finding = findings[r];
    if (requirement.kind != RequirementKind::Ingredient || finding.channel.mentions.empty() ||
        finding.channel.verdict == Verdict::Missing)
      continue;
    const auto& ingredient = recipe.ingredients[requirement.index];
    const auto wanted = ingredient.foods.size() == 1 ? written_form(ingredient) : std::nullopt;
    if (!wanted) continue;
    bool named = false;
    bool told = wanted->form == FoodForm::Tinned && is_told_in_tins(talk, finding.amounts);
    for (std::size_t s = 0; s < talk.sightings.size() && !told; ++s) {
      const auto& left = lines.targets_of[s];
      if (!std::any_of(left.begin(), left.end(), [&](std::size_t t) { return targets[t].requirement == r; }))
        continue;
      named = true;
      told = tells_form(talk.text, talk.sightings[s].span, wanted->form);
    }
    if (!named || told) continue;
    finding.warnings.push_back({"form-not-said", WarningLevel::Note,
                                requirement.name + ": \"" + wanted->word + "\" is never said",
                                requirement.line, finding.channel.mentions.front().when.begin});
  }
}

}  // namespace panslate
