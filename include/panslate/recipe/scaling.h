#pragma once

#include <optional>
#include <string>
#include <vector>

#include "panslate/recipe/recipe.h"

/// A recipe for another number of people, as a cook would write it.
namespace panslate {

/// One ingredient line, scaled.
struct ScaledLine {
  std::size_t ingredient = 0;
  Amount exact;        ///< written × factor, exactly; without a value where the line has no amount
  Amount sensible;     ///< what can be measured: whole eggs, spoons and cups in fractions, whole tins
  std::string remark;  ///< where the two differ: "2¼ eggs: beat 3 and use ¾ of them"; may be empty
  std::string text;    ///< the whole line, as the cook wrote it but for the amounts
};

struct ScaledRecipe {
  Ratio from, to;  ///< servings
  Ratio factor;
  std::vector<ScaledLine> lines;     ///< all ingredients, in order
  std::vector<std::string> remarks;  ///< what does not scale: times, oven, pan, amounts in the method
};

/// Scales to `serves` servings; empty where the recipe does not say how many it serves, or the factor is
/// beyond reason (1/100 to 100).
[[nodiscard]] std::optional<ScaledRecipe> scale(const Recipe& recipe, const Ratio& serves);

/// The servings a recipe states, the lesser number of a range; empty when none is stated.
[[nodiscard]] std::optional<Ratio> servings_of(const Recipe& recipe);

}  // namespace panslate
