#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/food_traits.h"
#include "panslate/kitchen/token.h"

#include "recipe/claims_made.h"
#include "recipe/findings.h"

namespace panslate {

namespace {

// A trait and the line it comes from. What only may stand in for another food is never certain.
struct LineTrait {
  std::size_t ingredient = 0;
  FoodTrait trait;
  std::string holder;            // "oil or butter": which of the foods holds it; empty for a line of one food
  std::string instead_of;        // the food that need not give way to it; empty where it is the first
  bool breaks_if_taken = false;  // it breaks the claim where it is the one that is taken
};

// The traits of one line, each subject once.
class LineTraits {
 public:
  LineTraits(std::size_t ingredient, const Ingredient& line) : ingredient_(ingredient) {
    // "butter or margarine": each food by itself, so that the words of one do not excuse the other.
    if (!line.or_foods.empty()) {
      std::string first;
      for (const auto& food : line.foods) {
        take(food, food, {}, food);
        first += (first.empty() ? "" : " and ") + food;
      }
      for (const auto& food : line.or_foods) take(food, food, first, food);
      take(line.name, line.text, first, {});
    } else {
      take(line.name, line.text, {}, {});
      for (const auto& food : line.foods)
        if (food != line.name) take(food, food, {}, {});
    }
  }

  void add_to(std::vector<LineTrait>& all) const {
    for (const auto& [subject, one] : best_) all.push_back(one);
  }

 private:
  void take(const std::string& name, const std::string& text, const std::string& instead_of,
            const std::string& holder) {
    for (auto trait : food_traits(name, text)) {
      LineTrait one{ingredient_, trait, holder, instead_of, trait.breaks_claim};
      if (!instead_of.empty()) one.trait.certain = false, one.trait.breaks_claim = false;
      const auto [at, is_new] = best_.try_emplace(trait.subject, one);
      if (!is_new && one.trait.certain > at->second.trait.certain) at->second = one;
    }
  }

  std::size_t ingredient_;
  std::map<std::string_view, LineTrait> best_;
};

std::vector<LineTrait> traits_of_lines(const Recipe& recipe) {
  std::vector<LineTrait> all;
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i)
    LineTraits(i, recipe.ingredients[i]).add_to(all);
  return all;
}

void list_allergens(const ReadContext& context, const std::vector<LineTrait>& traits) {
  const auto& mentioned = context.flow().mentioned;
  std::vector<std::vector<FoodTrait>> of_mentioned;
  of_mentioned.reserve(mentioned.size());
  for (const auto& food : mentioned) of_mentioned.push_back(food_traits(food.name, food.name));
  for (const auto& allergen : all_allergens()) {
    AllergenFinding found;
    found.id = std::string(allergen.id);
    bool eu = false;
    bool us = false;
    for (const auto& line : traits) {
      const auto& trait = line.trait;
      if (trait.subject != allergen.id) continue;
      (trait.certain ? found.certain : found.check_label).push_back(line.ingredient);
      eu = eu || trait.in_eu;
      us = us || trait.in_us;
    }
    for (std::size_t m = 0; m < mentioned.size(); ++m)
      for (const auto& trait : of_mentioned[m])
        if (trait.subject == allergen.id) {
          (trait.certain ? found.in_method : found.in_method_by_label).push_back(m);
          eu = eu || trait.in_eu;
          us = us || trait.in_us;
        }
    if (found.certain.empty() && found.check_label.empty() && found.in_method.empty() &&
        found.in_method_by_label.empty())
      continue;
    if (eu) found.lists.emplace_back("EU");
    if (us) found.lists.emplace_back("US");
    context.reading.allergens.push_back(std::move(found));
  }
}

bool is_against(const DietClaim& claim, std::string_view subject) {
  return std::find(claim.against.begin(), claim.against.end(), subject) != claim.against.end();
}

// "butter (line 7)"
std::string named(const Recipe& recipe, const LineTrait& one) {
  const auto& ingredient = recipe.ingredients[one.ingredient];
  const auto& name = one.holder.empty() ? ingredient.name : one.holder;
  return name + (ingredient.line > 0 ? " (" + line_name(ingredient.line) + ")" : std::string{});
}

std::string named(const Recipe& recipe, const UnlistedFood& food) {
  return food.name + " (step " + std::to_string(recipe.steps[food.step].number) + ")";
}

void join(std::string& list, const std::string& one) {
  list += (list.empty() ? "" : ", ") + one;
}

bool limits_cover_all(const ReadContext& context) {
  if (context.options.limits == nullptr || context.options.limits->limits.empty()) return false;
  const auto& servings = context.reading.per_serving;
  std::set<std::size_t> covered;
  for (const auto& serving : servings)
    if (serving.within) covered.insert(serving.ingredient);
  for (std::size_t i = 0; i < context.recipe.ingredients.size(); ++i) {
    const auto name = fold_accents(context.recipe.ingredients[i].name);
    const auto words = tokenize(name);
    const bool is_water = !words.empty() && words.back().text == "water";  // and no watermelon
    const bool counts =
        !is_water && name != "salt" && name != "pepper" && name != "salt and pepper" && name != "sea salt";
    if (counts && !covered.contains(i)) return false;
  }
  return true;
}

// What of a recipe speaks against a claim.
struct Against {
  std::string foods, optional, labels, choices, beside;  // lists for messages
  std::string keep_to;                                   // "oil, not butter": of the first choice
  std::string source;
};

// What a food of the method does to a claim. Those that are no fault of the list may be another cook's idea.
void weigh_method(const ReadContext& context, const DietClaim& claim, Against& against) {
  const auto& recipe = context.recipe;
  const auto& unlisted = context.flow().unlisted;
  for (const auto& food : context.flow().mentioned) {
    const bool is_missed =
        std::any_of(unlisted.begin(), unlisted.end(), [&](const auto& one) { return one.name == food.name; });
    bool breaks = false;
    bool by_label = false;
    for (const auto& trait : food_traits(food.name, food.name)) {
      if (!is_against(claim, trait.subject)) continue;
      (trait.breaks_claim ? breaks : by_label) = true;
      if (trait.breaks_claim && against.source.empty()) against.source = std::string(trait.source);
    }
    if (breaks)
      join(is_missed ? against.foods : against.beside, named(recipe, food));
    else if (by_label)
      join(against.labels, named(recipe, food));
  }
}

Against weigh(const ReadContext& context, const DietClaim& claim, const std::vector<LineTrait>& traits) {
  const auto& recipe = context.recipe;
  Against against;
  std::set<std::size_t> told;  // lines
  for (const bool breaking : {true, false})
    for (const auto& one : traits) {
      if (one.trait.breaks_claim != breaking || !is_against(claim, one.trait.subject)) continue;
      if (!told.insert(one.ingredient).second) continue;
      const auto name = named(recipe, one);
      if (breaking) {
        join(recipe.ingredients[one.ingredient].optional ? against.optional : against.foods, name);
        if (against.source.empty()) against.source = std::string(one.trait.source);
      } else if (one.breaks_if_taken && !one.holder.empty()) {
        join(against.choices, name);
        if (against.keep_to.empty()) against.keep_to = one.instead_of + ", not " + one.holder;
      } else {
        join(against.labels, name);
      }
    }
  weigh_method(context, claim, against);
  return against;
}

void judge(const ReadContext& context, const ClaimMade& made, const std::vector<LineTrait>& traits) {
  const auto against = weigh(context, *made.claim, traits);
  const auto tell = [&](const char* code, ReadLevel level, const std::string& message,
                        const std::string& advice, std::string_view source) {
    auto& finding = context.at_line(made.line, code, level, message);
    finding.advice = advice;
    finding.source = std::string(source);
  };
  const auto said = "\"" + made.words + "\"";
  const auto level = made.in_doubt ? ReadLevel::Note : ReadLevel::Error;
  const auto start = made.in_doubt ? "If " + said + " is meant of the dish itself: it takes "
                                   : "The recipe is said to be " + said + ", but takes ";
  if (!against.foods.empty())
    tell("claim-contradicted", level, start + against.foods + ".",
         "Take back the claim, or use another food.", against.source);
  if (!against.optional.empty())
    tell("claim-contradicted", level, start + against.optional + ", which is optional.",
         "Leave the optional " + against.optional + " out, or take back the claim.", against.source);
  if (!against.beside.empty())
    tell("claim-contradicted", ReadLevel::Note,
         "The recipe is said to be " + said + "; its method speaks of " + against.beside + ".",
         "Name a food that keeps the claim.", against.source);
  if (!against.choices.empty())
    tell("claim-needs-label", ReadLevel::Note,
         "It is " + said + " only if you use " + against.keep_to + ": " + against.choices +
             " breaks the claim.",
         "Say so, or leave the other food out.", made.claim->source);
  if (!against.labels.empty())
    tell("claim-needs-label", ReadLevel::Note,
         "Whether it is " + said + " depends on the label of " + against.labels + ".",
         "Say which product you use, and tell cooks to check the label.", made.claim->source);
}

}  // namespace

void find_claim_faults(const ReadContext& context) {
  const auto traits = traits_of_lines(context.recipe);
  list_allergens(context, traits);
  for (const auto& claimed : claims_made(context.recipe)) {
    if (!claimed.claim->against.empty()) {
      judge(context, claimed, traits);
      continue;
    }
    if (limits_cover_all(context)) continue;
    auto& finding = context.at_line(claimed.line, "claim-not-checked", ReadLevel::Note,
                                    "\"" + claimed.words + "\" is not checked: no list of foods decides it.");
    finding.advice =
        "It is a matter for the diet's own authority and a dietitian; your own limits can be compared with "
        "--limits.";
    finding.source = std::string(claimed.claim->source);
  }
}

}  // namespace panslate
