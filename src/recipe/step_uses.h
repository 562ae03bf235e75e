#pragma once

#include "panslate/recipe/recipe.h"

namespace panslate {

/// Finds which ingredients each step names: by name, synonym or head noun ("the chicken" for chicken thighs),
/// by "all the ingredients", "everything else", or by the name of their group. A head noun that several lines
/// share means the lines of the step's own part first.
void find_uses(Recipe& recipe);

}  // namespace panslate
