#include <algorithm>
#include <limits>
#include <set>
#include <string>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "recipe/actions.h"
#include "recipe/findings.h"
#include "recipe/flow_parts.h"
#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// "the chopped onion" where neither the list nor an earlier step has it chopped.
void hidden_actions(const ReadContext& context) {
  const auto& recipe = context.recipe;
  std::set<std::string_view> done;  // verbs that the method has told to do
  for (std::size_t s = 0; s < context.words.size(); ++s) {
    const auto& words = context.words[s];
    for (std::size_t at = 0; at < words.size(); ++at) {
      const auto action = words.actions[at];
      if (action.kind != ActionKind::None && !action.is_past) done.insert(action.verb);
    }
    for (const auto& food : words.foods) {
      if (food.ingredients.size() != 1 || food.begin == 0) continue;
      const auto before = words.word(food.begin - 1);
      const auto action = action_of(before);
      if (!action.is_past ||
          !is_one_of(action.verb, {"chop",  "slice", "dice", "grate", "mince", "crush",  "peel",
                                   "melt",  "toast", "soak", "beat",  "shred", "mash",   "sift",
                                   "drain", "grind", "core", "zest",  "halve", "quarter"}))
        continue;
      const auto& ingredient = recipe.ingredients[food.ingredients.front()];
      const auto line = fold_accents(ingredient.text);
      if (line.find(action.verb.substr(0, 4)) != std::string::npos || done.contains(action.verb)) continue;
      auto& note = context.in_step(s, words.tokens[food.begin - 1].begin, "hidden-action", ReadLevel::Note,
                                   "Step " + std::to_string(recipe.steps[s].number) + " takes the " +
                                       ingredient.name + " " + std::string(before) +
                                       ", which neither the list nor an earlier step says.");
      note.advice = "Write it in the list (\"" + ingredient.name + ", " + std::string(before) + "\").";
    }
  }
}

// "600 ml boiling water": measured, and in no line. Foods are told as unlisted.
void unlisted_amounts(const ReadContext& context) {
  const auto& recipe = context.recipe;
  for (const auto& step : recipe.steps)
    for (const auto& amount : step.amounts) {
      const auto dimension = dimension_of(amount.amount.unit);
      if (amount.is_share || !amount.amount.value ||
          (dimension != Dimension::Mass && dimension != Dimension::Volume))
        continue;
      const auto food = fold_accents(amount.food);
      const bool water = food.find("water") != std::string::npos;
      const bool salt = food.find("salt") != std::string::npos;
      if (!water && !salt) continue;
      const std::string_view wanted = water ? "water" : "salt";
      if (std::any_of(recipe.ingredients.begin(), recipe.ingredients.end(), [&](const Ingredient& i) {
            return fold_accents(i.text).find(wanted) != std::string::npos;
          }))
        continue;
      auto& note = context.at_line(
          amount.line > 0 ? amount.line : step.line, "unlisted-amount", ReadLevel::Note,
          "The method takes " + to_text(amount.amount) + " of " + amount.food + ", which no line lists.");
      note.column = note.line > 0 ? amount.column : 0;
      note.advice = "List it, so that it is measured out with the rest.";
    }
}

void order_of_use(const ReadContext& context) {
  const auto& recipe = context.recipe;
  constexpr std::size_t kLeast = 6;
  if (recipe.ingredients.size() < kLeast) return;
  std::size_t pairs = 0;
  std::size_t turned = 0;
  std::size_t worst = 0;
  std::size_t worst_count = 0;
  std::vector<std::size_t> first;
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto used = context.flow().used_in[i];
    first.push_back(used.empty() ? std::numeric_limits<std::size_t>::max() : used.front());
  }
  for (std::size_t a = 0; a < first.size(); ++a) {
    std::size_t here = 0;
    for (std::size_t b = 0; b < first.size(); ++b) {
      const auto none = std::numeric_limits<std::size_t>::max();
      if (a == b || first[a] == first[b] || first[a] == none || first[b] == none ||
          recipe.ingredients[a].group != recipe.ingredients[b].group)
        continue;
      if (a < b) ++pairs;
      if ((a < b) != (first[a] < first[b])) {
        ++here;
        if (a < b) ++turned;
      }
    }
    if (here > worst_count) worst = a, worst_count = here;
  }
  constexpr double kMuch = 0.4;
  if (pairs < kLeast || static_cast<double>(turned) < kMuch * static_cast<double>(pairs)) return;
  auto& note =
      context.at_ingredient(worst, "order-of-use", ReadLevel::Note,
                            "The ingredients stand in another order than the method uses them; the " +
                                recipe.ingredients[worst].name + " is farthest off.");
  note.advice = "List them in the order they are used.";
}

// Amounts that a reader elsewhere cannot measure.
void units_abroad(const ReadContext& context) {
  const auto& recipe = context.recipe;
  std::set<std::string_view> told;
  const auto once = [&](std::size_t i, std::string_view what, std::string message, std::string advice) {
    if (!told.insert(what).second) return;
    auto& note = context.at_ingredient(i, "hard-to-follow-unit", ReadLevel::Note, std::move(message));
    note.advice = std::move(advice);
  };
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto& amounts = recipe.ingredients[i].amounts;
    if (amounts.size() != 1) continue;
    const auto unit = amounts.front().unit;
    if (unit == Unit::Cup)
      once(i, "cup",
           "Cups are not the same everywhere (US 237 ml, metric 250 ml), and many kitchens have none.",
           "Add grams or millilitres beside them.");
    if (unit == Unit::Stick && recipe.ingredients[i].name.find("butter") != std::string::npos)
      once(i, "stick", "A stick of butter is known in North America only.", "Add its weight: 113 g.");
    if (unit == Unit::Ounce || unit == Unit::Pound)
      once(i, "ounce", "Ounces and pounds stand without grams.", "Add grams beside them.");
    const bool packed = unit == Unit::Can || unit == Unit::Packet || unit == Unit::Jar;
    if (packed && !amounts.front().each)
      once(i, "package", "Packages differ from country to country: " + recipe.ingredients[i].text + ".",
           "Add what it holds, in grams.");
  }
  for (const auto& step : recipe.steps)
    for (const auto& temperature : step.temperatures) {
      if (!temperature.also.empty() || temperature.amount.unit == Unit::Celsius) continue;
      if (!told.insert("oven").second) continue;
      auto& note = context.at_line(temperature.line > 0 ? temperature.line : step.line, "hard-to-follow-unit",
                                   ReadLevel::Note, "The oven is given as " + temperature.text + " only.");
      note.column = note.line > 0 ? temperature.column : 0;
      note.advice = "Add °C beside it.";
    }
}

void pan_sizes(const ReadContext& context) {
  for (const auto& ingredient : context.recipe.ingredients)
    if (fold_accents(ingredient.text).find(" cm") != std::string::npos) return;
  std::size_t step = context.words.size();
  std::size_t token = 0;
  for (std::size_t s = 0; s < context.words.size(); ++s) {
    const auto& words = context.words[s];
    for (std::size_t at = 0; at < words.size(); ++at) {
      if (words.is(at, {"cm", "inch", "inches", "litre", "liter", "quart", "hole", "lb"}) ||
          words.tokens[at].raw == "\"")
        return;
      const bool tin =
          (words.is(at, {"tin", "tins"}) ||
           (words.is(at, {"pan", "dish", "mould"}) && at > 0 &&
            words.is(at - 1, {"cake", "loaf", "baking", "springform", "pie", "tart", "bread"}))) &&
          !(at > 0 && words.is(at - 1, {"muffin", "roasting", "bun", "the", "of"}));
      if (tin && step == context.words.size()) step = s, token = at;
    }
  }
  if (step == context.words.size()) return;
  const auto& words = context.words[step];
  auto& note = context.in_step(step, words.tokens[token].begin, "pan-without-size", ReadLevel::Note,
                               "The " + words.text(token, token + 1) + " has no size.");
  note.advice = "Give its size in cm and inches: the time depends on it.";
}

void missing_cues(const ReadContext& context) {
  for (std::size_t s = 0; s < context.recipe.steps.size(); ++s) {
    const auto& step = context.recipe.steps[s];
    for (const auto& cue : step.cues) {
      const auto folded = fold_accents(cue);
      if (!is_one_of(folded,
                     {"until done", "until ready", "until cooked", "until it is done", "until they are done",
                      "until it's done", "until finished", "until cooked through"}))
        continue;
      const auto at = step.text.find(cue);
      auto& note = context.in_step(s, at == std::string::npos ? 0 : at, "cue-missing", ReadLevel::Note,
                                   "\"" + cue + "\" does not tell how to see that it is done.");
      note.advice = "Say how it looks, feels, smells or sounds.";
    }
  }
}

}  // namespace

void find_wording_notes(const ReadContext& context) {
  hidden_actions(context);
  unlisted_amounts(context);
  order_of_use(context);
  units_abroad(context);
  pan_sizes(context);
  missing_cues(context);
}

}  // namespace panslate
