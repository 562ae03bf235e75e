#include "panslate/recipe/scaling.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "recipe/word_list.h"

namespace panslate {

namespace {

// Fractions of a spoon or a cup that there are measures for: common practice, no source.
const std::array<Ratio, 8> kSpoonParts{*Ratio::make(0, 1), *Ratio::make(1, 8), *Ratio::make(1, 4),
                                       *Ratio::make(1, 3), *Ratio::make(1, 2), *Ratio::make(2, 3),
                                       *Ratio::make(3, 4), *Ratio::make(1, 1)};

Ratio nearest_part(const Ratio& value) {
  const auto whole = value.num() / value.den();
  const double rest = value.value() - static_cast<double>(whole);
  const auto best =
      std::min_element(kSpoonParts.begin(), kSpoonParts.end(), [&](const Ratio& a, const Ratio& b) {
        return std::abs(a.value() - rest) < std::abs(b.value() - rest);
      });
  const auto sum = Ratio(whole).plus(*best).value_or(value);
  return sum.is_zero() ? kSpoonParts[1] : sum;
}

Ratio rounded_to(const Ratio& value, std::int64_t step) {
  const auto steps = std::llround(value.value() / static_cast<double>(step));
  return Ratio(std::max<std::int64_t>(steps, 1) * step);
}

// Scales show grams, jugs 5 ml.
Ratio sensible_metric(const Ratio& value) {
  if (value.value() < 1) return value;
  if (value.value() < 20) return rounded_to(value, 1);
  return rounded_to(value, value.value() < 1000 ? 5 : 10);
}

Ratio nearest_half(const Ratio& value) {
  return Ratio::make(std::max<std::int64_t>(std::llround(value.value() * 2), 1), 2).value_or(value);
}

Ratio sensible_value(const Ratio& value, Unit unit) {
  switch (unit) {
    case Unit::Gram:
    case Unit::Milliliter:
      return sensible_metric(value);
    case Unit::Kilogram:
    case Unit::Liter:
      return Ratio::make(std::max<std::int64_t>(std::llround(value.value() * 100), 1), 100).value_or(value);
    case Unit::Teaspoon:
    case Unit::Tablespoon:
    case Unit::Cup:
    case Unit::Pint:
    case Unit::Quart:
    case Unit::Ounce:
    case Unit::Pound:
    case Unit::FluidOunce:
      return nearest_part(value);
    default:
      return nearest_half(value);
  }
}

// Spoons pass into the next measure where that is whole or a usual part of it: 6 tsp are 2 tbsp.
void pass_over(Amount& amount, Measures measures) {
  const auto spoon = size_of(Unit::Tablespoon, measures)->size.over(size_of(Unit::Teaspoon, measures)->size);
  const auto exact = [&](Unit unit, const Ratio& value) {
    const double rest = value.value() - std::floor(value.value());
    if (value < Ratio(1) && unit != Unit::Cup) return false;
    return std::any_of(kSpoonParts.begin(), kSpoonParts.end(),
                       [&](const Ratio& part) { return std::abs(part.value() - rest) < 1e-9; });
  };
  const auto pass = [&](Unit from, Unit to, const std::optional<Ratio>& how_many, std::int64_t least) {
    if (amount.unit != from || !how_many || *amount.value < Ratio(least)) return;
    const auto value = amount.value->over(*how_many);
    const auto most = amount.to ? amount.to->over(*how_many) : std::nullopt;
    if (!value || !exact(to, *value) || (amount.to && !most)) return;
    amount.value = value;
    amount.to = most;
    amount.unit = to;
  };
  pass(Unit::Teaspoon, Unit::Tablespoon, spoon, 3);
  if (measures == Measures::Us)
    pass(Unit::Tablespoon, Unit::Cup,
         size_of(Unit::Cup, measures)->size.over(size_of(Unit::Tablespoon, measures)->size), 4);
  pass(Unit::Gram, Unit::Kilogram, Ratio(1000), 1000);
  pass(Unit::Milliliter, Unit::Liter, Ratio(1000), 1000);
}

bool is_egg(const Ingredient& ingredient) {
  const auto tokens = tokenize(ingredient.name);
  return std::any_of(tokens.begin(), tokens.end(), [](const Token& token) {
    return is_one_of(token.text, {"egg", "eggs"});
  });
}

bool is_container(Unit unit) {
  return is_one_of(spelling_of(unit), {"can", "jar", "packet"});
}

ScaledLine scaled_line(const Ingredient& ingredient, std::size_t index, const Ratio& factor,
                       Measures measures) {
  ScaledLine line;
  line.ingredient = index;
  line.exact = ingredient.amounts.front();
  line.exact.value = ingredient.amounts.front().value->times(factor);
  if (line.exact.to) line.exact.to = line.exact.to->times(factor);
  if (!line.exact.value || (ingredient.amounts.front().to && !line.exact.to)) {
    line.exact = ingredient.amounts.front();
    line.sensible = line.exact;
    line.remark = "too large to write";
    return line;
  }
  line.sensible = line.exact;
  const auto dimension = dimension_of(line.exact.unit);
  if (dimension == Dimension::Little) {
    line.sensible = ingredient.amounts.front();
    line.remark = "to taste";
    return line;
  }
  if (is_egg(ingredient) && dimension == Dimension::Count && !line.exact.value->is_whole()) {
    const auto up = line.exact.value->num() / line.exact.value->den() + 1;
    Amount exact = line.exact;
    exact.to.reset();
    line.sensible.value = Ratio(std::max<std::int64_t>(std::llround(line.exact.value->value()), 1));
    line.sensible.to.reset();
    line.remark = "exactly " + to_text(exact) + ": beat " + std::to_string(up) + " and take " +
                  std::to_string(std::llround(line.exact.value->value() / static_cast<double>(up) * 100)) +
                  " % of them by weight, or use " + to_text(line.sensible);
    return line;
  }
  line.sensible.value = sensible_value(*line.exact.value, line.exact.unit);
  if (line.exact.to) line.sensible.to = sensible_value(*line.exact.to, line.exact.unit);
  pass_over(line.sensible, measures);
  if (is_container(line.exact.unit) && !line.exact.value->is_whole()) {
    line.sensible = line.exact;
    line.remark = "part of a package";
    if (line.exact.each)
      if (const auto contents = line.exact.value->times(line.exact.each->value)) {
        Amount inside;
        inside.value = sensible_value(*contents, line.exact.each->unit);
        inside.unit = line.exact.each->unit;
        line.remark += ": " + to_text(inside) + " of it";
      }
  }
  return line;
}

// "a 23 cm tin": the tin that is as deep in food.
void pan_remarks(const Recipe& recipe, const Ratio& factor, std::vector<std::string>& remarks) {
  for (const auto& step : recipe.steps) {
    const auto tokens = tokenize(step.text);
    for (std::size_t at = 0; at + 2 < tokens.size(); ++at) {
      if (tokens[at].kind != TokenKind::Number) continue;
      auto unit = at + 1;
      if (tokens[unit].text == "-") ++unit;
      if (unit >= tokens.size() || !is_one_of(tokens[unit].text, {"cm", "inch", "in"})) continue;
      for (auto i = unit + 1; i < tokens.size() && i < unit + 5; ++i) {
        if (!is_one_of(tokens[i].text, {"tin", "pan", "dish", "tray", "mould", "skillet", "ring"})) continue;
        const auto across = tokens[at].value.value() * std::sqrt(factor.value());
        remarks.push_back("A " + tokens[at].raw + " " + tokens[unit].raw + " " + tokens[i].text +
                          " becomes one of about " + std::to_string(std::llround(across)) + " " +
                          tokens[unit].raw + ", so that the food stands as high in it.");
        return;
      }
    }
  }
}

}  // namespace

std::optional<Ratio> servings_of(const Recipe& recipe) {
  for (const auto& yield : recipe.yields)
    if (yield.kind == RecipeYield::Kind::Serves && yield.amount.value) return yield.amount.value;
  return std::nullopt;
}

std::optional<ScaledRecipe> scale(const Recipe& recipe, const Ratio& serves) {
  const auto from = servings_of(recipe);
  if (!from || !(Ratio(0) < *from)) return std::nullopt;
  const auto factor = serves.over(*from);
  constexpr int kMost = 100;
  if (!factor || *factor < *Ratio::make(1, kMost) || Ratio(kMost) < *factor) return std::nullopt;
  ScaledRecipe scaled{*from, serves, *factor, {}, {}};
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto& ingredient = recipe.ingredients[i];
    if (ingredient.amounts.empty() || !ingredient.amounts.front().value) continue;
    scaled.lines.push_back(scaled_line(ingredient, i, *factor, recipe.measures));
  }
  scaled.remarks.emplace_back(
      "Times and the oven's heat are not scaled: look for the signs in the method, earlier in a smaller "
      "batch "
      "and later in a larger one.");
  pan_remarks(recipe, *factor, scaled.remarks);
  return scaled;
}

}  // namespace panslate
