// What is wrong with the demo on purpose is found, all of it and nothing else (projects/demo/README.md).
#include <algorithm>
#include <filesystem>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/base/file_system.h"
#include "panslate/base/text.h"
#include "panslate/check/check.h"
#include "panslate/project/project.h"

#include "support/fake_file_system.h"

namespace panslate {
namespace {

using panslate::testing::FakeFileSystem;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

const std::filesystem::path kDemo = std::filesystem::path(PANSLATE_SOURCE_DIR) / "projects" / "demo";

std::string demo_text(const char* name) {
  return read_text(real_file_system(), kDemo / name).value();
}

struct Replacement {
  std::string_view before, after;
};

// Each text to be replaced stands in the file exactly once.
std::string replaced(std::string text, const std::vector<Replacement>& replacements) {
  for (const auto& [before, after] : replacements) {
    const auto at = text.find(before);
    EXPECT_NE(at, std::string::npos) << before;
    if (at == std::string::npos) continue;
    EXPECT_EQ(text.find(before, at + 1), std::string::npos) << before;
    text.replace(at, before.size(), after);
  }
  return text;
}

// The check of the demo as it is read from `disk`; clips are not opened.
CheckReport checked(const FakeFileSystem& disk) {
  const auto project = load_project(disk, "demo.json");
  if (!project) {
    for (const auto& error : project.error()) ADD_FAILURE() << render(error);
    return {};
  }
  EXPECT_THAT(project->to_decide, IsEmpty());
  Footage footage;
  footage.clips.resize(project->media.size());
  return check(check_input_of(*project, footage));
}

// "said differs, shown yes, on text missing: 40 g coconut oil" for every line that needs attention.
std::vector<std::string> attention(const CheckReport& report) {
  std::vector<std::string> lines;
  for (const auto& requirement : report.requirements) {
    if (!CheckReport::needs_attention(requirement)) continue;
    std::ostringstream line;
    line << spelling_of(requirement.kind) << ": said " << spelling_of(requirement.said.verdict) << ", shown "
         << spelling_of(requirement.shown.verdict) << ", on text " << spelling_of(requirement.on_text.verdict)
         << ": " << requirement.text;
    lines.push_back(line.str());
  }
  std::sort(lines.begin(), lines.end());
  return lines;
}

FakeFileSystem demo_as_it_is() {
  FakeFileSystem disk;
  for (const auto* name : {"demo.json", "recipe.md", "captions.vtt", "titles.srt"})
    disk.add(name, demo_text(name));
  return disk;
}

TEST(Demo, EveryPlantedFaultIsFoundAndNothingElse) {
  const auto report = checked(demo_as_it_is());
  EXPECT_THAT(
      attention(report),
      ElementsAre("ingredient: said differs, shown yes, on text missing: 700 ml almond drink",
                  "ingredient: said match, shown no, on text match: 100 g blackberries",
                  "ingredient: said match, shown yes, on text differs: 3 tbsp maple syrup",
                  "ingredient: said no-amount, shown yes, on text missing: 40 g coconut oil, melted",
                  "step: said match, shown no, on text match: Scatter over the blackberries and serve.",
                  "temperature: said differs, shown not-checked, on text missing: 160 °C (325 °F)"));
  EXPECT_EQ(report.attention_count(), 6U);
}

TEST(Demo, TheOneAdditionIsTold) {
  const auto report = checked(demo_as_it_is());
  std::vector<std::string> extras;
  for (const auto& extra : report.extras)
    extras.push_back(extra.name + (extra.amount ? " with an amount" : "") + ": " + extra.text);
  ASSERT_EQ(report.extras.size(), 1U) << ::testing::PrintToString(extras);
  const auto& extra = report.extras.front();
  EXPECT_EQ(extra.name, "vanilla extract");
  ASSERT_TRUE(extra.amount);
  EXPECT_EQ(extra.amount->unit, Unit::Teaspoon);
  EXPECT_EQ(extra.amount->value, Ratio(1));
  EXPECT_GE(extra.when.begin, MediaTime::from_ms(113'720));  // its caption
  EXPECT_LE(extra.when.end, MediaTime::from_ms(118'480));
}

// The control: the same film put right needs no attention at all.
TEST(Demo, PutRightItNeedsNoAttention) {
  FakeFileSystem disk;
  disk.add("recipe.md", demo_text("recipe.md"));
  disk.add("captions.vtt", replaced(demo_text("captions.vtt"),
                                    {{"six hundred\n", "seven hundred\n"},
                                     {"Then work in the melted", "Then work in forty grams of melted"},
                                     {"150 degrees", "160 degrees"},
                                     {"I also add a teaspoon of vanilla\nextract, because I like it so much.",
                                      "It smells of the whole winter now,\nand I like it so much."}}));
  disk.add("titles.srt", replaced(demo_text("titles.srt"), {{"4 tbsp maple", "3 tbsp maple"}}));
  disk.add(
      "demo.json",
      replaced(
          demo_text("demo.json"),
          {{"\"step\": \"Spoon the millet\", \"framing\": \"overhead\", \"shows\": [\"plums\", \"millet\"]",
            "\"step\": [\"Spoon the millet\", \"Scatter over\"], \"shows\": [\"blackberries\"]"}}));
  const auto report = checked(disk);
  EXPECT_THAT(attention(report), IsEmpty());
  EXPECT_THAT(report.extras, IsEmpty());
  EXPECT_EQ(report.attention_count(), 0U);
}

// The script and the captions say the same words.
TEST(Demo, CaptionsSayTheScript) {
  std::string script;
  const auto file = demo_text("narration.txt");
  for (const auto& line : split_lines(file))
    if (!line.text.empty() && line.text.front() != '#' && line.text.front() != '[')
      script += std::string(line.text) + '\n';
  std::string said;
  const auto captions = read_captions(demo_text("captions.vtt"), "captions.vtt").value();
  for (const auto& cue : captions.cues) said += collapse_spaces(cue.text) + '\n';
  EXPECT_EQ(said, script);
  EXPECT_TRUE(captions.warnings.empty());
}

}  // namespace
}  // namespace panslate
