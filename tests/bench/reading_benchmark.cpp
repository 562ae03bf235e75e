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

std::string recipe_of(std::int64_t lines) {
  static const char* const kFoods[] = {
      "red onions, finely sliced", "plain flour",  "butter, softened", "smoked paprika", "chickpeas",
      "cherry tomatoes, halved",   "coconut milk", "flat-leaf parsley"};
  std::string out = "# Feast\n\nServes 40\n\n## Ingredients\n\n";
  for (std::int64_t i = 0; i < lines / 2; ++i)
    out += "- " + std::to_string(i % 90 + 1) + " g " + kFoods[i % 8] + "\n";
  out += "\n## Method\n\n";
  for (std::int64_t i = 0; i < lines / 2; ++i)
    out += std::to_string(i + 1) + ". Add the onions and the paprika and simmer for " +
           std::to_string(i % 50 + 5) + " minutes, until soft.\n";
  return out;
}

void read_long(benchmark::State& state) {
  const auto text = recipe_of(state.range(0));
  for (auto _ : state) {
    const auto recipe = panslate::read_recipe(text, "feast.md");
    if (recipe) benchmark::DoNotOptimize(panslate::read_through(*recipe));
  }
}
BENCHMARK(read_long)->Arg(200)->Arg(2000)->Unit(benchmark::kMillisecond);

}  // namespace
