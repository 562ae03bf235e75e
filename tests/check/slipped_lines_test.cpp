// A line in which another amount is said is still that line: the slip is heard in the sound of a whole
// script, not only where the line's place is known. SYNTHETIC voices (tests/speech/narration.h).
#include <algorithm>
#include <cstdio>
#include <memory>
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/check/listen.h"
#include "panslate/check/listen_for.h"
#include "panslate/speech/align_script.h"

#include "speech/narration.h"

namespace panslate {
namespace {

using testing::Speaker;

class SlippedLines : public ::testing::TestWithParam<Speaker> {
 public:
  static std::string name(const ::testing::TestParamInfo<Speaker>& info) {
    auto name = to_string(testing::Voice{info.param});
    std::replace(name.begin(), name.end(), ' ', '_');
    return name;
  }
};

TEST_P(SlippedLines, AreTheLinesTheyAre) {
  constexpr std::size_t kLines = 8;
  auto script = testing::read_spoken_script(PANSLATE_SOURCE_DIR "/tests/data/speech/coconut_fish_curry.txt");
  script.resize(kLines);
  std::string text;
  std::vector<std::string> spoken;
  for (const auto& line : script) {
    text += line.written + "\n";
    const bool slips = !line.amounts.empty() && !line.amounts.back().instead.empty();
    spoken.push_back(line.spoken(slips ? std::optional(testing::ScriptLine::Slip{line.amounts.size() - 1, 0})
                                       : std::nullopt));
  }
  const auto lines = script_to_hear(*read_script(text, "script.txt"));
  const auto narration = narrate(testing::read_out(spoken), {GetParam()});
  const auto recogniser = open_recogniser();
  auto dictionary = PronouncingDictionary::open();
  ASSERT_TRUE(recogniser && dictionary);
  NoProgress progress;
  const auto found = align_script(lines, narration.samples, **recogniser, *dictionary, progress);
  ASSERT_TRUE(found) << render(found.error());
  std::size_t whole = 0;
  for (std::size_t line = 0; line < lines.size(); ++line) {
    std::vector<TimeRange> truth;
    for (const auto& word : narration.words)
      if (word.line == line) truth.push_back(word.when);
    const TimeRange when{truth.front().begin, truth.back().end};
    whole += std::any_of(found->takes.begin(), found->takes.end(), [&](const ScriptTake& take) {
      return take.line == line && take.complete && (take.when.begin - when.begin).seconds() < 0.3 &&
             (take.when.begin - when.begin).seconds() > -0.3 && (take.when.end - when.end).seconds() < 0.3 &&
             (take.when.end - when.end).seconds() > -0.3;
    });
  }
  std::printf("%s: %zu of %zu lines with slips found whole\n", to_string(testing::Voice{GetParam()}).c_str(),
              whole, lines.size());
  EXPECT_GE(whole + 1, lines.size());
}

INSTANTIATE_TEST_SUITE_P(Voices, SlippedLines, ::testing::Values(Speaker::Slt, Speaker::EspeakGb),
                         SlippedLines::name);

}  // namespace
}  // namespace panslate
