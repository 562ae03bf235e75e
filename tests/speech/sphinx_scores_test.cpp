// Our scores of senones against PocketSphinx's own, which it writes down where it is told to (-senlogdir), on
// human speech (Debian's package pocketsphinx-testdata).
#include "speech/sphinx_scores.h"

#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <unistd.h>

#include "panslate/speech/recogniser.h"

#include "speech/sphinx_sound.h"

namespace panslate {
namespace {

const std::string kTestData = "/usr/share/pocketsphinx/test/data/";

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<std::int16_t> sound_of(const std::string& name) {
  const auto bytes = bytes_of(kTestData + name);
  std::vector<std::int16_t> sound(bytes.size() / sizeof(std::int16_t));
  std::memcpy(sound.data(), bytes.data(), sound.size() * sizeof(std::int16_t));
  return sound;
}

class SenoneScores : public testing::TestWithParam<const char*> {
 protected:
  void SetUp() override {
    silence_the_log();
    std::filesystem::create_directories(folder);
  }
  void TearDown() override { std::filesystem::remove_all(folder); }

  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("panslate-scores-" + std::to_string(::getpid()));
  const std::filesystem::path model = default_speech_model() / "en-us";
};

TEST_P(SenoneScores, AreThoseOfTheLibrary) {
  const auto sound = sound_of(GetParam());
  if (sound.empty()) GTEST_SKIP() << "needs the package pocketsphinx-testdata";

  SphinxConfig config(cmd_ln_init(nullptr, ps_args(), TRUE, "-hmm", model.c_str(), "-compallsen", "yes",
                                  "-remove_silence", "no", "-senlogdir", folder.c_str(),
                                  static_cast<const char*>(nullptr)));
  ASSERT_NE(config, nullptr);
  const SphinxDecoder decoder(ps_init(config.get()));
  ASSERT_NE(decoder, nullptr);
  // Whatever is searched for: not all phones, whose search in the library leaks.
  ASSERT_GE(ps_add_word(decoder.get(), "a", "AH", TRUE), 0);
  ASSERT_EQ(ps_set_keyphrase(decoder.get(), "word", "a"), 0);
  ASSERT_EQ(ps_set_search(decoder.get(), "word"), 0);
  ASSERT_EQ(ps_start_stream(decoder.get()), 0);
  ASSERT_EQ(ps_start_utt(decoder.get()), 0);
  ASSERT_GT(ps_process_raw(decoder.get(), sound.data(), sound.size(), FALSE, TRUE), 0);
  ASSERT_EQ(ps_end_utt(decoder.get()), 0);

  auto mixtures = read_mixtures(model, ps_get_logmath(decoder.get()), 0.0001);
  ASSERT_TRUE(mixtures);
  SphinxScorer scorer(*std::move(mixtures), ps_get_logmath(decoder.get()));
  ASSERT_TRUE(scorer.takes(ps_get_feat(decoder.get())));
  const auto ours = SoundScores::of(sound, ps_get_fe(decoder.get()), ps_get_feat(decoder.get()));
  ASSERT_NE(ours, nullptr);

  const std::filesystem::directory_iterator log(folder);
  ASSERT_NE(log, std::filesystem::directory_iterator());
  const auto theirs = bytes_of(log->path());
  constexpr std::string_view kEnd = "endhdr\n";
  auto at = theirs.find(kEnd) + kEnd.size() + sizeof(std::uint32_t);
  const auto frame_size = sizeof(std::int16_t) * (1 + scorer.senones());
  ASSERT_EQ((theirs.size() - at) % frame_size, 0U);
  ASSERT_EQ((theirs.size() - at) / frame_size, ours->frames());
  std::vector<std::int16_t> frame(1 + scorer.senones());
  std::size_t other = 0;
  for (std::size_t i = 0; i < ours->frames(); ++i, at += frame_size) {
    std::memcpy(frame.data(), theirs.data() + at, frame_size);
    const auto scores = ours->at(i, scorer);
    for (std::size_t senone = 0; senone < scores.size(); ++senone)
      other += scores[senone] != frame[1 + senone] ? 1 : 0;
  }
  EXPECT_EQ(other, 0U) << "of " << ours->frames() * scorer.senones();
}

INSTANTIATE_TEST_SUITE_P(People, SenoneScores,
                         testing::Values("goforward.raw", "numbers.raw", "something.raw"));

TEST(SphinxModel, IsNotReadFromDamagedFiles) {
  const auto model = default_speech_model() / "en-us";
  const auto folder =
      std::filesystem::temp_directory_path() / ("panslate-model-" + std::to_string(::getpid()));
  const std::unique_ptr<logmath_t, SphinxFree<logmath_free>> logarithms(logmath_init(1.0001, 0, TRUE));
  for (const auto* const damaged : {"", "means", "variances", "mdef", "sendump"}) {
    std::filesystem::create_directories(folder);
    for (const auto* const name : {"means", "variances", "mdef", "sendump"}) {
      auto bytes = bytes_of(model / name);
      if (name == std::string_view(damaged)) bytes.resize(bytes.size() / 2);
      std::ofstream(folder / name, std::ios::binary) << bytes;
    }
    EXPECT_EQ(read_mixtures(folder, logarithms.get(), 0.0001).has_value(), std::string_view(damaged).empty())
        << damaged;
    std::filesystem::remove_all(folder);
  }
  EXPECT_FALSE(read_mixtures(folder, logarithms.get(), 0.0001));
}

// Cut anywhere, and with each number of its head the largest that there is: never read beyond its end, never
// given memory for what it does not hold.
TEST(SphinxModel, IsNotReadFromFilesThatPromiseMore) {
  const auto model = default_speech_model() / "en-us";
  const auto folder =
      std::filesystem::temp_directory_path() / ("panslate-promises-" + std::to_string(::getpid()));
  const std::unique_ptr<logmath_t, SphinxFree<logmath_free>> logarithms(logmath_init(1.0001, 0, TRUE));
  std::filesystem::create_directories(folder);
  for (const auto* const name : {"means", "variances", "mdef", "sendump"})
    std::filesystem::copy_file(model / name, folder / name);
  ASSERT_TRUE(read_mixtures(folder, logarithms.get(), 0.0001));
  for (const auto* const name : {"means", "mdef", "sendump"}) {
    const auto whole = bytes_of(model / name);
    for (std::size_t length = 0; length < whole.size(); length += length < 8 ? 2 : length) {
      std::ofstream(folder / name, std::ios::binary) << whole.substr(0, length);
      EXPECT_FALSE(read_mixtures(folder, logarithms.get(), 0.0001)) << name << " cut at " << length;
    }
    for (std::size_t at = 0; at + sizeof(std::int32_t) <= 80; at += 4) {
      auto bytes = whole.substr(0, whole.size() / 2);
      bytes.replace(at, sizeof(std::int32_t), "\xff\xff\xff\x7f", sizeof(std::int32_t));
      std::ofstream(folder / name, std::ios::binary) << bytes;
      EXPECT_FALSE(read_mixtures(folder, logarithms.get(), 0.0001)) << name << " at " << at;
    }
    std::filesystem::copy_file(model / name, folder / name,
                               std::filesystem::copy_options::overwrite_existing);
  }
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace panslate
