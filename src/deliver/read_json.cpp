#include "panslate/deliver/read_json.h"

#include <algorithm>

#include "deliver/amount_json.h"
#include "deliver/recipe_json.h"

namespace panslate {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kReadingVersion = 1;

Json text_or_null(const std::string& text) {
  return text.empty() ? Json() : Json(text);
}

Json number_or_null(int number) {
  return number > 0 ? Json(number) : Json();
}

std::string id_of(std::size_t ingredient) {
  return "ingredient:" + std::to_string(ingredient + 1);
}

Json ingredients_json(const RecipeReading& reading, const Recipe& recipe) {
  auto list = Json::array();
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto& ingredient = recipe.ingredients[i];
    Json json;
    json["id"] = id_of(i);
    json["line"] = number_or_null(ingredient.line);
    json["text"] = ingredient.text;
    json["group"] = text_or_null(ingredient.group);
    json["name"] = ingredient.name;
    json["foods"] = ingredient.foods;
    json["preparation"] = text_or_null(ingredient.preparation);
    json["optional"] = ingredient.optional;
    json["amounts"] = amounts_json(ingredient.amounts);
    json["used_in"] = Json::array();
    for (const auto step : reading.flow.used_in[i]) json["used_in"].push_back(recipe.steps[step].number);
    list.push_back(std::move(json));
  }
  return list;
}

Json step_json(const RecipeReading& reading, const Recipe& recipe, std::size_t s) {
  const auto& step = recipe.steps[s];
  Json json;
  json["number"] = step.number;
  json["line"] = number_or_null(step.line);
  json["text"] = step.text;
  json["part"] = text_or_null(step.part);
  json["uses"] = Json::array();
  for (const auto& use : reading.flow.steps[s].uses) json["uses"].push_back(id_of(use.ingredient));
  json["after"] = Json::array();
  for (const auto before : reading.flow.steps[s].after) json["after"].push_back(recipe.steps[before].number);
  json["times"] = Json::array();
  for (std::size_t t = 0; t < step.times.size(); ++t) {
    const auto& time = step.times[t];
    auto one = amount_json(time.amount);
    one["hands_on"] = static_cast<bool>(reading.flow.steps[s].hands_on[t]);
    one["line"] = number_or_null(time.line);
    one["column"] = time.column;
    one["action"] = text_or_null(time.action);
    json["times"].push_back(std::move(one));
  }
  json["temperatures"] = Json::array();
  for (const auto& temperature : step.temperatures) {
    auto one = amount_json(temperature.amount);
    one["line"] = number_or_null(temperature.line);
    one["column"] = temperature.column;
    one["also"] = amounts_json(temperature.also);
    json["temperatures"].push_back(std::move(one));
  }
  json["cues"] = step.cues;
  return json;
}

Json finding_json(const ReadFinding& finding) {
  Json json;
  json["code"] = finding.code;
  json["level"] = spelling_of(finding.level);
  json["line"] = number_or_null(finding.line);
  json["column"] = number_or_null(finding.column);
  json["message"] = finding.message;
  json["advice"] = text_or_null(finding.advice);
  json["source"] = text_or_null(finding.source);
  return json;
}

Json allergen_json(const AllergenFinding& found, const RecipeReading& reading, const Recipe& recipe) {
  Json json;
  json["allergen"] = found.id;
  json["lists"] = found.lists;
  json["lines"] = Json::array();
  json["certain"] = !found.certain.empty() || !found.in_method.empty();
  json["ingredients"] = Json::array();
  json["check_label"] = Json::array();
  std::vector<int> lines;
  const auto add = [&](const std::vector<std::size_t>& ingredients, const char* key) {
    for (const auto i : ingredients) {
      if (recipe.ingredients[i].line > 0) lines.push_back(recipe.ingredients[i].line);
      json[key].push_back(id_of(i));
    }
  };
  add(found.certain, "ingredients");
  add(found.check_label, "check_label");
  for (const auto* foods : {&found.in_method, &found.in_method_by_label})
    for (const auto m : *foods) {
      const auto& food = reading.flow.mentioned[m];
      if (const auto place = place_in(recipe.steps[food.step], food.offset); place.line > 0)
        lines.push_back(place.line);
    }
  std::sort(lines.begin(), lines.end());
  json["lines"] = lines;
  return json;
}

Json serving_json(const PerServing& serving, const Recipe& recipe) {
  Json json;
  json["line"] = number_or_null(recipe.ingredients[serving.ingredient].line);
  json["ingredient"] = id_of(serving.ingredient);
  json["name"] = recipe.ingredients[serving.ingredient].name;
  json["amount"] = amount_json(serving.amount);
  json["limit"] = amount_or_null(serving.limit);
  json["within"] = serving.within ? Json(*serving.within) : Json();
  json["checked"] = text_or_null(serving.checked);
  return json;
}

Json scaled_json(const ScaledRecipe& scaled, const Recipe& recipe) {
  Json json;
  json["from"] = scaled.from.value();
  json["to"] = scaled.to.value();
  json["factor"] = scaled.factor.to_string();
  json["ingredients"] = Json::array();
  for (const auto& line : scaled.lines) {
    Json one;
    one["id"] = id_of(line.ingredient);
    one["line"] = number_or_null(recipe.ingredients[line.ingredient].line);
    one["name"] = recipe.ingredients[line.ingredient].name;
    one["exact"] = line.exact.value ? amount_json(line.exact) : Json();
    one["amount"] = line.exact.value ? amount_json(line.sensible) : Json();
    one["text"] = line.text;
    one["remark"] = text_or_null(line.remark);
    json["ingredients"].push_back(std::move(one));
  }
  json["remarks"] = scaled.remarks;
  return json;
}

}  // namespace

std::string read_json(const RecipeReading& reading, const Recipe& recipe) {
  Json json;
  json["panslate_reading"] = kReadingVersion;
  json["recipe"] = recipe_json(recipe);
  json["ingredients"] = ingredients_json(reading, recipe);
  json["steps"] = Json::array();
  for (std::size_t s = 0; s < recipe.steps.size(); ++s)
    json["steps"].push_back(step_json(reading, recipe, s));
  json["findings"] = Json::array();
  for (const auto& finding : reading.findings) json["findings"].push_back(finding_json(finding));
  json["allergens"] = Json::array();
  for (const auto& found : reading.allergens)
    json["allergens"].push_back(allergen_json(found, reading, recipe));
  json["per_serving"] = Json::array();
  for (const auto& serving : reading.per_serving)
    json["per_serving"].push_back(serving_json(serving, recipe));
  json["scaled"] = reading.scaled ? scaled_json(*reading.scaled, recipe) : Json();
  return report_text(json);
}

}  // namespace panslate
