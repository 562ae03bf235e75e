// The recogniser against human speech with a transcript: Debian's package pocketsphinx-testdata.
#include "panslate/speech/recogniser.h"

#include <cstdint>
#include <fstream>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace panslate {
namespace {

const std::string kTestData = "/usr/share/pocketsphinx/test/data/";

std::vector<std::int16_t> raw_sound(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::vector<std::int16_t> samples;
  for (std::int16_t sample = 0; in.read(reinterpret_cast<char*>(&sample), sizeof sample);)
    samples.push_back(sample);
  return samples;
}

// "go forward ten meters", as the package's goforward.fsg has it; "backward" is never said.
WordGraph go_forward() {
  WordGraph graph{.nodes = 5, .start = 0, .final = 4};
  graph.words = {{"go", "G OW"},
                 {"forward", "F AO R W ER D"},
                 {"backward", "B AE K W ER D"},
                 {"ten", "T EH N"},
                 {"meters", "M IY T ER Z"}};
  graph.arcs = {{0, 1, 1.0, 0}, {1, 2, 1.0, 1}, {1, 2, 1.0, 2}, {2, 3, 1.0, 3}, {3, 4, 1.0, 4}};
  return graph;
}

class Recognising : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = open_recogniser();
    ASSERT_TRUE(opened) << render(opened.error());
    recogniser = std::move(*opened);
  }
  std::unique_ptr<Recogniser> recogniser;
};

TEST_F(Recognising, FollowsTheGraph) {
  const auto sound = raw_sound(kTestData + "goforward.raw");
  if (sound.empty()) GTEST_SKIP() << "needs the package pocketsphinx-testdata";
  const auto graph = go_forward();
  const auto heard = recogniser->recognise(sound, graph, {});
  ASSERT_TRUE(heard) << render(heard.error());
  EXPECT_TRUE(heard->complete);
  std::string text;
  std::int64_t before = 0;
  for (const auto& word : heard->words) {
    text += graph.words[word.word].label + ' ';
    EXPECT_LE(before, word.begin);
    EXPECT_LT(word.begin, word.end);
    EXPECT_LE(word.end, static_cast<std::int64_t>(sound.size()));
    before = word.end;
  }
  EXPECT_EQ(text, "go forward ten meters ");
  EXPECT_LE(heard->weighted, heard->acoustic);
}

TEST_F(Recognising, ScoresOfTwoGraphsCompare) {
  const auto sound = raw_sound(kTestData + "goforward.raw");
  if (sound.empty()) GTEST_SKIP() << "needs the package pocketsphinx-testdata";
  const auto free = recogniser->recognise(sound, go_forward(), {});
  auto wrong = go_forward();
  wrong.arcs.erase(wrong.arcs.begin() + 1);  // forward
  const auto forced = recogniser->recognise(sound, wrong, {.width = 1e-200});
  auto right = go_forward();
  right.arcs.erase(right.arcs.begin() + 2);  // backward
  const auto same = recogniser->recognise(sound, right, {});
  ASSERT_TRUE(free && forced && same);
  EXPECT_TRUE(forced->complete);
  EXPECT_NEAR(free->acoustic, same->acoustic, 1e-6);
  EXPECT_GT(free->acoustic, forced->acoustic + 20.0);
}

TEST_F(Recognising, WhatWasNotSaidToTheEndIsPartial) {
  auto sound = raw_sound(kTestData + "goforward.raw");
  if (sound.empty()) GTEST_SKIP() << "needs the package pocketsphinx-testdata";
  sound.resize(sound.size() * 45 / 100);
  const auto heard = recogniser->recognise(sound, go_forward(), {});
  ASSERT_TRUE(heard) << render(heard.error());
  EXPECT_FALSE(heard->complete);
  EXPECT_GE(heard->words.size(), 1U);
  EXPECT_LT(heard->words.size(), 4U);
}

TEST_F(Recognising, OddSoundGivesNoCrash) {
  const auto graph = go_forward();
  for (const std::size_t length : {0U, 1U, 159U, 1600U, 16'000U})
    for (const int level : {0, 1, int{std::numeric_limits<std::int16_t>::min()},
                            int{std::numeric_limits<std::int16_t>::max()}}) {
      const std::vector<std::int16_t> sound(length, static_cast<std::int16_t>(level));
      const auto heard = recogniser->recognise(sound, graph, {});
      EXPECT_TRUE(heard) << length << " samples of " << level << ": " << render(heard.error());
    }
}

TEST_F(Recognising, RefusesABrokenGraph) {
  const std::vector<std::int16_t> sound(16'000);
  const auto refuses = [&](const char* what, auto change) {
    auto graph = go_forward();
    change(graph);
    const auto heard = recogniser->recognise(sound, graph, {});
    ASSERT_FALSE(heard) << what;
    EXPECT_EQ(heard.error().code, ErrorCode::Internal) << what;
  };
  refuses("a node that is not there", [](WordGraph& graph) { graph.arcs[0].to = 5; });
  refuses("no final node", [](WordGraph& graph) { graph.final = 7; });
  refuses("a word that is not there", [](WordGraph& graph) { graph.arcs[0].word = 5; });
  refuses("no phone", [](WordGraph& graph) { graph.words[0].pronunciation = "G OEH"; });
  refuses("no phones", [](WordGraph& graph) { graph.words[0].pronunciation.clear(); });
  refuses("two spaces", [](WordGraph& graph) { graph.words[0].pronunciation = "G  OW"; });
  refuses("no weight", [](WordGraph& graph) { graph.arcs[0].weight = 0.0; });
  refuses("no number",
          [](WordGraph& graph) { graph.arcs[0].weight = std::numeric_limits<double>::quiet_NaN(); });
  const std::vector<std::int16_t> long_sound(20 * 60 * 16'000 + 1);
  EXPECT_FALSE(recogniser->recognise(long_sound, go_forward(), {}));
}

TEST(Recogniser, SaysWhichModelIsMissing) {
  const auto opened = open_recogniser("/nowhere");
  ASSERT_FALSE(opened);
  EXPECT_EQ(render(opened.error()),
            "error: the model of how English sounds is not there: /nowhere/en-us\n"
            "  hint: install Debian's package pocketsphinx-en-us");
}

}  // namespace
}  // namespace panslate
