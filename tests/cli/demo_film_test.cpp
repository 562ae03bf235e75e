// The program on the demo with its footage, as a person runs it.
#include <array>
#include <cstdio>
#include <filesystem>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sys/wait.h>

#include "panslate/media/clip_facts.h"

namespace panslate {
namespace {

const std::filesystem::path kDemo = PANSLATE_DEMO;

struct Run {
  int status = -1;
  std::string out;
};

Run run(const std::string& arguments) {
  Run result;
  const std::string command = "'" PANSLATE_PROGRAM "' " + arguments;
  FILE* pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) return result;
  std::array<char, 4096> block{};
  for (std::size_t got = 0; (got = std::fread(block.data(), 1, block.size(), pipe)) > 0;)
    result.out.append(block.data(), got);
  result.status = WEXITSTATUS(::pclose(pipe));
  return result;
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
