#include "panslate/recipe/flow.h"

#include "recipe/flow_parts.h"
#include "recipe/step_words.h"

namespace panslate {

Flow flow_of(const Recipe& recipe) {
  const auto words = words_of_method(recipe);
  return flow_of({recipe, words});
}

Flow flow_of(const MethodView& method) {
  Flow flow;
  flow.steps.resize(method.recipe.steps.size());
  find_flow_uses(method, flow);
  flow.used_in.resize(method.recipe.ingredients.size());
  for (std::size_t s = 0; s < flow.steps.size(); ++s)
    for (const auto& use : flow.steps[s].uses) flow.used_in[use.ingredient].push_back(s);
  find_waits(method, flow);
  find_results(method, flow);
  find_unlisted_foods(method, flow);
  return flow;
}

}  // namespace panslate
