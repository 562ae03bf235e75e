#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace panslate {

/// Other names of the food that an ingredient line gives in brackets: "preserved radish (chai poh)",
/// "coriander (cilantro)". A known food, or a few words that are no English; what is done to the food
/// ("(rinsed)") and amounts are none.
[[nodiscard]] std::vector<std::string> bracketed_names(std::string_view line);

}  // namespace panslate
