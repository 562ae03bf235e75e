#include "panslate/deliver/read_words.h"

#include <algorithm>

#include "panslate/kitchen/food_traits.h"

namespace panslate {

namespace {

std::string count_of(std::ptrdiff_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::string foods(const Recipe& recipe, const std::vector<std::size_t>& ingredients) {
  std::string text;
  for (const auto i : ingredients) {
    if (!text.empty()) text += ", ";
    text += recipe.ingredients[i].name;
    for (const auto& other : recipe.ingredients[i].or_foods)
      text += " or " + other;  // any of them may hold it
    if (recipe.ingredients[i].line > 0) text += " (line " + std::to_string(recipe.ingredients[i].line) + ")";
  }
  return text;
}

}  // namespace

std::string_view level_words(ReadLevel level) {
  switch (level) {
    case ReadLevel::Error:
      return "put right";
    case ReadLevel::Warning:
      return "look at";
    case ReadLevel::Note:
      return "note";
  }
  return "note";
}

std::string reading_summary(const RecipeReading& reading) {
  const auto count = [&](ReadLevel level) {
    return std::count_if(reading.findings.begin(), reading.findings.end(),
                         [&](const ReadFinding& finding) { return finding.level == level; });
  };
  const auto errors = count(ReadLevel::Error);
  const auto warnings = count(ReadLevel::Warning);
  const auto notes = count(ReadLevel::Note);
  std::string text;
  if (errors > 0) text = count_of(errors, "thing", "things") + " to put right";
  if (warnings > 0) {
    text += text.empty() ? count_of(warnings, "thing", "things") : ", " + std::to_string(warnings);
    text += " to look at";
  }
  if (text.empty()) text = "Nothing to put right";
  if (notes > 0) text += "; " + count_of(notes, "note", "notes");
  return text + ".";
}

std::vector<AllergenWords> allergen_words(const RecipeReading& reading, const Recipe& recipe) {
  std::vector<AllergenWords> all;
  for (const auto& found : reading.allergens) {
    AllergenWords words;
    for (const auto& allergen : all_allergens())
      if (allergen.id == found.id) words.name = std::string(allergen.name);
    for (const auto& list : found.lists) words.lists += (words.lists.empty() ? "" : " and ") + list;
    words.holds = foods(recipe, found.certain);
    words.labels = foods(recipe, found.check_label);
    const auto add = [&](std::string& text, const std::vector<std::size_t>& mentioned) {
      for (const auto m : mentioned) {
        const auto& food = reading.flow.mentioned[m];
        text += (text.empty() ? "" : ", ") + food.name + " (step " +
                std::to_string(recipe.steps[food.step].number) + ")";
      }
    };
    add(words.holds, found.in_method);
    add(words.labels, found.in_method_by_label);
    all.push_back(std::move(words));
  }
  return all;
}

std::vector<ScaledWords> scaled_words(const RecipeReading& reading, const Recipe& recipe) {
  std::vector<ScaledWords> all;
  if (!reading.scaled) return all;
  for (const auto& line : reading.scaled->lines) {
    const auto& ingredient = recipe.ingredients[line.ingredient];
    ScaledWords words;
    words.line = line.text;
    words.before = ingredient.text;
    words.remark = line.remark;
    all.push_back(std::move(words));
  }
  return all;
}

std::string_view reading_caution() {
  return "panslate knows words, not what is in your packets: allergens and diets are decided by labels, food "
         "safety by the rules where you live, and both by medical advice where health depends on it.";
}

}  // namespace panslate
