// Sound matched across clips: levels of made-up sound with a known offset.
#include "project/same_moment.h"

#include <algorithm>
#include <ctime>
#include <random>
#include <string>

#include <gtest/gtest.h>

#include "project/sound_match.h"

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

std::optional<MediaTime> sound_offset(std::string_view a, std::string_view b) {
  return SoundMatch({a, b}).offset(0, 1);
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
  NoProgress progress;
  const auto compared =
      compare_clips({clip("a.wav", "1", shoot), clip("b.wav", "1", shoot), clip("c.wav", "1", shoot),
                     clip("d.wav", "2", farther(shoot.substr(500), 4)), clip("e.wav", "3", talk(9, 6'000))},
                    progress);
  ASSERT_TRUE(compared);
  const auto& log = *compared;
  ASSERT_EQ(log.duplicates.size(), 2U);
  EXPECT_EQ(log.duplicates[0].kind, Duplicate::Kind::SameFile);
  EXPECT_EQ(log.duplicates[0].clips, (std::vector<std::size_t>{0, 1, 2}));
  EXPECT_EQ(log.duplicates[1].kind, Duplicate::Kind::SameMoment);
  EXPECT_EQ(log.duplicates[1].clips, (std::vector<std::size_t>{0, 3}));
  EXPECT_NEAR(log.duplicates[1].offset.seconds(), 5, 0.01);
}

// Records what it is told, and stops after so many looks.
class Stopping final : public Progress {
 public:
  explicit Stopping(int looks) : left_(looks) {}
  void step(std::string_view phase, std::int64_t done, std::int64_t total) override {
    EXPECT_EQ(phase, "comparing the clips");
    EXPECT_LE(last_, done);
    EXPECT_LE(done, total);
    last_ = done;
    ++steps;
  }
  [[nodiscard]] bool cancelled() const noexcept override { return left_-- <= 0; }

  int steps = 0;

 private:
  mutable int left_;
  std::int64_t last_ = 0;
};

std::vector<LoggedClip> day_of_shooting(std::size_t count, std::size_t hundredths) {
  std::vector<LoggedClip> clips;
  for (std::size_t i = 0; i < count; ++i)
    clips.push_back(clip(std::to_string(i) + ".wav", std::to_string(i),
                         talk(static_cast<unsigned>(100 + i), hundredths)));
  return clips;
}

TEST(Duplicates, StopWhereverTheyAreToldTo) {
  for (const int looks : {0, 1, 5, 9, 13, 20}) {
    Stopping progress(looks);
    const auto compared = compare_clips(day_of_shooting(6, 1'000), progress);
    ASSERT_FALSE(compared) << looks;
    EXPECT_EQ(compared.error().code, ErrorCode::Cancelled);
  }
  Stopping progress(1'000);
  EXPECT_TRUE(compare_clips(day_of_shooting(6, 1'000), progress));
  EXPECT_EQ(progress.steps, 12);
}

// Every run compares all clips anew: a day of shooting must not keep her waiting. When each pair was
// transformed by the hundredth, these 24 clips of five minutes took 45 s in a release build.
TEST(Duplicates, OfADayOfShootingAreFoundInSeconds) {
#ifdef PANSLATE_SANITIZED
  GTEST_SKIP() << "measured without sanitizers";
#endif
  auto clips = day_of_shooting(24, 30'000);
  clips.back().log->levels = farther(clips.front().log->levels.substr(12'345), 7);
  NoProgress progress;
  const auto begin = std::clock();
  const auto compared = compare_clips(std::move(clips), progress);
  const double seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  std::printf("24 clips of 5 minutes compared in %.2f s of processor time\n", seconds);
  EXPECT_LT(seconds, 6);
  ASSERT_TRUE(compared);
  ASSERT_EQ(compared->duplicates.size(), 1U);
  EXPECT_EQ(compared->duplicates[0].clips, (std::vector<std::size_t>{0, 23}));
  EXPECT_NEAR(compared->duplicates[0].offset.seconds(), 123.45, 0.01);
}

}  // namespace
}  // namespace panslate
