#pragma once

#include <string>
#include <vector>

#include "panslate/kitchen/food_traits.h"
#include "panslate/recipe/recipe.h"

/// What a recipe says of itself: "vegan", "gluten, dairy and egg free", "suitable for coeliacs", "(GF)".
namespace panslate {

struct ClaimMade {
  const DietClaim* claim = nullptr;
  std::string words;  ///< as written
  int line = 0;
  bool in_doubt = false;  ///< perhaps only spoken of: "for a vegan supper", "or vegan"
};

/// The claims of title, tags, head and notes, each once; where one is made and spoken of, as made. What is
/// only spoken of ("for a vegan version", "use gluten-free flour", "not vegan") is left out.
[[nodiscard]] std::vector<ClaimMade> claims_made(const Recipe& recipe);

}  // namespace panslate
