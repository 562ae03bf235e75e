#pragma once

#include <optional>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

namespace panslate {

/// Recipe data as pages really have it. What is no JSON as it stands is mended where the meaning is plain:
/// line ends and tabs inside strings, commas before a closing bracket, an inch mark that is not escaped, HTML
/// comments or CDATA marks around it all, a semicolon at the end. Empty when that does not help, or when it
/// nests deeper than any page does.
[[nodiscard]] std::optional<nlohmann::json> read_json_as_found(std::string_view text);

}  // namespace panslate
