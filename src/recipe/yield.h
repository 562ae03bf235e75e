#pragma once

#include <string_view>
#include <vector>

#include "panslate/recipe/recipe.h"

/// How much a recipe makes, in any common wording.
namespace panslate {

/// Every yield that a line tells: "Serves 4–6", "Servings: 5", "Makes about 24 pasties", "Yield: 12 muffins",
/// "For 4 people", "4 portions". Lines of a method are not meant to be asked.
[[nodiscard]] std::vector<RecipeYield> yields_in(std::string_view text, int line);

/// True for a line that opens with a yield: it is no ingredient and no group.
[[nodiscard]] bool is_yield_line(std::string_view text);

/// Adds `found` to `yields`, each thing once however often it is written.
void add_yields(std::vector<RecipeYield> found, std::vector<RecipeYield>& yields);

/// A line that tells a time or a yield beside the recipe ("Prep: 20 minutes"): the time, if it does.
[[nodiscard]] std::vector<StatedTime> stated_times_in(std::string_view text, int line);

}  // namespace panslate
