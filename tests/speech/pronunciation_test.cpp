#include "panslate/speech/pronunciation.h"

#include <string>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/speech/sound_index.h"

namespace panslate {
namespace {

std::string said(std::string_view word) {
  return to_text(pronounce(word));
}

Sounds sounds_of(std::string_view words) {
  Sounds sounds;
  std::string word;
  for (const char c : std::string(words) + " ") {
    if (c != ' ') {
      word += c;
      continue;
    }
    const auto one = pronounce(word);
    sounds.insert(sounds.end(), one.begin(), one.end());
    word.clear();
  }
  return sounds;
}

// As the CMU dictionary has them (cmudict-en-us.dict of pocketsphinx-en-us), er written as ax r.
TEST(Pronounce, GivesTheSoundsOfAWord) {
  EXPECT_EQ(said("keen"), "k iy1 n");
  EXPECT_EQ(said("niece"), "n iy1 s");
  EXPECT_EQ(said("flour"), "f l aw1 ax r");
  EXPECT_EQ(said("flower"), said("flour"));
  EXPECT_EQ(said("leek"), said("leak"));
  EXPECT_EQ(said("mussels"), said("muscles"));
}

TEST(Pronounce, TakesAnyBytes) {
  EXPECT_EQ(said(""), "");
  EXPECT_EQ(said("42"), "");
  EXPECT_EQ(said("\xFF\xC3"), "");
  EXPECT_EQ(said("lentil's"), "l eh1 n t ax l z");
  EXPECT_LE(pronounce(std::string(100000, 'a')).size(), 120U);
}

TEST(Pronounce, MayBeAskedByManyThreadsAtOnce) {
  const auto expected = said("coriander");
  std::vector<int> wrong(4, 0);
  std::vector<std::thread> threads;
  for (auto& count : wrong)
    threads.emplace_back([&count, &expected] {
      for (int i = 0; i < 500; ++i)
        if (said("coriander") != expected) ++count;
    });
  for (auto& thread : threads) thread.join();
  for (const int count : wrong) EXPECT_EQ(count, 0);
}

TEST(Sounds, AreReadAndWritten) {
  const auto sounds = sounds_from_text("k iy1 n w aa");
  ASSERT_TRUE(sounds);
  EXPECT_EQ(to_text(*sounds), "k iy1 n w aa");
  EXPECT_FALSE(sounds_from_text("k xx"));
  EXPECT_EQ(to_text(*sounds_from_text("er1")), "ax1 r");
}

TEST(SoundDistance, IsNoneBetweenDifferentSpellingsOfTheSameSounds) {
  EXPECT_EQ(sound_distance(sounds_of("beat root"), sounds_of("beetroot")), 0.0);
  EXPECT_EQ(sound_distance(sounds_of("flower"), sounds_of("flour")), 0.0);
  EXPECT_EQ(sound_distance(pronounce("thyme"), pronounce("thyme")), 0.0);
}

struct Order {
  const char* meant;
  const char* nearer;
  const char* farther;
};

// What is mistaken for what, by ear: the first is, the second is not.
TEST(SoundDistance, PutsWhatIsMistakenNearer) {
  for (const auto& [meant, nearer, farther] : std::vector<Order>{{"curry", "carry", "cherry"},
                                                                 {"rice", "rise", "rinse"},
                                                                 {"poppy", "pappy", "puppet"},
                                                                 {"syrup", "sir up", "stir up"},
                                                                 {"cumin", "coming", "common sense"},
                                                                 {"oil", "oyl", "all"},
                                                                 {"mint", "mince", "since"},
                                                                 {"pine", "bine", "pan"}})
    EXPECT_LT(sound_distance(sounds_of(nearer), sounds_of(meant)),
              sound_distance(sounds_of(farther), sounds_of(meant)))
        << meant;
}

TEST(SoundDistance, IsTheSameBothWaysAndEndsAtItsLimit) {
  const auto a = sounds_of("carry powder");
  const auto b = sounds_of("curry powder");
  EXPECT_DOUBLE_EQ(sound_distance(a, b), sound_distance(b, a));
  EXPECT_EQ(sound_distance(sounds_of("bread"), sounds_of("parsley"), 0.3), 1.0);
  EXPECT_EQ(sound_distance({}, a), 1.0);
  EXPECT_EQ(sound_distance(Sounds(65), Sounds(65)), 1.0);
}

TEST(SoundIndex, FindsWhatDiffersInOneConsonant) {
  SoundIndex index;
  index.add(sounds_of("nutritional yeast"));
  index.add(sounds_of("star anise"));
  index.add(sounds_of("leek"));
  const auto near = [&](std::string_view words) { return index.near(SoundIndex::key_of(sounds_of(words))); };
  EXPECT_EQ(near("star a niece"), std::vector<std::uint32_t>{1});
  EXPECT_EQ(near("star a knee"), std::vector<std::uint32_t>{1});
  EXPECT_EQ(near("leak"), std::vector<std::uint32_t>{2});
  EXPECT_EQ(near("new trishional yeast"), std::vector<std::uint32_t>{0});
  EXPECT_TRUE(near("bread").empty());
}

TEST(EnglishWords, AreThoseOfBothSpellings) {
  for (const auto* word : {"colour", "color", "niece", "flour", "leaks", "the", "that's"})
    EXPECT_TRUE(is_english_word(word)) << word;
  for (const auto* word : {"cinammon", "trishional", "keenwah", "", "\xFF"})
    EXPECT_FALSE(is_english_word(word)) << word;
}

}  // namespace
}  // namespace panslate
