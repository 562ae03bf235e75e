#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "panslate/recipe/reading.h"

/// The read-through in a cook's words, the same in terminal and page.
namespace panslate {

/// "2 things to put right, 1 to look at": the sum in one sentence.
[[nodiscard]] std::string reading_summary(const RecipeReading& reading);

/// "error", "warning", "note" as she reads it: "put right", "look at", "note".
[[nodiscard]] std::string_view level_words(ReadLevel level);

/// One allergen with its foods: "soya: soy sauce (line 8); check the label: stock cube (line 9)".
struct AllergenWords {
  std::string name;    ///< "cereals containing gluten"
  std::string lists;   ///< "EU and US"
  std::string holds;   ///< "soy sauce (line 8)"; may be empty
  std::string labels;  ///< foods whose label decides; may be empty
};
[[nodiscard]] std::vector<AllergenWords> allergen_words(const RecipeReading& reading, const Recipe& recipe);

/// One ingredient for other servings: "3 eggs" and what to do about a part of one.
struct ScaledWords {
  std::string line;    ///< "150 g plain flour"
  std::string before;  ///< as written
  std::string remark;  ///< may be empty
};
[[nodiscard]] std::vector<ScaledWords> scaled_words(const RecipeReading& reading, const Recipe& recipe);

/// What every read-through says at its end: what it cannot tell.
[[nodiscard]] std::string_view reading_caution();

}  // namespace panslate
