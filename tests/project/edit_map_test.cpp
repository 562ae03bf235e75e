#include "panslate/project/edit_map.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace panslate {
namespace {

MediaTime ms(std::int64_t value) {
  return MediaTime::from_ms(value);
}

// Narration of ten words, one a second, in two cues.
Transcript words() {
  Transcript out;
  for (int c = 0; c < 2; ++c) {
    Cue cue;
    cue.id = "c" + std::to_string(c + 1);
    cue.when = {ms(c * 5000), ms(c * 5000 + 5000)};
    for (int w = 0; w < 5; ++w) {
      const auto text = "w" + std::to_string(c * 5 + w);
      cue.text += (w == 0 ? "" : " ") + text;
      out.words.push_back({text,
                           {ms((c * 5 + w) * 1000), ms((c * 5 + w + 1) * 1000)},
                           ms(50),
                           static_cast<std::uint32_t>(c)});
    }
    out.cues.push_back(cue);
  }
  return out;
}

struct Laid {
  std::int64_t in, out, at;
};

EditMap map_of(const std::vector<Laid>& laid, std::optional<std::int64_t> whole = {}) {
  Project project;
  project.media.push_back({"voice", "voice.wav", MediaRole::Narration, {}, {}});
  if (whole) project.media[0].edit_begin = ms(*whole);
  for (const auto& one : laid) {
    Segment segment;
    segment.range = {ms(one.in), ms(one.out)};
    segment.edit_begin = ms(one.at);
    project.segments.push_back(segment);
  }
  Footage footage;
  footage.clips.resize(1);
  ClipFacts facts;
  facts.duration = ms(10'000);
  footage.clips[0] = facts;
  return EditMap(project, footage);
}

std::string told(const Transcript& transcript) {
  std::string out;
  for (const auto& word : transcript.words)
    out += word.text + "@" + std::to_string(word.when.begin.to_ms(Round::Nearest)) + " ";
  return out;
}

TEST(EditMap, PutsWordsWhereTheEditHasThem) {
  struct Case {
    const char* what;
    std::vector<Laid> laid;
    std::optional<std::int64_t> whole;
    std::string words;
    std::vector<std::string> cues;
  };
  const std::vector<Case> cases = {
      {"laid under it whole",
       {},
       2500,
       "w0@2500 w1@3500 w2@4500 w3@5500 w4@6500 w5@7500 w6@8500 w7@9500 w8@10500 w9@11500 ",
       {"w0 w1 w2 w3 w4", "w5 w6 w7 w8 w9"}},
      {"a stretch of it, cut in a cue",
       {{3000, 7000, 100'000}},
       {},
       "w3@100000 w4@101000 w5@102000 w6@103000 ",
       {"w3 w4", "w5 w6"}},
      {"half a word is none", {{600, 2400, 0}}, {}, "w1@400 ", {"w1"}},
      {"two stretches in another order",
       {{5000, 7000, 0}, {0, 2000, 2000}},
       {},
       "w5@0 w6@1000 w0@2000 w1@3000 ",
       {"w5 w6", "w0 w1"}},
      {"used twice", {{0, 1000, 0}, {0, 1000, 9000}}, {}, "w0@0 w0@9000 ", {"w0", "w0"}},
      {"nothing of it", {}, {}, "", {}},
  };
  for (const auto& one : cases) {
    const auto map = map_of(one.laid, one.whole);
    const auto moved = map.in_edit(words(), 0);
    EXPECT_EQ(told(moved), one.words) << one.what;
    std::vector<std::string> cues;
    std::vector<std::string> ids;
    for (const auto& cue : moved.cues) {
      cues.push_back(cue.text);
      EXPECT_EQ(std::count(ids.begin(), ids.end(), cue.id), 0) << one.what;
      ids.push_back(cue.id);
    }
    EXPECT_EQ(cues, one.cues) << one.what;
    for (const auto& word : moved.words) EXPECT_LT(word.cue, moved.cues.size());
    EXPECT_EQ(map.has(0), !one.laid.empty() || one.whole.has_value()) << one.what;
  }
}

TEST(EditMap, TellsWhereAMomentStands) {
  const auto map = map_of({{5000, 7000, 0}, {0, 2000, 2000}});
  EXPECT_EQ(map.in_edit(0, ms(5000)), ms(0));
  EXPECT_EQ(map.in_edit(0, ms(1999)), ms(3999));
  EXPECT_EQ(map.in_edit(0, ms(2000)), std::nullopt);
  EXPECT_EQ(map.in_edit(0, ms(7000)), std::nullopt);
  EXPECT_EQ(map.in_edit(1, ms(0)), std::nullopt);
  ASSERT_EQ(map.stretches().size(), 2U);
  EXPECT_EQ(map.stretches()[0].clip.begin, ms(5000));
}

}  // namespace
}  // namespace panslate
