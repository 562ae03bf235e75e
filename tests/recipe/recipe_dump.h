#pragma once

#include <string>
#include <vector>

#include "panslate/recipe/recipe.h"

/// Readings as text, for tables of cases.
namespace panslate {

inline std::string dump(const Amount& amount) {
  std::string out;
  if (amount.about) out += "about ";
  if (amount.size == SpoonSize::Heaped) out += "heaped ";
  if (amount.size == SpoonSize::Level) out += "level ";
  if (amount.size == SpoonSize::Scant) out += "scant ";
  out += amount.value ? amount.value->to_string() : "-";
  if (amount.to) out += ".." + amount.to->to_string();
  out += " " + (amount.unit == Unit::Other ? amount.noun : std::string(spelling_of(amount.unit)));
  if (amount.each)
    out += " of " + amount.each->value.to_string() + " " + std::string(spelling_of(amount.each->unit));
  if (amount.fan) out += " fan";
  return out;
}

inline std::string dump(const std::vector<Amount>& amounts) {
  std::vector<std::string> parts;
  for (const auto& amount : amounts) parts.push_back(dump(amount));
  return join(parts, "; ");
}

struct LineDump {
  std::string fields;  ///< all but the preparation
  std::string preparation;
};

inline LineDump dump(const Ingredient& ingredient) {
  std::string out = "name: " + ingredient.name + "\n";
  if (ingredient.foods.size() > 1) out += "foods: " + join(ingredient.foods, " + ") + "\n";
  if (!ingredient.or_foods.empty()) out += "or: " + join(ingredient.or_foods, " + ") + "\n";
  if (!ingredient.amounts.empty()) out += "amounts: " + dump(ingredient.amounts) + "\n";
  std::vector<std::string> flags;
  if (ingredient.optional) flags.push_back("optional");
  if (ingredient.to_taste) flags.push_back("to taste");
  if (!flags.empty()) out += "flags: " + join(flags, ", ") + "\n";
  return {out, ingredient.preparation};
}

}  // namespace panslate
