#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "panslate/recipe/reading.h"

/// The smallest recipe that shows a thing, and what is found in it.
namespace panslate {

inline std::string recipe_of(const std::string& list, const std::string& method,
                             const std::string& head = "Serves 4") {
  return "# Dish\n\n" + head + "\n\n## Ingredients\n\n" + list + "\n## Method\n\n" + method;
}

inline RecipeReading read(const std::string& text, const ReadOptions& options = {}) {
  const auto recipe = read_recipe(text, "dish.md");
  EXPECT_TRUE(recipe) << text;
  return recipe ? read_through(*recipe, options) : RecipeReading{};
}

/// A finding of this code, of any level.
inline bool has(const RecipeReading& reading, std::string_view code) {
  return std::any_of(reading.findings.begin(), reading.findings.end(),
                     [&](const ReadFinding& finding) { return finding.code == code; });
}

}  // namespace panslate
