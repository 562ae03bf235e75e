#include <algorithm>
#include <chrono>
#include <string>
#include <vector>

#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/food_names.h"
#include "panslate/kitchen/token.h"

#include "recipe/findings.h"

namespace panslate {

namespace {

// A limit that nobody looked up for so long may have changed: our choice, told with its date.
constexpr auto kStale = std::chrono::days(365);
constexpr double kSlack = 1e-6;

// The limit whose food the ingredient is, the closest name first.
const ServingLimit* limit_of(const LimitTable& table, const FoodNames& names, const Ingredient& ingredient) {
  std::vector<std::string> words;
  for (const auto& token : tokenize(ingredient.name))
    words.push_back(token.kind == TokenKind::Mark && token.text != "-" ? std::string{} : token.text);
  const ServingLimit* found = nullptr;
  auto best = NameMatch::Category;
  for (const auto& mention : names.scan(words))
    for (const auto i : mention.ingredients)
      if (mention.match > best) {
        best = mention.match;
        found = &table.limits[i];
      }
  return found;
}

void compare_with(const ReadContext& context, PerServing& serving, const ServingLimit& limit) {
  const auto& ingredient = context.recipe.ingredients[serving.ingredient];
  serving.limit = limit.amount;
  serving.checked = limit.checked;
  const auto most = [](const Amount& amount) {
    auto least = amount;
    least.value = amount.to.value_or(*amount.value);
    least.to.reset();
    return least;
  };
  const auto eaten = most(serving.amount);
  if (eaten.unit == limit.amount.unit && !eaten.each && !limit.amount.each) {
    serving.within = *eaten.value <= *limit.amount.value;
  } else {
    for (const auto& written : ingredient.amounts) {
      if (!written.value) continue;
      // The alternates of the line say the same of the whole batch.
      const auto part = eaten.value->over(
          most(ingredient.amounts.front()).each ? Ratio(1) : *most(ingredient.amounts.front()).value);
      auto one = most(written);
      if (&written == &ingredient.amounts.front())
        one = eaten;
      else if (part && !one.each)
        one.value = one.value->times(*part);
      else
        continue;
      if (!one.value) continue;
      if (limit.amount.value->is_zero()) {
        serving.within = one.value->is_zero();
        break;
      }
      if (one.unit == limit.amount.unit) {
        serving.within = *one.value <= *limit.amount.value;
        break;
      }
      if (const auto apart = distance_between(one, limit.amount, context.recipe.measures, ingredient.name)) {
        serving.within = apart->would_be <= limit.amount.value->value() * (1 + kSlack);
        break;
      }
    }
  }
  if (!serving.within) {
    auto& note = context.at_ingredient(serving.ingredient, "limit-not-compared", ReadLevel::Note,
                                       "A serving has " + to_text(serving.amount) + " of " + ingredient.name +
                                           ", which cannot be compared with your limit of " +
                                           to_text(limit.amount) + ".");
    note.advice = "Write the ingredient, or the limit, by weight.";
    return;
  }
  if (*serving.within) return;
  auto& finding = context.at_ingredient(
      serving.ingredient, "over-limit", ReadLevel::Warning,
      "A serving has " + to_text(serving.amount) + " of " + ingredient.name + ", more than your limit of " +
          to_text(limit.amount) + (limit.note.empty() ? std::string{} : " (" + limit.note + ")") + ".");
  finding.advice =
      "Use less or make more servings. Limits are a matter for the diet's own authority and a dietitian.";
  finding.source = limit.source + (limit.checked.empty()  ? std::string{}
                                   : limit.source.empty() ? "checked on " + limit.checked
                                                          : ", checked on " + limit.checked);
}

}  // namespace

void find_limit_faults(const ReadContext& context) {
  const auto* table = context.options.limits;
  if (table == nullptr || table->limits.empty()) return;
  std::vector<std::string> foods;
  for (const auto& limit : table->limits) foods.push_back(limit.food);
  const FoodNames names(foods);
  for (auto& serving : context.reading.per_serving) {
    const auto* limit = limit_of(*table, names, context.recipe.ingredients[serving.ingredient]);
    if (limit == nullptr) continue;
    compare_with(context, serving, *limit);
    if (limit->checked_on && context.options.today - *limit->checked_on > kStale) {
      auto& note = context.at_ingredient(
          serving.ingredient, "limit-stale", ReadLevel::Note,
          "Your limit for " + limit->food + " was last checked on " + limit->checked + ".");
      note.advice = "Look it up again.";
      note.source = limit->source;
    }
  }
}

}  // namespace panslate
