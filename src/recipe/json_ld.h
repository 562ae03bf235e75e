#pragma once

#include <filesystem>
#include <string_view>

#include "panslate/recipe/recipe.h"

/// schema.org `Recipe` as JSON-LD (https://schema.org/Recipe), standing alone.
namespace panslate {

/// True when the text is JSON.
[[nodiscard]] bool is_json_text(std::string_view text);

/// Reads the Recipe in it: alone, in an array, in `@graph`, or nested as the subject of a page. Lines are 0.
/// Fails (Malformed) when it cannot be read, there is no Recipe, or it lists no ingredient.
[[nodiscard]] Result<Recipe> read_json_ld(std::string_view text, const std::filesystem::path& file);

}  // namespace panslate
