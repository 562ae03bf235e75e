// Sound matched across clips: levels of made-up sound with a known offset.
#include "project/same_moment.h"

#include <algorithm>
#include <random>
#include <string>

#include <gtest/gtest.h>

namespace panslate {
namespace {

// Syllables: bursts of random loudness and length.
std::string talk(unsigned seed, std::size_t hundredths) {
  std::mt19937 random(seed);
  std::string levels;
  while (levels.size() < hundredths) {
    levels.append(8 + random() % 25, static_cast<char>(static_cast<unsigned char>(150 + random() % 60)));
    levels.append(3 + random() % 12, static_cast<char>(static_cast<unsigned char>(110 + random() % 15)));
  }
  levels.resize(hundredths);
  return levels;
}

// Another microphone: quieter, with noise of its own.
std::string farther(std::string levels, unsigned seed) {
  std::mt19937 random(seed);
  for (auto& level : levels)
    level = static_cast<char>(static_cast<unsigned char>(
        std::max<int>(118, static_cast<unsigned char>(level) - 20) + static_cast<int>(random() % 7) - 3));
  return levels;
}

TEST(SoundOffset, IsFoundToTheHundredth) {
  const auto shoot = talk(1, 12'000);
  for (const std::size_t offset : {0U, 1U, 137U, 2'000U, 7'000U}) {
    const auto found = sound_offset(shoot, farther(shoot.substr(offset), 2));
    ASSERT_TRUE(found) << offset;
    EXPECT_NEAR(found->seconds(), static_cast<double>(offset) / 100, 0.01);
    const auto back = sound_offset(farther(shoot.substr(offset), 2), shoot);
    ASSERT_TRUE(back) << offset;
    EXPECT_NEAR(back->seconds(), -static_cast<double>(offset) / 100, 0.01);
  }
}

TEST(SoundOffset, IsNotFoundInOtherSound) {
  for (unsigned seed = 0; seed < 30; ++seed)
    EXPECT_FALSE(sound_offset(talk(seed, 3'000), talk(seed + 100, 3'000))) << seed;
  // Nor in silence, in steady noise, in what goes round, nor in a moment.
  EXPECT_FALSE(sound_offset(std::string(3'000, '\0'), std::string(3'000, '\0')));
  EXPECT_FALSE(sound_offset(farther(std::string(3'000, 'x'), 1), farther(std::string(3'000, 'x'), 2)));
  std::string beats;
  while (beats.size() < 3'000) beats += std::string(25, '\x40') + std::string(25, '\x70');
  EXPECT_FALSE(sound_offset(beats, beats));
  EXPECT_FALSE(sound_offset(talk(1, 100), talk(1, 100)));
}

LoggedClip clip(const std::string& name, const std::string& content, std::string levels) {
  LoggedClip made;
  made.file = name;
  made.content = content;
  made.log.emplace();
  made.log->facts.duration = MediaTime::from_ms(static_cast<std::int64_t>(levels.size()) * 10);
  made.log->levels = std::move(levels);
  return made;
}

TEST(Duplicates, AreOneGroupOfEqualFilesAndPairsOfMoments) {
  const auto shoot = talk(3, 6'000);
  const auto log =
      compare_clips({clip("a.wav", "1", shoot), clip("b.wav", "1", shoot), clip("c.wav", "1", shoot),
                     clip("d.wav", "2", farther(shoot.substr(500), 4)), clip("e.wav", "3", talk(9, 6'000))});
  ASSERT_EQ(log.duplicates.size(), 2U);
  EXPECT_EQ(log.duplicates[0].kind, Duplicate::Kind::SameFile);
  EXPECT_EQ(log.duplicates[0].clips, (std::vector<std::size_t>{0, 1, 2}));
  EXPECT_EQ(log.duplicates[1].kind, Duplicate::Kind::SameMoment);
  EXPECT_EQ(log.duplicates[1].clips, (std::vector<std::size_t>{0, 3}));
  EXPECT_NEAR(log.duplicates[1].offset.seconds(), 5, 0.01);
}

}  // namespace
}  // namespace panslate
