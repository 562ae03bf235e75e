// The check alone, on a 20-line recipe and captions of 1,100 words and ten times as many: the second should
// cost about ten times the first.
#include <string>

#include <benchmark/benchmark.h>

#include "panslate/base/timestamp.h"
#include "panslate/check/check.h"

namespace panslate {
namespace {

std::string recipe_text() {
  const char* foods[] = {"red lentils", "carrots",         "celery",         "vegetable stock",
                         "olive oil",   "tomato puree",    "smoked paprika", "ground cumin",
                         "garlic",      "white onion",     "brown rice",     "coconut milk",
                         "lime juice",  "spinach",         "peas",           "sweet potato",
                         "black beans", "sunflower seeds", "parsley",        "sea salt"};
  std::string text = "# Lentil pot\n\nServes 4\n\n## Ingredients\n\n";
  int amount = 50;
  for (const auto* food : foods) text += "- " + std::to_string(amount += 10) + " g " + food + "\n";
  text += "\n## Method\n\n";
  for (int step = 1; step <= 10; ++step)
    text += std::to_string(step) + ". Add the " + foods[step * 2 - 2] + " and the " + foods[step * 2 - 1] +
            " and simmer for " + std::to_string(step * 3 + 2) + " minutes.\n";
  return text;
}

// Talk about the recipe, eleven words a cue, as long as asked for.
std::string captions_text(int words) {
  const char* lines[] = {"now add sixty grams of red lentils and seventy grams of carrots",
                         "let that simmer for five minutes and give it a stir",
                         "the smell of the garlic is lovely so do not rush",
                         "a hundred grams of olive oil goes in with the celery",
                         "my kitchen is small but it has the best light today",
                         "two hundred grams of sweet potato and then the black beans"};
  std::string text = "WEBVTT\n\n";
  int second = 0;
  for (int written = 0, line = 0; written < words; written += 11, ++line, second += 4)
    text += format_timestamp(MediaTime::from_seconds(second), TimestampStyle::Clock) + " --> " +
            format_timestamp(MediaTime::from_seconds(second + 4), TimestampStyle::Clock) + "\n" +
            lines[line % 6] + "\n\n";
  return text;
}

void check_captions(benchmark::State& state) {
  const auto recipe = read_recipe(recipe_text(), "recipe.md");
  const auto transcript = read_captions(captions_text(static_cast<int>(state.range(0))), "captions.vtt");
  if (!recipe || !transcript) {
    state.SkipWithError("the samples cannot be read");
    return;
  }
  for (auto _ : state) {
    CheckInput input;
    input.recipe = &*recipe;
    input.said.push_back({&*transcript, ""});
    benchmark::DoNotOptimize(check(input));
  }
  state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(check_captions)->Arg(1100)->Arg(11000)->Arg(90000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace panslate
