#pragma once

#include <optional>
#include <string>
#include <vector>

#include "panslate/kitchen/token.h"
#include "panslate/kitchen/unit.h"

/// The food of an ingredient line once its amount is gone: its name, what was done to it, what may stand for
/// it.
namespace panslate {

struct LineFoods {
  std::string name;
  std::vector<std::string> foods;
  std::vector<std::string> or_foods;
  std::vector<std::string> preparation;  ///< words taken off the name, in order
  std::optional<Unit> unit;              ///< told after the food: "garlic cloves"
};

/// What the amount before the name says of how to read it.
enum class CountedAs {
  Nothing,  ///< measured, or no amount
  Pieces,   ///< a bare count: "2 garlic cloves"
  Package,  ///< a tin or jar: "chopped tomatoes" is what it is called
};

/// Reads tokens [begin, end): no brackets, no commas but those of a list ("red, green or brown lentils").
[[nodiscard]] LineFoods read_food_names(const std::vector<Token>& tokens, std::size_t begin, std::size_t end,
                                        CountedAs counted);

/// A known food, perhaps described, begins at `begin`: "egg", "large ripe mango"; not "little salt".
[[nodiscard]] bool names_food_at(const std::vector<Token>& tokens, std::size_t begin, std::size_t end);

/// True when tokens [begin, end) hold only words that are taken off a name ("boneless", "bone-in", "red"), so
/// that the food is still to come after the comma.
[[nodiscard]] bool food_still_to_come(const std::vector<Token>& tokens, std::size_t begin, std::size_t end);

}  // namespace panslate
