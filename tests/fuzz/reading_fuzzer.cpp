// A recipe and a table of limits of any bytes, parted by a line "=====": both are read or refused with a
// place, and the read-through of what is read ends and holds together.
#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "panslate/base/text.h"
#include "panslate/recipe/reading.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  constexpr std::string_view kParting = "\n=====\n";
  const auto parting = bytes.find(kParting);
  const auto table = panslate::to_utf8(
      parting == std::string_view::npos ? std::string_view{} : bytes.substr(parting + kParting.size()));
  const auto limits = panslate::read_limits(table, "limits.csv");
  if (!limits)
    for (const auto& error : limits.error())
      require(error.code == panslate::ErrorCode::Malformed && error.place && error.place->line > 0);
  const auto text = panslate::to_utf8(bytes.substr(0, parting));
  const auto recipe = panslate::read_recipe(text, "recipe.md");
  if (!recipe) return 0;
  panslate::ReadOptions options;
  options.serves = panslate::Ratio(static_cast<std::int64_t>(size % 40) + 1);
  options.limits = limits ? &*limits : nullptr;
  options.today = std::chrono::sys_days{std::chrono::year{2026} / 6 / 1};
  const auto reading = panslate::read_through(*recipe, options);
  require(reading.flow.steps.size() == recipe->steps.size());
  for (std::size_t s = 0; s < recipe->steps.size(); ++s) {
    require(reading.flow.steps[s].hands_on.size() == recipe->steps[s].times.size());
    for (const auto& use : reading.flow.steps[s].uses) require(use.ingredient < recipe->ingredients.size());
    for (const auto before : reading.flow.steps[s].after) require(before < s);
  }
  for (const auto& wait : reading.flow.waits) {
    require(wait.step < recipe->steps.size() && wait.least <= wait.most);
    require(!wait.time || *wait.time < recipe->steps[wait.step].times.size());
  }
  for (const auto& finding : reading.findings) {
    require(!finding.code.empty() && !finding.message.empty() && finding.line >= 0 && finding.column >= 0);
    require(finding.code != "caution" ||
            (finding.level == panslate::ReadLevel::Note && !finding.source.empty()));
  }
  for (const auto& serving : reading.per_serving) require(serving.ingredient < recipe->ingredients.size());
  return 0;
}
