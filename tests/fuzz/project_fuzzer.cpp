// Any bytes as a project file: a project, or a list of problems that is not empty; never a crash.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "panslate/project/project.h"

#include "../support/fake_file_system.h"

namespace {

constexpr const char* kRecipe =
    "# Lentil pot\n\n## Ingredients\n\n- 200 g red lentils\n- 1 tsp salt\n\n## Method\n\n"
    "1. Rinse the lentils well.\n2. Simmer them for 20 minutes.\n3. Stir in the salt.\n";
constexpr const char* kCaptions = "WEBVTT\n\n00:01.000 --> 00:03.000\nTwo hundred grams of red lentils\n";

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  panslate::testing::FakeFileSystem disk;
  disk.add("p.json", std::string(reinterpret_cast<const char*>(data), size))
      .add("recipe.md", kRecipe)
      .add("captions.vtt", kCaptions)
      .add_folder("folder");
  const auto loaded = panslate::load_project(disk, "p.json");
  if (!loaded) {
    require(!loaded.error().empty());
    for (const auto& error : loaded.error()) {
      require(!error.message.empty() && error.place.has_value());
      static_cast<void>(panslate::render(error));
    }
    return 0;
  }
  for (const auto& segment : loaded->segments) {
    require(segment.media < loaded->media.size());
    require(segment.range.begin <= segment.range.end);
    for (const auto& step : segment.steps) require(!step.index || *step.index < loaded->recipe.steps.size());
    for (const auto& food : segment.shows)
      require(!food.index || *food.index < loaded->recipe.ingredients.size());
  }
  for (const auto& captions : loaded->captions) require(loaded->find_media(captions.clock) != nullptr);
  return 0;
}
