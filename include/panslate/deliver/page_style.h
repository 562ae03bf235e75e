#pragma once

#include <string_view>

namespace panslate {

/// The style sheet that all pages of panslate begin with: colours, letters, light and dark, paper.
[[nodiscard]] std::string_view page_style();

}  // namespace panslate
