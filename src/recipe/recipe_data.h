#pragma once

#include <filesystem>

#include <nlohmann/json_fwd.hpp>

#include "panslate/recipe/recipe.h"

namespace panslate {

/// The Recipe (https://schema.org/Recipe) found in a value: itself, in an array, in `@graph`, or as the
/// subject of a page. Of several the first that lists ingredients; one without any when there is no other;
/// null when there is none.
[[nodiscard]] const nlohmann::json* find_recipe_data(const nlohmann::json& value);

[[nodiscard]] bool lists_ingredients(const nlohmann::json& recipe_data);

/// What a schema.org Recipe tells, with all lines 0. No ingredients: it lists none.
[[nodiscard]] Recipe read_recipe_data(const nlohmann::json& recipe_data, const std::filesystem::path& file);

}  // namespace panslate
