#include "check/requirements.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <set>
#include <string>
#include <utility>

#include "panslate/base/lasting_key.h"
#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

namespace panslate {

namespace {

class Collector {
 public:
  Requirement& add(RequirementKind kind, int line, std::string text, std::size_t index) {
    Requirement r;
    r.kind = kind;
    r.ordinal = ++ordinals_[static_cast<std::size_t>(kind)];
    r.line = line;
    r.text = std::move(text);
    r.index = index;
    found_.push_back(std::move(r));
    return found_.back();
  }

  // Keys last as long as the text: the same text twice is told apart by its count.
  void set_key(Requirement& r, const std::string& context) {
    const auto kind = spelling_of(r.kind);
    auto key = lasting_key({kind, context, fold_case(r.text)});
    for (int count = 2; !keys_.insert(key).second; ++count)
      key = lasting_key({kind, context, fold_case(r.text), std::to_string(count)});
    r.key = key;
  }

  [[nodiscard]] std::vector<Requirement> take() { return std::move(found_); }

 private:
  std::vector<Requirement> found_;
  std::array<int, 7> ordinals_{};
  std::set<std::string> keys_;
};

std::string last_stem(const std::string& name) {
  std::string last;
  for (const auto& token : tokenize(name))
    if (token.kind == TokenKind::Word) last = stem(token.text);
  return last;
}

// True when an ingredient line already gives an amount for this food of the method.
bool has_ingredient_amount(const Recipe& recipe, const std::string& food) {
  if (last_stem(food).empty()) return true;  // an amount of nothing nameable cannot be asked for
  std::set<std::string> words;
  for (const auto& token : tokenize(food))
    if (token.kind == TokenKind::Word) words.insert(stem(token.text));
  const auto names = [&](const Ingredient& ingredient) {
    return std::any_of(ingredient.foods.begin(), ingredient.foods.end(), [&](const auto& name) {
      if (words.contains(last_stem(name))) return true;
      const auto synonyms = synonyms_of(name);
      return std::any_of(synonyms.begin(), synonyms.end(),
                         [&](const auto synonym) { return words.contains(last_stem(std::string(synonym))); });
    });
  };
  return std::any_of(recipe.ingredients.begin(), recipe.ingredients.end(),
                     [&](const Ingredient& i) { return !i.amounts.empty() && names(i); });
}

// "600 ml" of "boiling water", as it stands in the method.
std::string amount_with_food(const MethodAmount& amount) {
  return amount.text.find(amount.food) == std::string::npos ? amount.text + " " + amount.food : amount.text;
}

void add_yields(const Recipe& recipe, Collector& out) {
  for (std::size_t i = 0; i < recipe.yields.size(); ++i) {
    const auto& yield = recipe.yields[i];
    auto& r = out.add(RequirementKind::Yield, yield.line, yield.text, i);
    r.amounts = {yield.amount};
    r.name = yield.amount.unit == Unit::Serving ? "servings" : yield.amount.noun;
    r.optional = true;
    out.set_key(r, "");
  }
}

void add_ingredients(const Recipe& recipe, Collector& out) {
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto& ingredient = recipe.ingredients[i];
    auto& r = out.add(RequirementKind::Ingredient, ingredient.line, ingredient.text, i);
    r.name = ingredient.name;
    r.optional = ingredient.optional;
    r.amounts = ingredient.amounts;
    r.key = ingredient.key;
  }
}

void add_step(const Recipe& recipe, std::size_t index, Collector& out) {
  const auto& step = recipe.steps[index];
  auto& whole = out.add(RequirementKind::Step, step.line, step.text, index);
  whole.key = step.key;
  for (const auto& amount : step.amounts) {
    if (amount.is_share || !amount.amount.value || has_ingredient_amount(recipe, amount.food)) continue;
    auto& r = out.add(RequirementKind::MethodAmount, step.line, amount_with_food(amount), index);
    r.name = amount.food;
    r.amounts = {amount.amount};
    r.amounts.insert(r.amounts.end(), amount.also.begin(), amount.also.end());
    out.set_key(r, step.key);
  }
  for (const auto& temperature : step.temperatures) {
    auto& r = out.add(RequirementKind::Temperature, step.line, temperature.text, index);
    r.name = temperature.action;
    r.amounts = {temperature.amount};
    r.amounts.insert(r.amounts.end(), temperature.also.begin(), temperature.also.end());
    out.set_key(r, step.key);
  }
  for (const auto& time : step.times) {
    auto& r = out.add(RequirementKind::Time, step.line, time.text, index);
    r.name = time.action;
    r.amounts = {time.amount};
    out.set_key(r, step.key);
  }
  for (const auto& cue : step.cues) {
    auto& r = out.add(RequirementKind::Cue, step.line, cue, index);
    r.optional = true;
    out.set_key(r, step.key);
  }
}

}  // namespace

std::vector<Requirement> requirements_of(const Recipe& recipe) {
  Collector out;
  add_yields(recipe, out);
  add_ingredients(recipe, out);
  for (std::size_t i = 0; i < recipe.steps.size(); ++i) add_step(recipe, i, out);
  auto found = out.take();
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.line < b.line; });
  return found;
}

}  // namespace panslate
