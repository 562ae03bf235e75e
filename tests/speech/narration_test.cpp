// The bench itself: narration of synthetic voices must be what it says.
#include "speech/narration.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace panslate::testing {
namespace {

const std::string kData = PANSLATE_SOURCE_DIR "/tests/data/speech/";

std::vector<std::string> some_lines() {
  return {"put the end of the leek, and i'll add two hundred and fifty grams of butter.",
          "stir it in the pan", "simmer for an hour"};
}

double mean_power(const Narration& narration, MediaTime begin, MediaTime end) {
  double sum = 0;
  const auto first = static_cast<std::size_t>(begin.seconds() * kSampleRate);
  const auto last = std::min(narration.samples.size(), static_cast<std::size_t>(end.seconds() * kSampleRate));
  for (auto i = first; i < last; ++i) sum += std::pow(narration.samples[i], 2);
  return last > first ? sum / static_cast<double>(last - first) : 0;
}

class EachVoice : public ::testing::TestWithParam<Voice> {};

TEST_P(EachVoice, SpeaksEveryWordInOrderInsideTheSound) {
  const auto lines = some_lines();
  const auto narration = narrate(read_out(lines), GetParam());
  std::vector<std::string> words;
  for (const auto& line : lines)
    for (auto& word : words_spoken(line)) words.push_back(word);
  ASSERT_EQ(narration.words.size(), words.size());
  MediaTime last;
  double speech = 0;
  for (std::size_t w = 0; w < words.size(); ++w) {
    const auto& word = narration.words[w];
    EXPECT_EQ(word.word, words[w]);
    EXPECT_GE(word.when.begin, last) << word.word;
    EXPECT_GT(word.when.duration(), MediaTime::from_ms(15)) << word.word;
    EXPECT_LT(word.when.duration(), MediaTime::from_ms(1500)) << word.word;
    EXPECT_LE(word.when.end.seconds(), narration.seconds()) << word.word;
    EXPECT_TRUE(word.time_known) << word.word;
    last = word.when.begin;
    speech += mean_power(narration, word.when.begin, word.when.end) / static_cast<double>(words.size());
  }
  // Between lines it is quiet, within words it is not: the times are those of the sound.
  for (std::size_t w = 1; w < words.size(); ++w)
    if (narration.words[w].said != narration.words[w - 1].said) {
      const auto quiet_from = narration.words[w - 1].when.end + MediaTime::from_ms(100);
      const auto quiet_to = narration.words[w].when.begin - MediaTime::from_ms(50);
      ASSERT_LT(quiet_from, quiet_to);
      EXPECT_LT(mean_power(narration, quiet_from, quiet_to), speech / 1000);
    }
}

TEST_P(EachVoice, IsSlowWhereItIsStretched) {
  const auto lines = some_lines();
  auto slow = GetParam();
  slow.stretch *= 1.25;
  const Pauses none{0, 0, 1};
  const auto usual = narrate(read_out(lines), GetParam(), none).seconds();
  EXPECT_GT(narrate(read_out(lines), slow, none).seconds(), 1.1 * usual);
}

INSTANTIATE_TEST_SUITE_P(Voices, EachVoice,
                         ::testing::Values(Voice{Speaker::Kal16}, Voice{Speaker::Rms}, Voice{Speaker::Awb},
                                           Voice{Speaker::Slt}, Voice{Speaker::Slt, 0.8},
                                           Voice{Speaker::EspeakUs}, Voice{Speaker::EspeakGb, 1.25},
                                           Voice{Speaker::EspeakScotland}, Voice{Speaker::EspeakCaribbean}));

TEST(Narration, BreaksOffRepeatsAndWanders) {
  const std::vector<Said> said{{"add the flour and stir", 0, 3, std::nullopt},
                               {"add the flour and stir", 0, std::nullopt, Said::Inside{2, "oh well"}},
                               {"where was i", std::nullopt, std::nullopt, std::nullopt},
                               {"let it rest", 2, std::nullopt, std::nullopt}};
  const auto narration = narrate(said, {Speaker::EspeakUs});
  std::string told;
  for (const auto& word : narration.words)
    told +=
        word.word + (word.line ? std::to_string(*word.line) + "." + std::to_string(word.in_line) : "-") + " ";
  EXPECT_EQ(
      told,
      "add0.0 the0.1 flour0.2 add0.0 the0.1 oh- well- flour0.2 and0.3 stir0.4 where- was- i- let2.0 it2.1 "
      "rest2.2 ");
  // The sound ends where it is broken off.
  const auto end = narration.words[2].when.end;
  EXPECT_EQ(mean_power(narration, end + MediaTime::from_ms(1), end + MediaTime::from_ms(200)), 0);
}

TEST(Narration, IsTheSameEveryTime) {
  const auto lines = some_lines();
  const auto first = narrate(read_out(lines), {Speaker::Slt});
  static_cast<void>(narrate(read_out(lines), {Speaker::Slt, 0.8}));
  auto second = narrate(read_out(lines), {Speaker::Slt});
  EXPECT_EQ(first.samples, second.samples);
  auto third = first;
  add_noise(second, Noise::Frying, 10, 7);
  add_noise(third, Noise::Frying, 10, 7);
  EXPECT_EQ(second.samples, third.samples);
  EXPECT_NE(first.samples, third.samples);
}

// Its waves go on from what it spoke before; its times must stay.
TEST(Narration, KeepsTheTimesOfEspeak) {
  const auto lines = some_lines();
  const auto first = narrate(read_out(lines), {Speaker::EspeakGb});
  static_cast<void>(narrate(read_out(lines), {Speaker::EspeakGb, 0.8}));
  const auto second = narrate(read_out(lines), {Speaker::EspeakGb});
  ASSERT_EQ(first.words.size(), second.words.size());
  for (std::size_t w = 0; w < first.words.size(); ++w)
    EXPECT_NEAR(first.words[w].when.begin.seconds(), second.words[w].when.begin.seconds(), 0.02);
}

TEST(Narration, HasNoiseOfTheRatioAsked) {
  const auto lines = some_lines();
  const auto clean = narrate(read_out(lines), {Speaker::Kal16});
  double speech = 0;
  double seconds = 0;
  for (const auto& word : clean.words) {
    const double length = word.when.duration().seconds();
    speech += mean_power(clean, word.when.begin, word.when.end) * length;
    seconds += length;
  }
  for (const auto noise : {Noise::White, Noise::Pink, Noise::Frying})
    for (const double snr : {20.0, 10.0}) {
      auto noisy = clean;
      add_noise(noisy, noise, snr);
      // Before the first word there is nothing but noise.
      const double measured =
          10 * std::log10(speech / seconds / mean_power(noisy, MediaTime{}, MediaTime::from_ms(450)));
      EXPECT_NEAR(measured, snr, 1.5);
    }
}

TEST(Narration, RingsOnInARoom) {
  const std::vector<std::string> lines{"stop", "stop"};
  const auto dry = narrate(read_out(lines), {Speaker::Kal16});
  auto wet = dry;
  put_in_room(wet, {.decay_seconds = 0.5, .direct_to_reverberant_db = 0, .seed = 3});
  const auto end = dry.words.front().when.end + MediaTime::from_ms(120);
  EXPECT_EQ(mean_power(dry, end, end + MediaTime::from_ms(50)), 0);
  const auto soon = mean_power(wet, end, end + MediaTime::from_ms(50));
  const auto later = mean_power(wet, end + MediaTime::from_ms(150), end + MediaTime::from_ms(200));
  EXPECT_GT(soon, 0);
  // 60 dB in 0.5 s is 18 dB in 0.15 s.
  EXPECT_NEAR(10 * std::log10(soon / later), 18, 6);
}

struct ScriptSize {
  const char* file;
  std::size_t lines, words, amounts;
};
class SpokenScript : public ::testing::TestWithParam<ScriptSize> {};

TEST_P(SpokenScript, IsLongEnoughAndSpeaksWords) {
  const auto lines = read_spoken_script(kData + GetParam().file);
  std::size_t words = 0;
  std::size_t amounts = 0;
  for (const auto& line : lines) {
    amounts += line.amounts.size();
    for (const auto& word : words_spoken(line.spoken())) {
      ++words;
      EXPECT_TRUE(std::all_of(word.begin(), word.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || c == '\'';
      })) << word;
    }
    for (std::size_t a = 0; a < line.amounts.size(); ++a) {
      EXPECT_GE(line.amounts[a].instead.size(), 3U - 1U) << line.spoken();
      for (std::size_t i = 0; i < line.amounts[a].instead.size(); ++i)
        EXPECT_NE(line.spoken(), line.spoken(ScriptLine::Slip{a, i}));
    }
  }
  std::cout << lines.size() << " lines, " << words << " words, " << amounts << " amounts\n";
  EXPECT_GE(lines.size(), GetParam().lines);
  EXPECT_GE(words, GetParam().words);
  EXPECT_GE(amounts, GetParam().amounts);
}

INSTANTIATE_TEST_SUITE_P(Files, SpokenScript,
                         ::testing::Values(ScriptSize{"aubergine_lentil_bake.txt", 34, 390, 45},
                                           ScriptSize{"coconut_fish_curry.txt", 33, 350, 40}));

}  // namespace
}  // namespace panslate::testing
