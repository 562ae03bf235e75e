#include "panslate/recipe/flow.h"

#include <algorithm>

#include "recipe/flow_parts.h"
#include "recipe/step_words.h"

namespace panslate {

std::vector<std::size_t> Flow::used_in(std::size_t ingredient) const {
  std::vector<std::size_t> found;
  for (std::size_t s = 0; s < steps.size(); ++s)
    if (std::any_of(steps[s].uses.begin(), steps[s].uses.end(),
                    [&](const FlowUse& use) { return use.ingredient == ingredient; }))
      found.push_back(s);
  return found;
}

Flow flow_of(const Recipe& recipe) {
  const auto words = words_of_method(recipe);
  return flow_of({recipe, words});
}

Flow flow_of(const MethodView& method) {
  Flow flow;
  flow.steps.resize(method.recipe.steps.size());
  find_flow_uses(method, flow);
  find_waits(method, flow);
  find_results(method, flow);
  find_unlisted_foods(method, flow);
  return flow;
}

}  // namespace panslate
