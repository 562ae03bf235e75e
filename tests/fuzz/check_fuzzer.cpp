// A recipe and captions of any bytes, parted by a line "=====": whatever is said of whatever is written, the
// check ends, and its report holds together.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "panslate/base/text.h"
#include "panslate/check/check.h"
#include "panslate/recipe/recipe.h"
#include "panslate/speech/transcript.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

void require_sound(const panslate::ChannelFinding& channel) {
  using panslate::Verdict;
  for (const auto& mention : channel.mentions) require(mention.when.begin <= mention.when.end);
  const bool needs_evidence = channel.verdict == Verdict::Match || channel.verdict == Verdict::Differs;
  require(!needs_evidence || !channel.mentions.empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  constexpr std::string_view kParting = "\n=====\n";
  const auto parting = bytes.find(kParting);
  if (parting == std::string_view::npos) return 0;
  const auto recipe = panslate::read_recipe(panslate::to_utf8(bytes.substr(0, parting)), "recipe.md");
  const auto captions = panslate::read_captions(bytes.substr(parting + kParting.size()), "captions.txt");
  if (!recipe || !captions) return 0;
  panslate::CheckInput input;
  input.recipe = &*recipe;
  input.said.push_back({&*captions, ""});
  if (size % 4 == 0) input.on_text.push_back({&*captions, ""});
  const auto report = panslate::check(input);
  require(report.requirements.size() >= recipe->ingredients.size());
  for (const auto& requirement : report.requirements) {
    require(!requirement.key.empty() && !requirement.why.empty());
    require_sound(requirement.said);
    require_sound(requirement.on_text);
  }
  for (std::size_t i = 1; i < report.heard.size(); ++i)
    require(report.heard[i - 1].when.begin <= report.heard[i].when.begin);
  return 0;
}
