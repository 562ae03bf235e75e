#include "deliver/recipe_json.h"

#include "deliver/amount_json.h"

namespace panslate {

nlohmann::ordered_json recipe_json(const Recipe& recipe) {
  using Json = nlohmann::ordered_json;
  Json json;
  json["title"] = recipe.title;
  json["file"] = recipe.file.string();
  json["serves"] = nullptr;
  json["makes"] = Json::array();
  for (const auto& yield : recipe.yields) {
    if (yield.kind == RecipeYield::Kind::Serves) {
      if (json["serves"].is_null()) json["serves"] = amount_json(yield.amount);
    } else {
      json["makes"].push_back(amount_json(yield.amount));
    }
  }
  json["measures"] = spelling_of(recipe.measures);
  json["measures_guessed"] = recipe.measures_guessed;
  return json;
}

}  // namespace panslate
