// The footage log as the terminal shows it.
#include "app/log_text.h"

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace panslate::app {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

FootageLog log_with(int shaky, std::vector<ClipFault> others) {
  FootageLog log;
  log.clips.emplace_back();
  auto& clip = log.clips.back();
  clip.file = "a.mov";
  clip.log.emplace();
  clip.log->facts.duration = MediaTime::from_seconds(100);
  auto& faults = clip.log->faults;
  for (int i = 0; i < shaky; ++i)
    faults.push_back({FaultKind::Shaky, {MediaTime::from_seconds(i), MediaTime::from_seconds(i + 1)}, ""});
  faults.insert(faults.end(), others.begin(), others.end());
  return log;
}

TEST(LogText, TellsTheWorstThoughItComesLast) {
  const ClipFault damage{FaultKind::Damaged,
                         {MediaTime::from_seconds(80), MediaTime::from_seconds(100)},
                         "the clip breaks off at 1:20, but should last until 1:40"};
  const auto text = log_text(log_with(30, {damage}), Terminal{200, false});
  EXPECT_THAT(text, HasSubstr("damaged for 20.0 s (the clip breaks off at 1:20"));
  EXPECT_THAT(text, HasSubstr("and 23 more, see log.csv that --out saves"));
  EXPECT_THAT(text, Not(HasSubstr("like these")));
  EXPECT_LT(text.find("damaged"), text.find("shaky"));
  EXPECT_THAT(log_text(log_with(3, {damage}), Terminal{200, false}), Not(HasSubstr("more, see")));
}

TEST(LogText, CallsWhatHoldsTimecodeAloneWhatItIs) {
  EXPECT_THAT(log_text(log_with(0, {}), Terminal{200, false}), HasSubstr("timecode only"));
}

TEST(LogText, ListsProposedPartsUpToAScreenfull) {
  Project project;
  project.recipe.steps.emplace_back();
  project.recipe.steps.back().text = "Fry the onions.";
  project.media.push_back({"a", "a.mov", MediaRole::Camera, {}, {}});
  PartProposals found;
  for (int i = 0; i < 32; ++i) {
    found.parts.emplace_back();
    found.parts.back().range = {MediaTime::from_seconds(i), MediaTime::from_seconds(i + 1)};
    found.parts.back().said.text = "now the onions go in";
  }
  const LoggedProposals told{project, found, {0}, false};
  const auto text = log_text(log_with(0, {}), Terminal{200, false}, &told);
  EXPECT_THAT(text, HasSubstr("Proposed parts of clips (32)"));
  EXPECT_THAT(text, HasSubstr("0:29–0:30"));
  EXPECT_THAT(text, HasSubstr("a.mov: \"now the onions go in\" is said: step 1, Fry the onions."));
  EXPECT_THAT(text, Not(HasSubstr("0:30–0:31")));
  EXPECT_THAT(text, HasSubstr("and 2 more, in the contact sheet"));
  EXPECT_THAT(log_text(log_with(0, {}), Terminal{200, false}), Not(HasSubstr("Proposed")));
  auto written = told;
  written.written = true;
  EXPECT_THAT(log_text(log_with(0, {}), Terminal{200, false}, &written),
              AllOf(HasSubstr("Parts written into the project (32)"), Not(HasSubstr("Proposed"))));
}

}  // namespace
}  // namespace panslate::app
