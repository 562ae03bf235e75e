// Reading a recipe costs time in proportion to its lines: one of 200 lines, and ten times as many.
#include <benchmark/benchmark.h>

#include "panslate/recipe/recipe.h"

#include "long_recipe.h"

namespace {

void read_recipe(benchmark::State& state) {
  const auto text = panslate::bench::long_recipe(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(panslate::read_recipe(text, "feast.md"));
  state.SetComplexityN(state.range(0));
}
BENCHMARK(read_recipe)->Arg(200)->Arg(2000)->Unit(benchmark::kMillisecond);

}  // namespace
