#include "panslate/recipe/scaling.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "panslate/kitchen/food.h"

#include "recipe/pan_size.h"
#include "recipe/scaled_text.h"
#include "recipe/step_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// Fractions of a spoon or a cup that there are measures for: common practice, no source.
const std::array<Ratio, 9> kSpoonParts{*Ratio::make(0, 1), *Ratio::make(1, 8), *Ratio::make(1, 4),
                                       *Ratio::make(1, 3), *Ratio::make(1, 2), *Ratio::make(2, 3),
                                       *Ratio::make(3, 4), *Ratio::make(7, 8), *Ratio::make(1, 1)};

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

Ratio nearest_half(const Ratio& value) {
  return Ratio::make(std::max<std::int64_t>(std::llround(value.value() * 2), 1), 2).value_or(value);
}

// Scales show grams, those for yeast and gelatine half grams; jugs 5 ml.
Ratio sensible_metric(const Ratio& value) {
  if (value.value() < 1) return value;
  if (value.value() < 10) return nearest_half(value);
  if (value.value() < 20) return rounded_to(value, 1);
  return rounded_to(value, value.value() < 1000 ? 5 : 10);
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
  return kinds_of_name(ingredient.name).test(static_cast<std::size_t>(FoodKind::Egg));
}

// Both ends of it; empty beyond what can be written.
std::optional<Amount> times(Amount amount, const Ratio& factor) {
  const bool range = amount.to.has_value();
  if (amount.value) amount.value = amount.value->times(factor);
  if (range) amount.to = amount.to->times(factor);
  if (!amount.value || (range && !amount.to)) return std::nullopt;
  return amount;
}

Amount sensible_amount(Amount amount, Measures measures) {
  if (amount.value) amount.value = sensible_value(*amount.value, amount.unit);
  if (amount.to) amount.to = sensible_value(*amount.to, amount.unit);
  if (amount.value && amount.to && *amount.value == *amount.to) amount.to.reset();
  pass_over(amount, measures);
  return amount;
}

Ratio whole_number(const Ratio& value) {
  return Ratio(std::max<std::int64_t>(std::llround(value.value()), 1));
}

// Rounded so far that a cook should know.
bool is_far(const Ratio& exact, const Ratio& rounded) {
  constexpr double kFar = 0.05;
  return std::abs(rounded.value() - exact.value()) > kFar * exact.value();
}

bool is_container(Unit unit) {
  return is_one_of(spelling_of(unit), {"can", "jar", "packet"});
}

// "2¼ eggs": how to take a part of one.
void scale_eggs(ScaledLine& line) {
  Amount exact = line.exact;
  line.sensible.value = whole_number(*line.exact.value);
  if (line.exact.to) {
    line.sensible.to = whole_number(*line.exact.to);
    if (*line.sensible.to == *line.sensible.value) line.sensible.to.reset();
    line.remark = "exactly " + to_text(exact);
    return;
  }
  const auto up = line.exact.value->num() / line.exact.value->den() + 1;
  line.remark = "exactly " + to_text(exact) + ": beat " + std::to_string(up) + " and take " +
                std::to_string(std::llround(line.exact.value->value() / static_cast<double>(up) * 100)) +
                " % of them by weight, or use " + to_text(line.sensible);
}

void scale_package(ScaledLine& line) {
  line.sensible = line.exact;
  line.remark = "part of a package";
  if (!line.exact.each) return;
  const auto contents = line.exact.value->times(line.exact.each->value);
  if (!contents) return;
  Amount inside;
  inside.value = sensible_value(*contents, line.exact.each->unit);
  inside.unit = line.exact.each->unit;
  line.remark += ": " + to_text(inside) + " of it";
}

ScaledLine scaled_line(const Ingredient& ingredient, std::size_t index, const Ratio& factor,
                       Measures measures) {
  ScaledLine line;
  line.ingredient = index;
  const auto& written = ingredient.amounts.front();
  const auto exact = times(written, factor);
  line.exact = exact.value_or(written);
  line.sensible = line.exact;
  if (!exact) {
    line.remark = "too large to write";
    return line;
  }
  const auto dimension = dimension_of(line.exact.unit);
  if (dimension == Dimension::Little) {
    line.sensible = written;
    line.remark = "to taste";
    return line;
  }
  const bool whole = line.exact.value->is_whole() && (!line.exact.to || line.exact.to->is_whole());
  if (is_egg(ingredient) && dimension == Dimension::Count && !whole) {
    scale_eggs(line);
    return line;
  }
  if (is_container(line.exact.unit) && !line.exact.value->is_whole()) {
    scale_package(line);
    return line;
  }
  line.sensible = sensible_amount(line.exact, measures);
  const bool far = is_far(*line.exact.value, sensible_value(*line.exact.value, line.exact.unit)) ||
                   (line.exact.to && is_far(*line.exact.to, sensible_value(*line.exact.to, line.exact.unit)));
  if (far) line.remark = "exactly " + to_text(line.exact);
  return line;
}

// Amounts that stand in the method hold for the batch as written.
std::string method_remark(const Recipe& recipe, const Ratio& factor) {
  constexpr std::size_t kMost = 3;
  std::string list;
  std::size_t count = 0;
  for (const auto& step : recipe.steps)
    for (const auto& one : step.amounts) {
      const auto dimension = dimension_of(one.amount.unit);
      const bool measured = dimension == Dimension::Mass || dimension == Dimension::Volume;
      if (one.is_share || !one.amount.value || !measured) continue;
      if (++count > kMost) continue;
      list += (list.empty() ? "" : ", ") + to_text(one.amount) + (one.food.empty() ? "" : " " + one.food);
    }
  if (list.empty()) return {};
  Amount times;
  times.value = factor;
  return "Amounts in the method are as written, take them times " + to_text(times) + ": " + list +
         (count > kMost ? " and others." : ".");
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
    if (ingredient.amounts.empty() || !ingredient.amounts.front().value) {
      scaled.lines.push_back({i, {}, {}, {}, ingredient.text});
      continue;
    }
    auto line = scaled_line(ingredient, i, *factor, recipe.measures);
    line.text = scaled_text(ingredient, line.sensible, [&](const Amount& amount) {
      auto one = times(amount, *factor);
      return one ? sensible_amount(*one, recipe.measures) : amount;
    });
    if (line.text.empty())
      line.text = to_text(line.sensible) + " " + ingredient.name +
                  (ingredient.preparation.empty() ? std::string{} : ", " + ingredient.preparation);
    scaled.lines.push_back(std::move(line));
  }
  scaled.remarks.emplace_back(
      "Times and the oven's heat are not scaled: look for the signs in the method, earlier in a smaller "
      "batch "
      "and later in a larger one.");
  for (auto remark : {pan_remark(recipe, *factor), method_remark(recipe, *factor)})
    if (!remark.empty()) scaled.remarks.push_back(std::move(remark));
  return scaled;
}

}  // namespace panslate
