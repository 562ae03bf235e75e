#include <algorithm>
#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/food_names.h"
#include "panslate/kitchen/token.h"

#include "recipe/findings.h"
#include "recipe/step_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// A limit that nobody looked up for so long may have changed: our choice, told with its date.
constexpr auto kStale = std::chrono::days(365);
constexpr double kSlack = 1e-6;

// The words of a name that tell which food it is: "large ripe tomatoes" are tomatoes.
std::vector<std::string> telling_words(std::string_view name) {
  std::vector<std::string> words;
  for (const auto& token : tokenize(name))
    if (token.kind == TokenKind::Word && !is_descriptor(token.text)) words.push_back(name_stem(token.text));
  return words;
}

// Colours that make a variety of a food ("red onion"), unless the table has it as another food ("red
// pepper").
bool is_colour(std::string_view word) {
  return is_one_of(word, {"red", "white", "yellow", "brown", "green", "black", "purple"});
}

// A name, looked up once.
struct NamedFood {
  explicit NamedFood(std::string_view name) : row(find_food(name)), words(telling_words(name)) {}
  const Food* row = nullptr;
  std::vector<std::string> words;
};

// True for one food under two names: the same row of the table, or the same words but for colour and state.
// A name of several foods ("pepper", the spice or the vegetable) means no variety.
bool is_same_food(const NamedFood& limit, const NamedFood& food) {
  if (limit.row != nullptr && limit.row == food.row) return true;
  if (food.words.empty() || limit.words.empty()) return false;
  if (food.words == limit.words) return true;
  if (limit.row != nullptr && limit.row->kinds.count() > 1) return false;
  auto words = food.words;
  std::erase_if(words, is_colour);
  if (words != limit.words) return false;
  return food.row == nullptr ||
         (limit.row != nullptr && food.row->broader && &all_foods()[*food.row->broader] == limit.row);
}

// What a table of limits says of an ingredient.
struct LimitMatch {
  const ServingLimit* limit = nullptr;
  bool same_food = false;  // else its name only holds the limit's: "almond milk" of "milk"
};

class LimitFinder {
 public:
  explicit LimitFinder(const LimitTable& table) : table_(table), names_(foods_of(table)) {
    for (const auto& limit : table.limits) foods_.emplace_back(limit.food);
  }

  [[nodiscard]] LimitMatch of(const Ingredient& ingredient) const {
    const NamedFood food(ingredient.name);
    for (std::size_t i = 0; i < foods_.size(); ++i)
      if (is_same_food(foods_[i], food)) return {&table_.limits[i], true};
    std::vector<std::string> words;
    for (const auto& token : tokenize(ingredient.name)) words.push_back(as_name_word(token));
    LimitMatch found;
    auto best = NameMatch::Category;
    for (const auto& mention : names_.scan(words))
      for (const auto i : mention.ingredients)
        if (mention.match > best) {
          best = mention.match;
          found.limit = &table_.limits[i];
        }
    return found;
  }

 private:
  static std::vector<std::string> foods_of(const LimitTable& table) {
    std::vector<std::string> foods;
    for (const auto& limit : table.limits) foods.push_back(limit.food);
    return foods;
  }

  const LimitTable& table_;
  FoodNames names_;
  std::vector<NamedFood> foods_;
};

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

void tell_not_compared(const ReadContext& context, std::size_t ingredient, const std::string& message,
                       const std::string& advice) {
  auto& note = context.at_ingredient(ingredient, "limit-not-compared", ReadLevel::Note, message);
  note.advice = advice;
}

void compare_with(const ReadContext& context, PerServing& serving, const ServingLimit& limit) {
  const auto& ingredient = context.recipe.ingredients[serving.ingredient];
  serving.limit = limit.amount;
  serving.checked = limit.checked;
  if (const auto share = share_of_limit(context, serving, limit)) serving.within = *share <= 1 + kSlack;
  if (!serving.within) {
    tell_not_compared(context, serving.ingredient,
                      "A serving has " + to_text(serving.amount) + " of " + ingredient.name +
                          ", which cannot be compared with your limit of " + to_text(limit.amount) + ".",
                      "Write the ingredient, or the limit, by weight.");
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

void tell_stale(const ReadContext& context, std::size_t ingredient, const ServingLimit& limit) {
  if (!limit.checked_on || context.options.today - *limit.checked_on <= kStale) return;
  auto& note =
      context.at_ingredient(ingredient, "limit-stale", ReadLevel::Note,
                            "Your limit for " + limit.food + " was last checked on " + limit.checked + ".");
  note.advice = "Look it up again.";
  note.source = limit.source;
}

}  // namespace

void find_limit_faults(const ReadContext& context) {
  const auto* table = context.options.limits;
  if (table == nullptr || table->limits.empty()) return;
  const LimitFinder finder(*table);
  const auto& recipe = context.recipe;
  std::vector<PerServing*> servings(recipe.ingredients.size(), nullptr);
  for (auto& serving : context.reading.per_serving) servings[serving.ingredient] = &serving;
  const bool serves_known = servings_of(recipe).has_value();
  bool has_limited = false;
  std::map<const ServingLimit*, std::vector<const PerServing*>> by_limit;
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto [limit, same_food] = finder.of(recipe.ingredients[i]);
    if (limit == nullptr) continue;
    has_limited = true;
    if (!same_food) {
      tell_not_compared(context, i,
                        "Your limit for " + limit->food + " is not compared with " +
                            recipe.ingredients[i].name + ": it may be another food.",
                        "Give " + recipe.ingredients[i].name + " a limit of its own, if it has one.");
    } else if (servings[i] != nullptr) {
      compare_with(context, *servings[i], *limit);
      by_limit[limit].push_back(servings[i]);
      tell_stale(context, i, *limit);
    } else if (serves_known) {
      tell_not_compared(context, i,
                        "How much " + recipe.ingredients[i].name +
                            " a serving has is not written, so your limit of " + to_text(limit->amount) +
                            " is not compared.",
                        "Write its amount.");
    }
  }
  for (const auto& limit : table->limits)
    if (const auto found = by_limit.find(&limit); found != by_limit.end())
      compare_together(context, limit, found->second);
  if (has_limited && !serves_known) {
    auto& note = context.at_line(recipe.title_line, "limits-not-compared", ReadLevel::Note,
                                 "Your limits are not compared: the recipe does not say how many it serves.");
    note.advice = "Write \"Serves 4\" at the top.";
  }
}

}  // namespace panslate
