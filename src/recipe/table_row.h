#pragma once

#include <string>
#include <string_view>

namespace panslate {

/// A table row "| 250 g | ricotta | drained |" as the line a cook would write: amounts first, then the food,
/// then the rest after commas. Any other text as it is.
[[nodiscard]] std::string row_as_line(std::string_view text);

}  // namespace panslate
