#pragma once

#include <string>

#include "panslate/recipe/reading.h"

#include "app/terminal.h"

namespace panslate::app {

/// The read-through for a terminal: what to put right and to look at with their lines, then allergens, the
/// recipe for other servings, and notes; the last line sums up.
[[nodiscard]] std::string read_terminal_text(const RecipeReading& reading, const Recipe& recipe,
                                             const Terminal& terminal);

}  // namespace panslate::app
