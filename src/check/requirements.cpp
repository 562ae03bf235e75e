#include "check/requirements.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "panslate/base/lasting_key.h"
#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/food_names.h"
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

// "a sheet of baking paper", "two lengths of string": nothing that is eaten. Common practice, no source.
bool is_kitchen_ware(const std::string& last) {
  constexpr std::array<std::string_view, 14> kWare{"paper",  "parchment", "foil",  "film", "muslin",
                                                   "string", "cloth",     "towel", "bag",  "skewer",
                                                   "twine",  "stick",     "case",  "liner"};
  return std::any_of(kWare.begin(), kWare.end(), [&](const auto ware) { return stem(ware) == last; });
}

// "one disc of pastry", "half of the dough": made in an earlier step.
bool is_made_on_the_way(const std::string& last) {
  constexpr std::array<std::string_view, 8> kMade{"pastry",  "dough", "batter", "mixture",
                                                  "filling", "mix",   "sauce",  "crumb"};
  return std::any_of(kMade.begin(), kMade.end(), [&](const auto made) { return stem(made) == last; });
}

// True when an ingredient line already gives an amount for this food of the method. Sugars and oils that the
// table of foods tells apart are different foods; of other names the last word decides.
bool has_ingredient_amount(const Recipe& recipe, const std::string& food) {
  const auto last = last_stem(food);
  if (last.empty() || is_kitchen_ware(last) || is_made_on_the_way(last))
    return true;  // nothing that can be asked for
  std::vector<std::string> listed;
  for (const auto& ingredient : recipe.ingredients)
    if (!ingredient.amounts.empty())
      listed.insert(listed.end(), ingredient.foods.begin(), ingredient.foods.end());
  std::vector<std::string> words;
  for (const auto& token : tokenize(food)) words.push_back(token.kind == TokenKind::Word ? token.text : "");
  const auto mentions = FoodNames(listed).scan(words);
  if (std::any_of(mentions.begin(), mentions.end(), [](const auto& m) { return m.match != NameMatch::None; }))
    return true;
  if (std::any_of(mentions.begin(), mentions.end(), [](const auto& m) { return m.other_food; })) return false;
  return std::any_of(listed.begin(), listed.end(), [&](const auto& name) { return last_stem(name) == last; });
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
