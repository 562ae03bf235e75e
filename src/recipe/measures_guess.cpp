#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>

#include "panslate/base/text.h"
#include "panslate/kitchen/token.h"
#include "panslate/recipe/recipe.h"

namespace panslate {

namespace {

struct PairSize {
  Unit unit;
  int low, high;  // millilitres of one
  Measures measures;
};

// What a written pair tells: "1 cup (240 ml)". 240 ml is the US labelling cup (21 CFR 101.9); 250 ml metric
// and Australian; 20 ml the Australian tablespoon; 284 ml half an imperial pint. 15 ml tells nothing apart.
constexpr std::array kPairs = {
    PairSize{Unit::Tablespoon, 19, 21, Measures::Au}, PairSize{Unit::Cup, 235, 241, Measures::Us},
    PairSize{Unit::Cup, 248, 252, Measures::Metric},  PairSize{Unit::Cup, 280, 286, Measures::Uk},
    PairSize{Unit::Pint, 560, 575, Measures::Uk},     PairSize{Unit::Pint, 465, 482, Measures::Us},
    PairSize{Unit::Quart, 930, 955, Measures::Us},    PairSize{Unit::Quart, 1120, 1145, Measures::Uk},
};

std::optional<double> millilitres(const Amount& amount) {
  if (!amount.value) return std::nullopt;
  if (amount.unit == Unit::Milliliter) return amount.value->value();
  if (amount.unit == Unit::Liter) return amount.value->value() * 1000;
  return std::nullopt;
}

std::string place_of(int line) {
  return line > 0 ? " on line " + std::to_string(line) : std::string{};
}

struct Votes {
  std::map<Measures, int> count;
  std::map<Measures, std::string> reason;  // the first word that spoke for it
  void add(Measures measures, int weight, const std::string& why) {
    count[measures] += weight;
    reason.try_emplace(measures, why);
  }
};

bool guess_by_pairs(Recipe& recipe) {
  Votes votes;
  for (const auto& ingredient : recipe.ingredients) {
    for (const auto& spoon : ingredient.amounts) {
      for (const auto& metric : ingredient.amounts) {
        const auto ml = millilitres(metric);
        if (!ml || !spoon.value || spoon.value->is_zero()) continue;
        const double one = *ml / spoon.value->value();
        for (const auto& pair : kPairs)
          if (pair.unit == spoon.unit && one >= pair.low && one <= pair.high)
            votes.add(pair.measures, 1,
                      to_text(spoon) + " (" + to_text(metric) + ")" + place_of(ingredient.line));
      }
    }
  }
  if (votes.count.empty()) return false;
  // An Australian spoon decides over a metric cup: the cups of both are alike.
  auto best = std::max_element(votes.count.begin(), votes.count.end(), [](const auto& a, const auto& b) {
                return a.second < b.second;
              })->first;
  if (votes.count.count(Measures::Au) > 0 && best == Measures::Metric) best = Measures::Au;
  recipe.measures = best;
  recipe.measures_reason = votes.reason[best];
  return true;
}

struct Vocabulary {
  Measures measures;
  int weight;
};

// Words by which kitchens differ: common practice, no source.
const std::unordered_map<std::string_view, Vocabulary>& vocabulary() {
  using enum Measures;
  static const std::unordered_map<std::string_view, Vocabulary> words = {
      {"all-purpose", {Us, 3}}, {"cilantro", {Us, 3}},      {"scallion", {Us, 3}},    {"scallions", {Us, 3}},
      {"zucchini", {Us, 1}},    {"eggplant", {Us, 1}},      {"arugula", {Us, 3}},     {"kosher", {Us, 3}},
      {"cornstarch", {Us, 2}},  {"confectioners", {Us, 3}}, {"broil", {Us, 3}},       {"skillet", {Us, 2}},
      {"yogurt", {Us, 1}},      {"fahrenheit", {Us, 2}},    {"quart", {Us, 2}},       {"quarts", {Us, 2}},
      {"stick", {Us, 1}},       {"garbanzo", {Us, 3}},      {"rutabaga", {Us, 3}},    {"heavy", {Us, 1}},
      {"molasses", {Us, 1}},    {"inch", {Us, 1}},          {"inches", {Us, 1}},      {"flavor", {Us, 2}},
      {"color", {Us, 2}},       {"gray", {Us, 1}},          {"broth", {Us, 1}},       {"shrimp", {Us, 1}},
      {"ground", {Us, 0}},      {"gas", {Uk, 3}},           {"aubergine", {Uk, 3}},   {"courgette", {Uk, 3}},
      {"courgettes", {Uk, 3}},  {"swede", {Uk, 3}},         {"caster", {Uk, 2}},      {"cornflour", {Uk, 2}},
      {"rocket", {Uk, 2}},      {"mince", {Uk, 1}},         {"colour", {Uk, 1}},      {"flavour", {Uk, 1}},
      {"sultanas", {Uk, 1}},    {"fan", {Uk, 2}},           {"hob", {Uk, 3}},         {"grill", {Uk, 1}},
      {"tin", {Uk, 1}},         {"tins", {Uk, 1}},          {"clingfilm", {Uk, 3}},   {"yoghurt", {Uk, 1}},
      {"prawns", {Uk, 1}},      {"treacle", {Uk, 2}},       {"bicarbonate", {Uk, 1}}, {"demerara", {Uk, 2}},
      {"capsicum", {Au, 4}},    {"witlof", {Au, 4}},        {"chook", {Au, 4}},       {"thermomix", {Au, 0}},
      {"kumara", {Au, 3}},      {"bok", {Au, 0}},           {"silverbeet", {Au, 4}},  {"rockmelon", {Au, 4}},
      {"continental", {Au, 1}}, {"eschalots", {Au, 4}},
  };
  return words;
}

std::string lower_measures_name(Measures measures) {
  switch (measures) {
    case Measures::Us:
      return "American";
    case Measures::Metric:
      return "metric";
    case Measures::Au:
      return "Australian";
    case Measures::Uk:
      return "British";
  }
  return {};
}

void vote_words(std::string_view text, int line, Votes& votes) {
  const auto tokens = tokenize(text);
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    std::string word = tokens[i].text;
    if (word == "all" && i + 2 < tokens.size() && tokens[i + 2].text == "purpose") word = "all-purpose";
    if (word == "all" && i + 1 < tokens.size() && tokens[i + 1].text == "purpose") word = "all-purpose";
    const auto found = vocabulary().find(word);
    if (found == vocabulary().end() || found->second.weight == 0) continue;
    votes.add(found->second.measures, found->second.weight, "\"" + word + "\"" + place_of(line));
  }
}

void vote_units(const Recipe& recipe, Votes& votes) {
  for (const auto& ingredient : recipe.ingredients) {
    if (ingredient.amounts.empty()) continue;
    const auto unit = ingredient.amounts.front().unit;
    if (unit == Unit::Gram || unit == Unit::Milliliter || unit == Unit::Kilogram || unit == Unit::Liter)
      votes.add(Measures::Metric, 1, to_text(ingredient.amounts.front()) + place_of(ingredient.line));
    if (unit == Unit::Ounce || unit == Unit::Pound)
      votes.add(Measures::Us, 1, to_text(ingredient.amounts.front()) + place_of(ingredient.line));
    if (unit == Unit::Cup && ingredient.amounts.size() == 1)
      votes.add(Measures::Us, 1, "cups without grams" + place_of(ingredient.line));
  }
  for (const auto& step : recipe.steps) {
    for (const auto& temperature : step.temperatures) {
      const bool alone = temperature.also.empty();
      if (temperature.amount.unit == Unit::Fahrenheit)
        votes.add(Measures::Us, alone ? 4 : 2, to_text(temperature.amount) + place_of(step.line));
      if (temperature.amount.unit == Unit::GasMark)
        votes.add(Measures::Uk, 3, to_text(temperature.amount) + place_of(step.line));
    }
  }
}

}  // namespace

void guess_measures(Recipe& recipe) {
  recipe.measures_guessed = true;
  if (guess_by_pairs(recipe)) return;
  Votes votes;
  vote_units(recipe, votes);
  for (const auto& ingredient : recipe.ingredients) vote_words(ingredient.text, ingredient.line, votes);
  for (const auto& step : recipe.steps) vote_words(step.text, step.line, votes);
  recipe.measures = Measures::Metric;
  recipe.measures_reason = "nothing in the recipe tells whose cups and spoons; metric ones are taken";
  int most = 0;
  for (const auto& [measures, count] : votes.count) {
    if (count <= most) continue;
    most = count;
    recipe.measures = measures;
    recipe.measures_reason =
        "it reads like " + lower_measures_name(measures) + " measures: " + votes.reason[measures];
  }
}

}  // namespace panslate
