#pragma once

#include <string>
#include <string_view>

#include "panslate/recipe/reading.h"

namespace panslate {

/// The read-through for programs: the recipe as understood and what is wrong in it, one JSON object with a
/// line end after it.
[[nodiscard]] std::string read_json(const RecipeReading& reading, const Recipe& recipe);

/// Stands in every reading.json that panslate wrote, and in no file of the user's.
inline constexpr std::string_view kReadingMark = "\"panslate_reading\":";

}  // namespace panslate
