#include "desk/part_entry.h"

#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/project/project_text.h"

namespace panslate {

using nlohmann::ordered_json;

std::string name_of_step(const Recipe& recipe, std::size_t index) {
  const auto& step = recipe.steps[index];
  const auto words = split(collapse_spaces(step.text), ' ');
  std::string name;
  for (std::size_t i = 0; i < words.size() && i < 8; ++i) {
    name += (i > 0 ? " " : "") + words[i];
    const auto folded = fold_accents(name);
    const auto has = [&](const Step& other) {
      return fold_accents(collapse_spaces(other.text)).find(folded) != std::string::npos;
    };
    const bool enough = i > 1 || i + 1 == words.size();
    if (enough && std::count_if(recipe.steps.begin(), recipe.steps.end(), has) == 1) return name;
  }
  return step.key;
}

std::string name_of_food(const Recipe& recipe, std::size_t index) {
  const auto& ingredient = recipe.ingredients[index];
  const auto same = std::count_if(
      recipe.ingredients.begin(), recipe.ingredients.end(),
      [&](const Ingredient& other) { return fold_accents(other.name) == fold_accents(ingredient.name); });
  return same == 1 && !ingredient.name.empty() ? ingredient.name : ingredient.key;
}

std::string line_of_json(const ordered_json& entry) {
  std::string out;
  for (const auto& [name, value] : entry.items()) {
    out += (out.empty() ? "{" : ", ") + in_json_quotes(name) + ": ";
    if (!value.is_array()) {
      out += value.dump(-1, ' ', false, ordered_json::error_handler_t::replace);
      continue;
    }
    out += "[";
    for (std::size_t i = 0; i < value.size(); ++i)
      out += (i > 0 ? ", " : "") + value[i].dump(-1, ' ', false, ordered_json::error_handler_t::replace);
    out += "]";
  }
  return out + "}";
}

std::string part_time(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Clock);
}

std::string new_part_id(const Project& project, const std::string& clip, const std::set<std::string>& taken) {
  auto all = taken;
  for (const auto& segment : project.segments) all.insert(segment.id);
  int count = 1;
  while (all.contains(clip + "-" + std::to_string(count))) ++count;
  return clip + "-" + std::to_string(count);
}

}  // namespace panslate
