// Loudness against the signals of EBU Tech 3341 (August 2016) and 3342, drawn here; speech at known times;
// what is wrong with sound.
#include "media/log_sound.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/media/clip_log.h"
#include "panslate/media/render.h"

#include "media/judge.h"
#include "media/samples.h"
#include "media/speech_stretches.h"

namespace panslate {
namespace {

using Channels = std::vector<std::vector<float>>;

constexpr int kRate = 48'000;

struct Tone {
  double decibels;  // peak of the sine, dBFS
  double seconds;
};

// A sine of 1000 Hz in `channels`, one stretch of level after the other.
Channels tones(const std::vector<Tone>& stretches, int channels) {
  std::vector<float> one;
  for (const auto& [decibels, seconds] : stretches) {
    const double height = std::pow(10, decibels / 20);
    const auto count = static_cast<int>(seconds * kRate + 0.5);
    for (int i = 0; i < count; ++i)
      one.push_back(static_cast<float>(
          height * std::sin(2 * std::numbers::pi * 1000 * static_cast<double>(one.size()) / kRate)));
  }
  return Channels(static_cast<std::size_t>(channels), one);
}

// Handed over as a decoder does: in frames of 1024 samples.
Loudness measured(const Channels& sound) {
  auto meter = av::LoudnessMeter::open(static_cast<int>(sound.size()), kRate);
  EXPECT_TRUE(meter);
  for (std::size_t at = 0; at < sound.front().size(); at += 1024) {
    Channels frame;
    for (const auto& channel : sound)
      frame.emplace_back(channel.begin() + static_cast<std::ptrdiff_t>(at),
                         channel.begin() + static_cast<std::ptrdiff_t>(std::min(at + 1024, channel.size())));
    meter->add(frame);
  }
  return meter->measured();
}

struct LoudnessCase {
  const char* name;
  std::vector<Tone> tones;
  double integrated;
};

class IntegratedLoudness : public testing::TestWithParam<LoudnessCase> {};

// EBU Tech 3341, table 1, cases 1 to 5: ±0.1 LU.
TEST_P(IntegratedLoudness, IsAsTech3341Has) {
  const auto loudness = measured(tones(GetParam().tones, 2));
  ASSERT_TRUE(loudness.integrated);
  EXPECT_NEAR(*loudness.integrated, GetParam().integrated, 0.1);
}

INSTANTIATE_TEST_SUITE_P(
    Tech3341, IntegratedLoudness,
    testing::Values(LoudnessCase{"1", {{-23, 20}}, -23}, LoudnessCase{"2", {{-33, 20}}, -33},
                    LoudnessCase{"3", {{-36, 10}, {-23, 60}, {-36, 10}}, -23},
                    LoudnessCase{"4", {{-72, 10}, {-36, 10}, {-23, 60}, {-36, 10}, {-72, 10}}, -23},
                    LoudnessCase{"5", {{-26, 20}, {-20, 20.1}, {-26, 20}}, -23}),
    [](const auto& one) { return "Case" + std::string(one.param.name); });

// Case 6: five channels, 5.0.
TEST(Loudness, WeighsSurroundChannels) {
  const auto front = tones({{-28, 20}}, 1).front();
  const auto centre = tones({{-24, 20}}, 1).front();
  const auto behind = tones({{-30, 20}}, 1).front();
  const auto loudness = measured({front, front, centre, behind, behind});
  ASSERT_TRUE(loudness.integrated);
  EXPECT_NEAR(*loudness.integrated, -23, 0.1);
}

struct PeakCase {
  const char* name;
  int divisor;  // of the sampling rate
  double height;
  double degrees;
  double expected;
};

class TruePeak : public testing::TestWithParam<PeakCase> {};

// EBU Tech 3341, table 1, cases 15 to 19: +0.2/-0.4 dB. Faded in and out for 100 ms, since the filter rings
// at a hard start.
TEST_P(TruePeak, IsAsTech3341Has) {
  const auto& one = GetParam();
  std::vector<float> channel(kRate * 2);
  for (std::size_t i = 0; i < channel.size(); ++i) {
    const double fade =
        std::min({1.0, static_cast<double>(i) / 4800, static_cast<double>(channel.size() - i) / 4800});
    channel[i] = static_cast<float>(fade * one.height *
                                    std::sin(2 * std::numbers::pi * static_cast<double>(i) / one.divisor +
                                             one.degrees * std::numbers::pi / 180));
  }
  const auto peak = measured({channel, channel}).true_peak;
  EXPECT_LE(peak, one.expected + 0.2);
  EXPECT_GE(peak, one.expected - 0.4);
}

INSTANTIATE_TEST_SUITE_P(Tech3341, TruePeak,
                         testing::Values(PeakCase{"15", 4, 0.5, 0, -6}, PeakCase{"16", 4, 0.5, 45, -6},
                                         PeakCase{"17", 6, 0.5, 60, -6}, PeakCase{"18", 8, 0.5, 67.5, -6},
                                         PeakCase{"19", 4, 1.41, 45, 3}),
                         [](const auto& one) { return "Case" + std::string(one.param.name); });

struct RangeCase {
  const char* name;
  std::vector<double> levels;  // 20 s each
  double expected;
};

class LoudnessRange : public testing::TestWithParam<RangeCase> {};

// EBU Tech 3342, table 1, cases 1 to 4: ±1 LU.
TEST_P(LoudnessRange, IsAsTech3342Has) {
  std::vector<Tone> stretches;
  for (const double level : GetParam().levels) stretches.push_back({level, 20});
  EXPECT_NEAR(measured(tones(stretches, 2)).range, GetParam().expected, 1);
}

INSTANTIATE_TEST_SUITE_P(Tech3342, LoudnessRange,
                         testing::Values(RangeCase{"1", {-20, -30}, 10}, RangeCase{"2", {-20, -15}, 5},
                                         RangeCase{"3", {-40, -20}, 20},
                                         RangeCase{"4", {-50, -35, -20, -35, -50}, 15}),
                         [](const auto& one) { return "Case" + std::string(one.param.name); });

// ITU-R BS.1770-4: full scale at 997 Hz in the left channel alone reads -3.01 LKFS.
TEST(Loudness, OfFullScaleInOneChannel) {
  auto sound = tones({{0, 20}}, 2);
  std::fill(sound[1].begin(), sound[1].end(), 0.0F);
  const auto loudness = measured(sound);
  ASSERT_TRUE(loudness.integrated);
  EXPECT_NEAR(*loudness.integrated, -3.01, 0.1);
}

struct Spoken {
  double begin = 0;
  double end = 0;
};

// Lines by synthetic voices at known times, in the noise of a room.
ClipLog with_speech(const std::string& name, const std::string& noise, std::vector<Spoken>& truth) {
  const std::vector<std::pair<double, std::string>> lines{
      {1.5, "warm the oil in a wide pan and add the sliced onions"},
      {8.0, "now two hundred grams of red lentils"},
      {14.5, "stir them well and let them simmer for ten minutes"},
      {22.0, "salt"},
      {26.0, "taste it before you serve it with lemon and herbs"}};
  std::string graph;
  std::string ends;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto voice = i % 2 == 0 ? "slt" : "rms";
    const auto file = samples::make(name + "-" + std::to_string(i) + ".wav", [&] {
      RenderSpec spec;
      spec.graph = "flite=voice=" + std::string(voice) + ":text=" + graph_value(lines[i].second) + "[a]";
      return spec;
    }());
    const auto alone = log_clip(file, {}, {});
    EXPECT_TRUE(alone);
    // A voice begins and ends with a little silence: what lies 40 dB below its loudest moment.
    const auto& levels = alone->levels;
    int loudest = 0;
    for (const char level : levels) loudest = std::max<int>(loudest, static_cast<std::uint8_t>(level));
    std::size_t first = 0;
    std::size_t last = levels.size();
    while (first < last && static_cast<std::uint8_t>(levels[first]) < loudest - 80) ++first;
    while (last > first && static_cast<std::uint8_t>(levels[last - 1]) < loudest - 80) --last;
    truth.push_back({lines[i].first + static_cast<double>(first) / 100,
                     lines[i].first + static_cast<double>(last) / 100});
    const auto label = "[l" + std::to_string(i) + "]";
    graph += "amovie=" + graph_value(file.string()) +
             ",aresample=48000,volume=0.5,adelay=" + std::to_string(static_cast<int>(lines[i].first * 1000)) +
             ":all=1,apad=whole_dur=32" + label + ";";
    ends += label;
  }
  graph += noise + "[n];" + ends + "[n]amix=inputs=" + std::to_string(lines.size() + 1) +
           ":normalize=0:duration=longest[a]";
  RenderSpec spec;
  spec.graph = graph;
  spec.duration = MediaTime::from_seconds(32);
  const auto log = log_clip(samples::make(name + ".wav", spec), {}, {});
  EXPECT_TRUE(log);
  return log.value_or(ClipLog{});
}

double frame_wise_f1(const std::vector<TimeRange>& found, const std::vector<Spoken>& truth, double seconds) {
  int right = 0;
  int missed = 0;
  int wrong = 0;
  for (double t = 0.05; t < seconds; t += 0.1) {
    const bool is = std::any_of(truth.begin(), truth.end(),
                                [t](const Spoken& one) { return one.begin <= t && t < one.end; });
    const bool was = std::any_of(found.begin(), found.end(), [t](const TimeRange& one) {
      return one.begin.seconds() <= t && t < one.end.seconds();
    });
    right += is && was ? 1 : 0;
    missed += is && !was ? 1 : 0;
    wrong += !is && was ? 1 : 0;
  }
  return 2.0 * right / std::max(1, 2 * right + missed + wrong);
}

TEST(Speech, IsFoundInTheNoiseOfARoom) {
  const std::vector<std::pair<std::string, std::string>> rooms{
      {"quiet", "anoisesrc=d=32:c=pink:a=0.002:r=48000:seed=1"},
      {"fan", "anoisesrc=d=32:c=brown:a=0.05:r=48000:seed=2"},
      {"sizzle", "anoisesrc=d=32:c=white:a=0.004:r=48000:seed=3"},
      {"loud", "anoisesrc=d=32:c=pink:a=0.02:r=48000:seed=4"}};
  for (const auto& [name, noise] : rooms) {
    std::vector<Spoken> truth;
    const auto log = with_speech("speech-" + name, noise, truth);
    const double f1 = frame_wise_f1(log.speech, truth, 32);
    std::printf("speech in a room with %s noise: F1 %.3f at 0.1 s\n", name.c_str(), f1);
    EXPECT_GE(f1, 0.95) << name;
  }
}

bool has(const ClipLog& log, FaultKind kind) {
  return std::any_of(log.faults.begin(), log.faults.end(),
                     [kind](const ClipFault& fault) { return fault.kind == kind; });
}

ClipLog log_of(const std::string& name, const std::string& graph, int seconds) {
  RenderSpec spec;
  spec.graph = graph;
  spec.duration = MediaTime::from_seconds(seconds);
  auto log = log_clip(samples::make(name, spec), {}, {});
  EXPECT_TRUE(log);
  return log.value_or(ClipLog{});
}

TEST(SoundFaults, AreTold) {
  const auto clipped = log_of(
      "clipped.wav",
      "sine=f=300:r=48000,volume=20dB,aformat=sample_fmts=s16,volume=enable='between(t,1,2)':volume=9[a]", 3);
  EXPECT_TRUE(has(clipped, FaultKind::ClippedSound));
  const auto silent = log_of("silent.wav", "anullsrc=r=48000,aformat=channel_layouts=stereo[a]", 3);
  ASSERT_TRUE(has(silent, FaultKind::Silent));
  EXPECT_EQ(silent.faults.front().when, (TimeRange{{}, MediaTime::from_seconds(3)}));
  const auto one_sided =
      log_of("one-sided.wav", "sine=f=300:r=48000,volume=10dB,pan=stereo|c0=c0|c1=0*c0[a]", 3);
  EXPECT_TRUE(has(one_sided, FaultKind::OneChannel));
  const auto hum = log_of("hum.wav",
                          "sine=f=50:r=48000,volume=-20dB[h];sine=f=150:r=48000,volume=-30dB[i];anoisesrc=c="
                          "pink:a=0.003:r=48000[n];[h][i][n]amix=inputs=3:normalize=0[a]",
                          6);
  EXPECT_TRUE(has(hum, FaultKind::Hum));
  const auto fine = log_of("fine.wav", "sine=f=300:r=48000,pan=stereo|c0=c0|c1=c0[a]", 3);
  EXPECT_TRUE(fine.faults.empty());
}

// A tone from the 50th second to the 55th: a hundredth of a second holds no whole number of samples at most
// rates, and times must not wander off.
TEST(SoundLevels, KeepTimeAtEveryRate) {
  for (const int rate : {8'000, 11'025, 16'000, 22'050, 44'100, 48'000}) {
    const auto file = samples::folder() / ("tone-at-" + std::to_string(rate) + ".wav");
    (void)outside::shell(
        "ffmpeg -v error -y -f lavfi -i \"aevalsrc='between(t,50,55)*0.5*sin(2*PI*440*t)':s=" +
        std::to_string(rate) + ":d=60\" '" + file.string() + "' </dev/null");
    const auto log = log_clip(file, {}, {});
    ASSERT_TRUE(log) << rate;
    EXPECT_NEAR(static_cast<double>(log->levels.size()), 6'000, 1) << rate;
    const auto sounds = [](char level) { return static_cast<std::uint8_t>(level) > 150; };
    const auto first = std::find_if(log->levels.begin(), log->levels.end(), sounds);
    const auto last = std::find_if(log->levels.rbegin(), log->levels.rend(), sounds);
    EXPECT_NEAR(static_cast<double>(first - log->levels.begin()), 5'000, 1) << rate;
    EXPECT_NEAR(static_cast<double>(last.base() - log->levels.begin()), 5'500, 1) << rate;
  }
}

// A tone that ends before the first picture is no part of the clip, in whatever the sound is told by.
TEST(SoundLevels, BeginWithTheFirstPicture) {
  const auto file = samples::folder() / "early-tone.mkv";
  (void)outside::shell(
      "ffmpeg -v error -y -itsoffset 1 -f lavfi -i testsrc2=s=320x180:r=25:d=4 -f lavfi -i "
      "\"aevalsrc='if(lt(t,0.8),sin(2*PI*440*t),0.01*sin(2*PI*440*t))':s=48000:d=5\" -c:a pcm_s16le '" +
      file.string() + "' </dev/null");
  const auto log = log_clip(file, {}, {});
  ASSERT_TRUE(log);
  ASSERT_TRUE(log->loudness && log->loudness->integrated);
  EXPECT_LT(*log->loudness->integrated, -35);
  EXPECT_LT(log->loudness->true_peak, -35);
  EXPECT_NEAR(static_cast<double>(log->levels.size()), 400, 3);
  EXPECT_FALSE(has(*log, FaultKind::ClippedSound));
}

struct LoudCase {
  const char* name;
  const char* samples;  // an expression of t, for each channel
  bool is_cut_off;
};

class LoudSound : public testing::TestWithParam<LoudCase> {};

// Loud is not too loud: only what was cut off is. Also after lossy coding, which bends what was flat and
// lifts some of what was not over full scale.
TEST_P(LoudSound, IsTooLoudOnlyWhereItWasCutOff) {
  const auto& one = GetParam();
  for (const std::string ending : {".wav", ".m4a"}) {
    const auto file = samples::folder() / (std::string("loud-") + one.name + ending);
    (void)outside::shell("ffmpeg -v error -y -f lavfi -i \"aevalsrc='" + std::string(one.samples) +
                         "':s=48000:d=3\" -b:a 128k '" + file.string() + "' </dev/null");
    const auto log = log_clip(file, {}, {});
    ASSERT_TRUE(log) << file;
    EXPECT_EQ(has(*log, FaultKind::ClippedSound), one.is_cut_off) << file;
  }
}

INSTANTIATE_TEST_SUITE_P(
    SoundFaults, LoudSound,
    testing::Values(LoudCase{"sine", "0.99*sin(2*PI*200*t)", false},
                    LoudCase{"two", "0.99*sin(2*PI*200*t)|0.99*cos(2*PI*200*t)", false},
                    LoudCase{"cut", "clip(1.5*sin(2*PI*200*t),-1,1)", true},
                    LoudCase{"right", "0.3*sin(2*PI*200*t)|clip(1.5*sin(2*PI*200*t),-1,1)", true}),
    [](const auto& one) { return std::string(one.param.name); });

}  // namespace
}  // namespace panslate
