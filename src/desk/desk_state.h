#pragma once

#include <string>

#include "desk/decision_book.h"

namespace panslate {

/// Everything that the page shows, as JSON: the doubts in their order, what she answered, the recipe with
/// what was found for each line, the clips and their parts, what is to be said and filmed. Words are for her;
/// names are the page's own.
[[nodiscard]] std::string desk_state(const DecisionBook::Page& page);

}  // namespace panslate
