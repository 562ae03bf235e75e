#pragma once

#include <filesystem>
#include <string_view>

#include "panslate/recipe/recipe.h"

/// schema.org `Recipe` as JSON-LD, alone or in the scripts of a web page (https://schema.org/Recipe).
namespace panslate {

/// True when the text is JSON, or a web page that carries JSON-LD.
[[nodiscard]] bool carries_json_ld(std::string_view text);

/// Reads the first Recipe found: alone, in an array, in `@graph`, or nested as the subject of a page. Broken
/// scripts beside a whole one are passed over. Lines are 0. Fails (Malformed) when there is none, or it lists
/// no ingredient.
[[nodiscard]] Result<Recipe> read_json_ld(std::string_view text, const std::filesystem::path& file);

}  // namespace panslate
