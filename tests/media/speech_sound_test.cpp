// A clip's sound on the clip's clock, against what ffmpeg and ffprobe say of the same file.
#include "panslate/media/speech_sound.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <fstream>
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/footage_workers.h"

#include "media/judge.h"
#include "media/run_program.h"
#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

// Made by the outside ffmpeg with these words.
fs::path clip(const std::string& name, const std::vector<std::string>& words) {
  const fs::path file = samples::folder() / name;
  std::vector<std::string> all{"ffmpeg", "-v", "error", "-y"};
  all.insert(all.end(), words.begin(), words.end());
  all.push_back(file.string());
  EXPECT_EQ(outside::run_program(all).status, 0) << name;
  return file;
}

Samples sound_of(const fs::path& file, MediaTime duration) {
  NoProgress progress;
  auto sound = footage_in_this_process().speech_sound(file, duration, progress);
  EXPECT_TRUE(sound) << (sound ? "" : render(sound.error()));
  return sound ? std::move(sound->samples) : Samples{};
}

double level(std::span<const std::int16_t> samples) {
  double sum = 0;
  for (const double sample : samples) sum += sample * sample;
  return samples.empty() ? 0 : std::sqrt(sum / static_cast<double>(samples.size()));
}

double level(const Samples& samples, double from, double to) {
  const auto begin = static_cast<std::size_t>(from * kSpeechRate);
  const auto end = std::min(samples.size(), static_cast<std::size_t>(to * kSpeechRate));
  return begin < end ? level(std::span(samples).subspan(begin, end - begin)) : 0;
}

// Seconds at which a sound of this loudness begins and ends.
double onset(const Samples& samples, int loud) {
  const auto found =
      std::find_if(samples.begin(), samples.end(), [loud](int s) { return std::abs(s) > loud; });
  return static_cast<double>(found - samples.begin()) / kSpeechRate;
}

// Ten seconds of pips, half a second in each: what is loud and quiet by turns is taken for speech.
constexpr const char* kPips = "aevalsrc=0.4*sin(880*PI*t)*lt(mod(t\\,1)\\,0.5):s=48000:d=10";
constexpr const char* kHum = "aevalsrc=0.1*sin(200*PI*t):s=48000:d=10";
constexpr const char* kCard = "testsrc2=s=64x48:r=25:d=10";

TEST(SpeechSound, IsWhatFfmpegMakesOfIt) {
  const auto file = clip("pips.wav", {"-f", "lavfi", "-i", kPips});
  const auto ours = sound_of(file, MediaTime::from_seconds(10));
  const auto theirs = outside::run_program(
      {"ffmpeg", "-v", "error", "-i", file.string(), "-ac", "1", "-ar", "16000", "-f", "s16le", "-"});
  ASSERT_EQ(ours.size() * sizeof(std::int16_t), theirs.output.size());
  Samples judged(ours.size());
  std::memcpy(judged.data(), theirs.output.data(), theirs.output.size());
  int most = 0;
  for (std::size_t i = 0; i < ours.size(); ++i) most = std::max(most, std::abs(ours[i] - judged[i]));
  EXPECT_LE(most, 1);
}

struct Clock {
  std::string name;
  std::vector<std::string> words;
  double first_pip;  // on the clip's clock
  friend void PrintTo(const Clock& c, std::ostream* out) { *out << c.name; }
};

class SpeechSoundClock : public testing::TestWithParam<Clock> {};

TEST_P(SpeechSoundClock, BeginsWithTheFirstPicture) {
  const auto file = clip(GetParam().name, GetParam().words);
  const auto samples = sound_of(file, MediaTime::from_seconds(10));
  // AAC smears an onset by some milliseconds before it.
  EXPECT_NEAR(onset(samples, 2000), GetParam().first_pip, 0.006);
  // The pips stay where they are up to the end.
  EXPECT_GT(level(samples, GetParam().first_pip + 7.05, GetParam().first_pip + 7.45), 3000);
  EXPECT_LT(level(samples, GetParam().first_pip + 7.55, GetParam().first_pip + 7.95), 300);
}

INSTANTIATE_TEST_SUITE_P(
    Clips, SpeechSoundClock,
    testing::Values(
        Clock{"together.mp4", {"-f", "lavfi", "-i", kCard, "-f", "lavfi", "-i", kPips, "-c:a", "aac"}, 0},
        Clock{"late.mp4",
              {"-f", "lavfi", "-i", kCard, "-itsoffset", "0.7", "-f", "lavfi", "-i", kPips, "-c:a", "aac"},
              0.7},
        Clock{"late.mkv",
              {"-f", "lavfi", "-i", kCard, "-itsoffset", "1.3", "-f", "lavfi", "-i", kPips, "-c:a",
               "libmp3lame"},
              1.3},
        // The picture comes later than the sound: the first pip (and its silence) is over by then.
        Clock{"early.mkv",
              {"-f", "lavfi", "-i", kPips, "-itsoffset", "0.8", "-f", "lavfi", "-i", kCard, "-c:a",
               "pcm_s16le"},
              0.2},
        Clock{"stream.ts", {"-f", "lavfi", "-i", kCard, "-f", "lavfi", "-i", kPips, "-c:a", "mp2"}, 0},
        Clock{"resampled.mov",
              {"-f", "lavfi", "-i", kCard, "-f", "lavfi", "-i", kPips, "-ar", "44100", "-c:a", "pcm_s24le"},
              0}),
    [](const auto& named) {
      auto name = named.param.name;
      std::replace(name.begin(), name.end(), '.', '_');
      return name;
    });

TEST(SpeechSound, IsSilentInGapsAndTheRestStaysInPlace) {
  const auto file = clip("gap.mkv", {"-f", "lavfi", "-i", kCard, "-f", "lavfi", "-i", kPips, "-af",
                                     "aselect='not(between(t,3,5))'", "-c:a", "pcm_s16le"});
  const auto samples = sound_of(file, MediaTime::from_seconds(10));
  EXPECT_GT(level(samples, 2.05, 2.45), 3000);
  EXPECT_LT(level(samples, 3.1, 4.9), 1);
  EXPECT_GT(level(samples, 6.05, 6.45), 3000);
  EXPECT_LT(level(samples, 6.55, 6.95), 10);
}

struct Channels {
  std::string name;
  std::string graph;  // of [0] pips and [1] hum
  friend void PrintTo(const Channels& c, std::ostream* out) { *out << c.name; }
};

class SpeechSoundChannels : public testing::TestWithParam<Channels> {};

// Half of an amplitude of 0.4 is what is left of a sine where a dead side is added to it.
TEST_P(SpeechSoundChannels, AreThoseThatSpeak) {
  const auto file =
      clip(GetParam().name + ".wav", {"-f", "lavfi", "-i", kPips, "-f", "lavfi", "-i", kHum,
                                      "-filter_complex", GetParam().graph, "-c:a", "pcm_s16le"});
  const auto samples = sound_of(file, MediaTime::from_seconds(10));
  EXPECT_NEAR(level(samples, 4.05, 4.45), 0.4 * 32768 / std::sqrt(2), 150);
  EXPECT_LT(level(samples, 4.55, 4.95), 30);
}

INSTANTIATE_TEST_SUITE_P(Clips, SpeechSoundChannels,
                         testing::Values(Channels{"both_sides", "[0]pan=stereo|c0=c0|c1=c0"},
                                         Channels{"right_is_dead", "[0]pan=stereo|c0=c0|c1=0*c0"},
                                         Channels{"left_is_dead", "[0]pan=stereo|c0=0*c0|c1=c0"},
                                         Channels{"spill", "[0]pan=stereo|c0=0.02*c0|c1=c0"},
                                         Channels{"turned_over", "[0]pan=stereo|c0=c0|c1=-1*c0"},
                                         Channels{"centre_of_six", "[0]pan=5.1|FC=c0"}),
                         [](const auto& named) { return named.param.name; });

TEST(SpeechSound, OfTheTrackThatSpeaks) {
  const std::vector<std::string> in{"-f", "lavfi", "-i", kCard,   "-f", "lavfi",
                                    "-i", kHum,    "-f", "lavfi", "-i", kPips};
  for (const char* order : {"1 2", "2 1"}) {
    auto words = in;
    for (const char* map : {"0", order[0] == '1' ? "1" : "2", order[0] == '1' ? "2" : "1"})
      words.insert(words.end(), {"-map", map});
    words.insert(words.end(), {"-c:a", "aac"});
    const auto samples =
        sound_of(clip(std::string("tracks") + order[0] + ".mp4", words), MediaTime::from_seconds(10));
    EXPECT_GT(level(samples, 4.05, 4.45), 3000) << order;
    EXPECT_LT(level(samples, 4.6, 4.9), 300) << order;
  }
}

TEST(SpeechSound, StretchesAreThoseOfTheWhole) {
  const auto file = clip("long.mp4", {"-f", "lavfi", "-i", "testsrc2=s=64x48:r=25:d=150", "-f", "lavfi", "-i",
                                      "aevalsrc=0.3*sin(2*PI*t*(200+t)):s=48000:d=150", "-c:a", "aac"});
  const auto whole = sound_of(file, MediaTime::from_seconds(150));
  // From the middle on, as after a worker's death.
  const std::vector<MediaTime> times{MediaTime::from_seconds(60), MediaTime::from_seconds(120)};
  std::vector<Samples> stretches;
  ASSERT_TRUE(take_sound(file, times, MediaTime::from_seconds(30), [&](std::size_t, Result<Samples> stretch) {
    stretches.push_back(*std::move(stretch));
    return true;
  }));
  ASSERT_EQ(stretches.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    const std::size_t at = (60 + 60 * i) * kSpeechRate;
    int most = 0;
    for (std::size_t s = 0; s < stretches[i].size(); ++s)
      most = std::max(most, std::abs(stretches[i][s] - whole[at + s]));
    // Where a piece begins it is put onto the nearest sample: a tone of at most 350 Hz and 0.3 of full scale
    // moves by no more than this in one.
    EXPECT_LE(most, 0.3 * 32768 * 2 * 3.1416 * 350 / kSpeechRate) << i;
  }
}

TEST(SpeechSound, IsRefusedWithAReason) {
  NoProgress progress;
  const auto silent =
      footage_in_this_process().speech_sound(samples::silent_mov(), MediaTime::from_ms(1500), progress);
  ASSERT_FALSE(silent);
  EXPECT_EQ(silent.error().code, ErrorCode::NotMedia);
  EXPECT_EQ(silent.error().message, "there is no sound in it");
  const auto gone = footage_in_this_process().speech_sound(samples::folder() / "gone.mp4",
                                                           MediaTime::from_ms(10), progress);
  ASSERT_FALSE(gone);
  EXPECT_EQ(gone.error().code, ErrorCode::NotFound);
}

// What the facts say of each track, against the packets that ffprobe prints.
TEST(SoundFacts, BeginAndEndWhereFfprobeSays) {
  for (const auto& file :
       {samples::camera_mp4(), samples::broadcast_ts(), samples::old_avi(), samples::narration_wav(),
        clip("late_facts.mkv", {"-f", "lavfi", "-i", kCard, "-itsoffset", "0.7", "-f", "lavfi", "-i", kPips,
                                "-c:a", "pcm_s16le"})}) {
    SCOPED_TRACE(file.filename().string());
    const auto facts = probe_clip(file);
    ASSERT_TRUE(facts && facts->sound.size() == 1);
    const auto sound = outside::packet_times(file, "a:0");
    ASSERT_TRUE(sound);
    const auto picture = outside::packet_times(file, "V:0");
    const double clock = picture ? picture->first : sound->first;
    EXPECT_NEAR(facts->sound[0].begin.seconds(), sound->first - clock, 0.0011);
    EXPECT_NEAR(facts->sound[0].end.seconds(), sound->second - clock, 0.0011);
  }
}

}  // namespace
}  // namespace panslate
