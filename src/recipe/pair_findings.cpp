#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "panslate/base/text.h"
#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/density.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/gas_mark.h"

#include "recipe/findings.h"

namespace panslate {

namespace {

// An ounce is printed as 25 to 30 g, a cup as 225 to 250 ml: common practice, no source.
constexpr double kUsualRounding = 0.125;
// Flour is dipped, spooned or sifted: 113 to 142 g a cup (GNU units), so no density is held to less than 15 %
// nor to more than 30 %.
constexpr double kLeastThroughDensity = 0.15, kMostThroughDensity = 0.30;
// 175 °C, 180 °C and 350 °F are one setting; beyond a row's window and this, two numbers are two settings.
constexpr double kOvenCelsius = 8.5;
constexpr std::array kAllMeasures = {Measures::Us, Measures::Metric, Measures::Au, Measures::Uk};

std::string figure(double value) {
  Amount amount;
  amount.unit = Unit::Gram;
  const auto thousandths = value >= 20 ? std::llround(value) * 1000 : std::llround(value * 100) * 10;
  amount.value = Ratio::make(thousandths, 1000);
  auto text = to_text(amount);
  return text.substr(0, text.find(' '));
}

// The name under which the table of densities knows the food: its own, else another name of the same food.
std::string weighed_name(const Ingredient& ingredient) {
  auto prepared =
      ingredient.preparation.empty() ? std::string{} : ingredient.preparation + " " + ingredient.name;
  if (!prepared.empty() && density_of(prepared)) return prepared;
  if (density_of(ingredient.name)) return ingredient.name;
  if (const auto* food = find_food(ingredient.name); food != nullptr) {
    if (density_of(food->name)) return std::string(food->name);
    for (const auto other : food->other_names)
      if (density_of(other)) return std::string(other);
  }
  return ingredient.name;
}

bool is_drained(const Ingredient& ingredient) {
  const auto text = fold_accents(ingredient.text);
  return text.find("drain") != std::string::npos || text.find("net") != std::string::npos;
}

bool is_spoon(const Amount& amount) {
  const auto unit = amount.each ? amount.each->unit : amount.unit;
  return unit == Unit::Teaspoon || unit == Unit::Tablespoon;
}

double tolerated(const AmountDistance& apart, const Amount& first, const Amount& second) {
  // A spoon of something dry is heaped or level, and its grams are rounded to a few.
  constexpr double kSpoons = 0.35;
  if (is_spoon(first) || is_spoon(second)) return kSpoons;
  if (apart.density_source.empty()) return kUsualRounding;
  return std::clamp(2 * apart.tolerance_percent / 100.0, kLeastThroughDensity, kMostThroughDensity);
}

void ingredient_pair(const ReadContext& context, std::size_t i, const Amount& first, const Amount& second) {
  const auto& ingredient = context.recipe.ingredients[i];
  const auto food = weighed_name(ingredient);
  const auto here = distance_between(first, second, context.recipe.measures, food);
  if (!here || is_drained(ingredient)) return;
  if (here->off <= tolerated(*here, first, second)) {
    const double own = here->tolerance_percent / 100.0;
    if (!here->density_source.empty() && here->off > std::max(own, 0.05)) {
      auto& note = context.at_ingredient(i, "pair-loose", ReadLevel::Note,
                                         to_text(first) + " of " + ingredient.name + " is about " +
                                             figure(here->would_be) + " " +
                                             std::string(label_of(second.unit, here->would_be > 1)) +
                                             ", a little off " + to_text(second) + ".");
      note.source = here->density_source;
    }
    return;
  }
  // Right with another country's cups and spoons is not wrong.
  for (const auto measures : kAllMeasures)
    if (const auto other = distance_between(first, second, measures, food);
        other && other->off <= tolerated(*other, first, second))
      return;
  const auto unit = second.each ? second.each->unit : second.unit;
  auto message = to_text(first) + " and " + to_text(second) + " of " + ingredient.name +
                 " are not the same: the first is about " + figure(here->would_be) + " " +
                 std::string(label_of(unit, here->would_be > 1));
  if (!here->density_source.empty()) message += ", at " + figure(here->grams_per_ml) + " g a millilitre";
  auto& finding = context.at_ingredient(i, "pair-disagrees", ReadLevel::Error, message + ".");
  finding.advice = "Put right the one that is wrong.";
  finding.source = here->density_source;
}

double celsius_of(const Amount& amount) {
  const double value = amount.value->value();
  return amount.unit == Unit::Fahrenheit ? (value - 32) * 5 / 9 : value;
}

// The setting without the fan.
double conventional(const Amount& amount) {
  constexpr double kFan = 20;
  return celsius_of(amount) + (amount.fan ? kFan : 0);
}

bool same_setting(const Amount& a, const Amount& b) {
  if (!a.value || !b.value) return true;
  if (a.unit == Unit::GasMark && b.unit == Unit::GasMark) return a.value == b.value;
  if (a.unit == Unit::GasMark || b.unit == Unit::GasMark) {
    const auto& gas = a.unit == Unit::GasMark ? a : b;
    const auto& other = a.unit == Unit::GasMark ? b : a;
    const auto low = gas_mark(*gas.value);
    const auto high = gas_mark(gas.to.value_or(*gas.value));
    if (!low || !high) return true;
    constexpr double kBeside = 5;  // what tables differ by
    const auto value = conventional(other);
    const double fan = other.fan ? kBeside : 0;
    return low->celsius_least.value() - kBeside - fan <= value &&
           value <= high->celsius_most.value() + kBeside + fan;
  }
  if (a.fan != b.fan) {
    const auto& fan = a.fan ? a : b;
    const auto& plain = a.fan ? b : a;
    // "160 °C fan (320 °F)": the fan's own setting in the other scale.
    if (a.unit != b.unit && std::abs(celsius_of(a) - celsius_of(b)) <= kOvenCelsius) return true;
    const double lower = celsius_of(plain) - celsius_of(fan);
    constexpr double kLeast = 5, kMost = 30;  // 10 to 25 °C less, rounded
    return kLeast <= lower && lower <= kMost;
  }
  const bool one_scale = a.unit == b.unit;
  return std::abs(celsius_of(a) - celsius_of(b)) <= (one_scale ? 15.0 : kOvenCelsius);
}

void temperature_pairs(const ReadContext& context, std::size_t s) {
  const auto& step = context.recipe.steps[s];
  for (const auto& temperature : step.temperatures) {
    for (const auto& other : temperature.also) {
      if (same_setting(temperature.amount, other)) continue;
      std::string would_be;
      if (other.unit == Unit::GasMark) {
        if (const auto row = gas_mark(*other.value))
          would_be = to_text(other) + " is " + figure(row->celsius.value()) + " °C, " +
                     figure(row->fahrenheit.value()) + " °F";
      } else if (other.unit != temperature.amount.unit && temperature.amount.unit != Unit::GasMark) {
        const auto celsius = celsius_of(temperature.amount);
        would_be =
            to_text(temperature.amount) + " is about " +
            (other.unit == Unit::Fahrenheit ? figure(celsius * 9 / 5 + 32) + " °F" : figure(celsius) + " °C");
      }
      auto& finding = context.at_line(
          temperature.line > 0 ? temperature.line : step.line, "pair-disagrees", ReadLevel::Error,
          to_text(temperature.amount) + " and " + to_text(other) + " are not the same setting" +
              (would_be.empty() ? std::string{} : ": " + would_be) + ".");
      finding.column = finding.line > 0 ? temperature.column : 0;
      finding.advice = "Put right the one that is wrong.";
      finding.source = other.unit == Unit::GasMark ? "gas marks: 25 °F a mark, mark 1 = 275 °F (GNU units)"
                       : temperature.amount.fan != other.fan
                           ? "a fan oven is set 10 to 20 °C lower: common practice, no source"
                           : "°F = °C × 9/5 + 32";
      break;
    }
  }
}

}  // namespace

void find_pair_faults(const ReadContext& context) {
  const auto& recipe = context.recipe;
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto& amounts = recipe.ingredients[i].amounts;
    for (std::size_t k = 1; k < amounts.size(); ++k) ingredient_pair(context, i, amounts.front(), amounts[k]);
  }
  for (std::size_t s = 0; s < recipe.steps.size(); ++s) temperature_pairs(context, s);
}

}  // namespace panslate
