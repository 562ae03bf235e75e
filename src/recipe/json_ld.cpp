#include "recipe/json_ld.h"

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"

#include "recipe/json_text.h"
#include "recipe/recipe_data.h"

namespace panslate {

bool is_json_text(std::string_view text) {
  const auto bare = trim(text);
  if (bare.empty() || bare.front() == '{') return !bare.empty();
  const auto inner = bare.front() == '[' ? trim(bare.substr(1)) : std::string_view{};
  return !inner.empty() && (inner.front() == '{' || inner.front() == '[');
}

Result<Recipe> read_json_ld(std::string_view text, const std::filesystem::path& file) {
  const auto value = read_json_as_found(text);
  const auto* found = value ? find_recipe_data(*value) : nullptr;
  if (found == nullptr)
    return fail(ErrorCode::Malformed, "no recipe is to be found in the data", Place{file, 0, 0},
                "panslate reads a schema.org Recipe; the recipe can be given as plain text instead");
  auto recipe = read_recipe_data(*found, file);
  if (recipe.ingredients.empty())
    return fail(
        ErrorCode::Malformed, "the recipe data lists no ingredients", Place{file, 0, 0},
        "recipe data has them under 'recipeIngredient'; the recipe can be given as plain text instead");
  return recipe;
}

}  // namespace panslate
