#include <algorithm>
#include <chrono>
#include <map>
#include <optional>
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

Amount most_of(const Amount& amount) {
  auto most = amount;
  most.value = amount.to.value_or(*amount.value);
  most.to.reset();
  return most;
}

// How much of the limit the serving takes (1: all of it); empty where they cannot be compared.
std::optional<double> share_of_limit(const ReadContext& context, const PerServing& serving,
                                     const ServingLimit& limit) {
  const auto& ingredient = context.recipe.ingredients[serving.ingredient];
  const auto eaten = most_of(serving.amount);
  // The other amounts of the line say the same of the whole batch.
  const auto whole = most_of(ingredient.amounts.front());
  const auto part = whole.each ? std::nullopt : eaten.value->over(*whole.value);
  for (const auto& written : ingredient.amounts) {
    if (!written.value) continue;
    auto one = most_of(written);
    if (&written == &ingredient.amounts.front())
      one = eaten;
    else if (part && !one.each)
      one.value = one.value->times(*part);
    else
      continue;
    if (!one.value) continue;
    if (limit.amount.value->is_zero()) return one.value->is_zero() ? 0.0 : 2.0;
    if (one.unit == limit.amount.unit && !one.each && !limit.amount.each)
      return one.value->value() / limit.amount.value->value();
    if (const auto apart = distance_between(one, limit.amount, context.recipe.measures, ingredient.name))
      return apart->would_be / limit.amount.value->value();
  }
  return std::nullopt;
}

std::string limit_source(const ServingLimit& limit) {
  if (limit.checked.empty()) return limit.source;
  return (limit.source.empty() ? std::string{} : limit.source + ", ") + "checked on " + limit.checked;
}

void tell_over(const ReadContext& context, std::size_t ingredient, const std::string& message,
               const ServingLimit& limit) {
  auto& finding =
      context.at_ingredient(ingredient, "over-limit", ReadLevel::Warning,
                            message + ", more than your limit of " + to_text(limit.amount) +
                                (limit.note.empty() ? std::string{} : " (" + limit.note + ")") + ".");
  finding.advice =
      "Use less or make more servings. Limits are a matter for the diet's own authority and a dietitian.";
  finding.source = limit_source(limit);
}

void compare_with(const ReadContext& context, PerServing& serving, const ServingLimit& limit) {
  const auto& ingredient = context.recipe.ingredients[serving.ingredient];
  serving.limit = limit.amount;
  serving.checked = limit.checked;
  if (const auto share = share_of_limit(context, serving, limit)) serving.within = *share <= 1 + kSlack;
  if (!serving.within) {
    auto& note = context.at_ingredient(serving.ingredient, "limit-not-compared", ReadLevel::Note,
                                       "A serving has " + to_text(serving.amount) + " of " + ingredient.name +
                                           ", which cannot be compared with your limit of " +
                                           to_text(limit.amount) + ".");
    note.advice = "Write the ingredient, or the limit, by weight.";
    return;
  }
  if (*serving.within) return;
  tell_over(context, serving.ingredient,
            "A serving has " + to_text(serving.amount) + " of " + ingredient.name, limit);
}

// The same food on several lines, each within the limit and together beyond it.
void compare_together(const ReadContext& context, const ServingLimit& limit,
                      const std::vector<const PerServing*>& servings) {
  if (servings.size() < 2) return;
  double sum = 0;
  for (const auto* serving : servings) {
    const auto share = share_of_limit(context, *serving, limit);
    if (!share || *share > 1 + kSlack) return;
    sum += *share;
  }
  if (sum > 1 + kSlack)
    tell_over(context, servings.back()->ingredient,
              "A serving has, of all lines of " + limit.food + " together", limit);
}

}  // namespace

void find_limit_faults(const ReadContext& context) {
  const auto* table = context.options.limits;
  if (table == nullptr || table->limits.empty()) return;
  std::vector<std::string> foods;
  for (const auto& limit : table->limits) foods.push_back(limit.food);
  const FoodNames names(foods);
  std::map<const ServingLimit*, std::vector<const PerServing*>> by_limit;
  for (auto& serving : context.reading.per_serving) {
    const auto* limit = limit_of(*table, names, context.recipe.ingredients[serving.ingredient]);
    if (limit == nullptr) continue;
    compare_with(context, serving, *limit);
    by_limit[limit].push_back(&serving);
    if (limit->checked_on && context.options.today - *limit->checked_on > kStale) {
      auto& note = context.at_ingredient(
          serving.ingredient, "limit-stale", ReadLevel::Note,
          "Your limit for " + limit->food + " was last checked on " + limit->checked + ".");
      note.advice = "Look it up again.";
      note.source = limit->source;
    }
  }
  for (const auto& limit : table->limits)
    if (const auto found = by_limit.find(&limit); found != by_limit.end())
      compare_together(context, limit, found->second);
}

}  // namespace panslate
