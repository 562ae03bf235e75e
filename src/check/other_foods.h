#pragma once

#include <span>

#include "panslate/kitchen/food_names.h"
#include "panslate/speech/pronunciation.h"

namespace panslate {

/// How near the nearest food of the table comes that the recipe does not list; 1 when none is within `limit`.
/// The table is made to sound when it is first asked for.
[[nodiscard]] double nearest_other_food(std::span<const Sound> said, const FoodNames& listed, double limit);

}  // namespace panslate
