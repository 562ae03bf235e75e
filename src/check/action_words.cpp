#include "check/action_words.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "panslate/kitchen/food.h"

namespace panslate {

namespace {

// Words that people use for one kind of doing. A word may stand in several rows. Common practice, no source.
const std::vector<std::vector<std::string_view>> kKinds{
    {"bake", "roast", "oven", "cook", "crisp", "preheat", "heat"},
    {"simmer", "boil", "bubble", "cook", "poach", "blanch", "stew", "reduce", "pot", "bring"},
    {"fry", "saute", "brown", "soften", "sweat", "cook", "sear", "colour", "color", "pan", "stir-fry",
     "sizzle"},
    {"toast", "roast", "char", "grill", "broil", "broiler", "griddle", "blister"},
    {"chill", "fridge", "refrigerate", "cool", "set", "cold"},
    {"freeze", "freezer"},
    {"rest", "stand", "sit", "leave", "cool", "wait", "relax", "set"},
    {"soak", "steep", "infuse", "hydrate", "bloom", "soaking"},
    {"prove", "proof", "rise", "ferment", "rest"},
    {"marinate", "marinade", "rest", "sit", "cure", "brine", "pickle", "salt"},
    {"steam", "cook"},
    {"knead", "work", "mix"},
    {"whisk", "beat", "whip", "blend", "blitz", "mix", "stir", "process"},
    {"melt", "warm", "heat"},
};

const std::unordered_map<std::string, std::vector<std::size_t>>& kinds_by_stem() {
  static const auto kTable = [] {
    std::unordered_map<std::string, std::vector<std::size_t>> table;
    for (std::size_t k = 0; k < kKinds.size(); ++k)
      for (const auto word : kKinds[k]) table[stem(word)].push_back(k);
    return table;
  }();
  return kTable;
}

}  // namespace

int action_likeness(const std::string& a, const std::string& b) {
  if (a.empty() || b.empty()) return 0;
  const auto first = stem(a);
  const auto second = stem(b);
  if (first == second) return 2;
  const auto& table = kinds_by_stem();
  const auto kinds_a = table.find(first);
  const auto kinds_b = table.find(second);
  if (kinds_a == table.end() || kinds_b == table.end()) return 0;
  return std::any_of(kinds_a->second.begin(), kinds_a->second.end(),
                     [&](std::size_t k) {
                       return std::find(kinds_b->second.begin(), kinds_b->second.end(), k) !=
                              kinds_b->second.end();
                     })
             ? 1
             : 0;
}

bool is_action_word(const std::string& folded) {
  return kinds_by_stem().contains(stem(folded));
}

}  // namespace panslate
