#pragma once

#include <string>
#include <string_view>

#include "panslate/recipe/reading.h"

namespace panslate {

/// One page that opens in any browser and prints: the recipe as she wrote it, and beside each line what was
/// found there. `source` is the text of the recipe's file; where its lines are not those of the recipe (a web
/// page, JSON-LD) the recipe is set anew.
[[nodiscard]] std::string read_page(const RecipeReading& reading, const Recipe& recipe,
                                    std::string_view source);

}  // namespace panslate
