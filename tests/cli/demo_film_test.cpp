// The program on the demo with its footage, as a person runs it.
#include <array>
#include <cstdio>
#include <filesystem>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "panslate/media/clip_facts.h"

#include "support/shell.h"

namespace panslate {
namespace {

const std::filesystem::path kDemo = PANSLATE_DEMO;

testing::Ran run(const std::string& arguments) {
  return testing::shell("'" PANSLATE_PROGRAM "' " + arguments);
}

TEST(DemoFilm, TheFootageIsWhatTheProjectSays) {
  const auto edit = probe_clip(kDemo / "footage" / "edit.mp4");
  ASSERT_TRUE(edit) << render(edit.error());
  EXPECT_EQ(edit->duration, MediaTime::from_ms(204'880));  // at of the last segment + its length
  const auto turned = probe_clip(kDemo / "footage" / "plums.mp4");
  ASSERT_TRUE(turned && turned->picture);
  EXPECT_EQ(turned->picture->rotation, 90);
  EXPECT_EQ(turned->picture->shown_width, 640);
  const auto labelled = probe_clip(kDemo / "footage" / "millet.mov");
  ASSERT_TRUE(labelled && labelled->picture);
  EXPECT_EQ(labelled->timecode, "01:00:00;00");
  EXPECT_EQ(labelled->picture->frame_rate, (FrameRate{30000, 1001}));
}

TEST(DemoFilm, CheckAsksForAttentionAndSaysWhere) {
  const auto result = run("check '" + (kDemo / "demo.json").string() + "' --json");
  EXPECT_EQ(result.status, 1);
  const auto report = nlohmann::json::parse(result.out, nullptr, false);
  ASSERT_TRUE(report.is_object()) << result.out;
  EXPECT_EQ(report["panslate_report"], 2);
  EXPECT_EQ(report["summary"]["attention"], 6);
  EXPECT_NEAR(report["duration"].get<double>(), 204.88, 1e-6);
  for (const auto& warning : report["warnings"]) EXPECT_NE(warning["level"], "warning") << warning;
  const auto shown_by = [&](const std::string& text) {
    for (const auto& requirement : report["requirements"])
      if (requirement["text"] == text) return requirement["shown"]["segments"].dump();
    return std::string("not there");
  };
  EXPECT_EQ(shown_by("2 star anise"), R"(["plums-1"])");
  EXPECT_EQ(shown_by("100 g blackberries"), "[]");
}

}  // namespace
}  // namespace panslate
