// Reading a recipe costs time in proportion to its lines: one of 200 lines, and ten times as many.
#include <cstdint>
#include <string>

#include <benchmark/benchmark.h>

#include "panslate/recipe/recipe.h"

namespace {

/// A recipe of so many lines, half of them ingredients.
std::string recipe_of(std::int64_t lines) {
  static const char* const kFoods[] = {
      "red onions, finely sliced", "plain flour",  "butter, softened", "smoked paprika", "chickpeas",
      "cherry tomatoes, halved",   "coconut milk", "flat-leaf parsley"};
  std::string out = "# Feast\n\nServes 40\n\n## Ingredients\n\n";
  for (std::int64_t i = 0; i < lines / 2; ++i)
    out +=
        "- " + std::to_string(i % 90 + 1) + " g/" + std::to_string(i % 9 + 1) + " oz " + kFoods[i % 8] + "\n";
  out += "\n## Method\n\n";
  for (std::int64_t i = 0; i < lines / 2; ++i)
    out += std::to_string(i + 1) + ". Add the onions and the paprika and simmer for " +
           std::to_string(i % 50 + 5) + " minutes, until soft.\n";
  return out;
}

void read_recipe(benchmark::State& state) {
  const auto text = recipe_of(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(panslate::read_recipe(text, "feast.md"));
  state.SetComplexityN(state.range(0));
}
BENCHMARK(read_recipe)->Arg(200)->Arg(2000)->Unit(benchmark::kMillisecond);

}  // namespace
