// Any bytes: a recipe is read, or refused with a place; what is read holds together.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "panslate/base/text.h"
#include "panslate/recipe/recipe.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto text = panslate::to_utf8({reinterpret_cast<const char*>(data), size});
  const auto recipe = panslate::read_recipe(text, "recipe.md");
  if (!recipe) {
    require(recipe.error().code == panslate::ErrorCode::Malformed && recipe.error().place.has_value());
    return 0;
  }
  require(!recipe->ingredients.empty());
  for (const auto& ingredient : recipe->ingredients) {
    require(!ingredient.name.empty() && !ingredient.foods.empty() && !ingredient.key.empty());
    require(ingredient.line >= 0);
    for (const auto& amount : ingredient.amounts)
      require(!amount.to || (amount.value && *amount.value <= *amount.to));
  }
  int number = 0;
  for (const auto& step : recipe->steps) {
    require(step.number == ++number && !step.text.empty() && !step.key.empty());
    for (const auto use : step.uses) require(use < recipe->ingredients.size());
    for (const auto& time : step.times) require(time.column > 0 && time.line >= 0);
    for (const auto& temperature : step.temperatures) require(temperature.column > 0);
  }
  return 0;
}
