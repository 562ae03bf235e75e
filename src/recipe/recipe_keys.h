#pragma once

#include "panslate/recipe/recipe.h"

namespace panslate {

/// Gives every ingredient and step its lasting key. A key is made of the kind, the folded words of the line
/// and a count where the same words come again: it outlasts moving a line, inserting others, and changes of
/// case, accents, spaces and punctuation. Numbers are left out, and units of an ingredient, so that
/// correcting an amount does not lose what was decided for the line. Of an ingredient the food and its
/// preparation count, of a step all its words.
void set_keys(Recipe& recipe);

}  // namespace panslate
