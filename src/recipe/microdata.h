#pragma once

#include <optional>

#include <nlohmann/json_fwd.hpp>

#include "recipe/html_tree.h"

namespace panslate {

/// The schema.org Recipe that a page marks in its own text, as microdata (`itemscope`, `itemprop`; HTML
/// Standard, section 5) or RDFa Lite (`typeof`, `property`; https://www.w3.org/TR/rdfa-lite/), in the form of
/// recipe data. Of several the first that lists ingredients. Empty when the page marks none.
[[nodiscard]] std::optional<nlohmann::json> read_microdata(const HtmlTree& page);

}  // namespace panslate
