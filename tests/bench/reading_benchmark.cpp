// Reading recipes through: a thousand as people write them in one run, and one of two hundred lines.
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "panslate/base/text.h"
#include "panslate/recipe/reading.h"

#include "long_recipe.h"

namespace {

std::vector<std::string> recipes() {
  std::vector<std::string> texts;
  const std::filesystem::path data = std::filesystem::path(PANSLATE_SOURCE_DIR) / "tests" / "data";
  for (const auto& entry : std::filesystem::recursive_directory_iterator(data / "read")) {
    if (entry.path().extension() != ".md" || entry.path().filename() == "README.md") continue;
    std::ifstream in(entry.path(), std::ios::binary);
    texts.push_back(panslate::to_utf8(
        std::string((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>())));
  }
  return texts;
}

void read_a_thousand(benchmark::State& state) {
  constexpr std::int64_t kCount = 1000;
  const auto texts = recipes();
  for (auto _ : state)
    for (std::int64_t i = 0; i < kCount; ++i) {
      const auto recipe = panslate::read_recipe(texts[static_cast<std::size_t>(i) % texts.size()], "dish.md");
      if (recipe) benchmark::DoNotOptimize(panslate::read_through(*recipe));
    }
  state.SetItemsProcessed(state.iterations() * kCount);
}
BENCHMARK(read_a_thousand)->Unit(benchmark::kMillisecond);

void read_long(benchmark::State& state) {
  const auto text = panslate::bench::long_recipe(state.range(0));
  for (auto _ : state) {
    const auto recipe = panslate::read_recipe(text, "feast.md");
    if (recipe) benchmark::DoNotOptimize(panslate::read_through(*recipe));
  }
}
BENCHMARK(read_long)->Arg(200)->Arg(2000)->Unit(benchmark::kMillisecond);

}  // namespace
