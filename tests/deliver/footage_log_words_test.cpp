// What a cook reads of her footage: on the page, in the table, in sentences.
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "panslate/deliver/footage_log_files.h"

namespace panslate {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

PictureFacts picture(std::int32_t num, std::int32_t den, int width = 1920, int height = 1080) {
  PictureFacts out;
  out.width = out.shown_width = width;
  out.height = out.shown_height = height;
  out.frame_rate = {num, den};
  out.codec = "h264";
  return out;
}

LoggedClip clip(const std::string& file, std::optional<PictureFacts> picture, std::size_t sounds = 1) {
  LoggedClip out;
  out.file = file;
  out.log.emplace();
  out.log->facts.file = file;
  out.log->facts.duration = MediaTime::from_seconds(60);
  out.log->facts.picture = std::move(picture);
  for (std::size_t i = 0; i < sounds; ++i)
    out.log->facts.sound.push_back({i == 0 ? 2 : 1,
                                    48'000,
                                    i == 0 ? "stereo" : "mono",
                                    i == 0 ? "aac" : "pcm_s16le",
                                    {},
                                    MediaTime::from_seconds(60)});
  return out;
}

FootageLog log_of(std::vector<LoggedClip> clips) {
  NoProgress progress;
  auto log = compare_clips(std::move(clips), progress);
  EXPECT_TRUE(log);
  return log ? *std::move(log) : FootageLog{};
}

struct KindCase {
  LoggedClip clip;
  std::string words;
};

TEST(FootageWords, CallAClipTheSameEverywhere) {
  auto hdr = picture(30'000, 1001, 3840, 2160);
  hdr.hdr = true;
  auto varying = picture(274, 10);
  varying.variable_rate = true;
  const std::vector<KindCase> cases{
      {clip("a.mov", {}, 0), "timecode only"},
      {clip("a.wav", {}), "sound only"},
      {clip("a.mp4", picture(25, 1)), "1920 × 1080, 25 a second"},
      {clip("b.mp4", hdr), "3840 × 2160, HDR, 29.97 a second"},
      {clip("c.mp4", varying, 0), "1920 × 1080, about 27.4 a second, varying"},
  };
  for (const auto& one : cases) {
    EXPECT_EQ(kind_words(one.clip.log->facts), one.words);
    const auto log = log_of({one.clip});
    EXPECT_THAT(footage_log_csv(log), HasSubstr(one.words));
    EXPECT_THAT(contact_sheet(log, "results"), HasSubstr(one.words));
  }
}

TEST(FootageWords, SayWhichTrackWasListenedTo) {
  auto two = clip("a.mov", picture(25, 1), 2);
  two.log->sound_track = 1;
  using Words = std::vector<std::string>;
  EXPECT_EQ(sound_words(*two.log, LoudnessWords::Short), (Words{"no speech", "track 2 of 2"}));
  auto spoken = clip("b.mov", picture(25, 1));
  spoken.log->speech = {{MediaTime{}, MediaTime::from_seconds(42)}};
  spoken.log->loudness = Loudness{-23.04, 4.1, -3.2};
  EXPECT_EQ(sound_words(*spoken.log, LoudnessWords::Short), (Words{"speech 0:42", "-23 LUFS"}));
  EXPECT_EQ(sound_words(*spoken.log, LoudnessWords::Full),
            (Words{"speech 0:42", "loudness -23.0 LUFS, range 4.1 LU, peak -3.2 dBTP"}));
  EXPECT_EQ(sound_words(*clip("c.mov", picture(25, 1), 0).log, LoudnessWords::Full), (Words{"no sound"}));
  const auto log = log_of({two});
  EXPECT_THAT(contact_sheet(log, "results"), HasSubstr("track 2 of 2"));
  const auto json = nlohmann::json::parse(footage_log_json(log, Stills::NotSaved), nullptr, false);
  EXPECT_EQ(json["clips"][0]["audio_codec"], "pcm_s16le");
  EXPECT_EQ(json["clips"][0]["channels"], 1);
}

struct MixedCase {
  std::vector<FrameRate> rates;
  std::string words;
};

TEST(FootageWords, SayMostOnlyWhereMoreThanHalfAreAlike) {
  const std::vector<MixedCase> cases{
      {{{25, 1}, {30'000, 1001}},
       "The clips have different frame rates: 25 a second in 0.mp4; 29.97 a second in 1.mp4"},
      {{{30'000, 1001}, {25, 1}, {25, 1}},
       "The clips have different frame rates: most have 25 a second; 29.97 a second in 0.mp4"},
      {{{24, 1}, {24, 1}, {25, 1}, {30, 1}},
       "The clips have different frame rates: 24 a second in 0.mp4, 1.mp4; 25 a second in 2.mp4; 30 a second "
       "in 3.mp4"},
      {{{24, 1}, {24, 1}, {24, 1}, {24, 1}, {24, 1}, {50, 1}, {50, 1}, {50, 1}, {50, 1}},
       "The clips have different frame rates: most have 24 a second; 50 a second in 5.mp4, 6.mp4, 7.mp4 and "
       "1 more"},
  };
  for (const auto& one : cases) {
    std::vector<LoggedClip> clips;
    for (const auto& rate : one.rates)
      clips.push_back(clip(std::to_string(clips.size()) + ".mp4", picture(rate.num, rate.den), 0));
    const auto log = log_of(std::move(clips));
    ASSERT_EQ(log.warnings.size(), 1U) << one.words;
    EXPECT_EQ(spelling_of(log.warnings.front().kind), "mixed-rates");
    EXPECT_EQ(warning_words(log, log.warnings.front()), one.words);
  }
}

TEST(FootageWords, TellWhatIsOddOfAClip) {
  auto odd = clip("a.mov", picture(25, 1));
  odd.log->facts.warnings = {"the sound is coded in a way that is not known here"};
  const auto log = log_of({odd});
  ASSERT_EQ(log.warnings.size(), 1U);
  EXPECT_EQ(warning_words(log, log.warnings.front()),
            "a.mov: the sound is coded in a way that is not known here");
  const auto json = nlohmann::json::parse(footage_log_json(log, Stills::NotSaved), nullptr, false);
  EXPECT_EQ(json["clips"][0]["status"], "ok");
  // What the header says of a clip that breaks off is told once, as damage.
  odd.log->facts.warnings = {"the file breaks off: it says it lasts 0:20"};
  odd.log->faults = {{FaultKind::Damaged, {{}, MediaTime::from_seconds(20)}, "the clip breaks off"}};
  EXPECT_TRUE(log_of({odd}).warnings.empty());
}

// She may delete one of them: which is which must be clear.
TEST(FootageWords, NameFoldersWhereClipsHaveOneName) {
  FootageLog log;
  log.clips = {clip("card/a.mov", picture(25, 1)), clip("copy/a.mov", picture(25, 1)),
               clip("copy/b.mov", picture(25, 1))};
  EXPECT_EQ(duplicate_words(log, {{0, 1}, Duplicate::Kind::SameFile, {}}),
            "card/a.mov and copy/a.mov are the same clip");
  EXPECT_EQ(duplicate_words(log, {{0, 2}, Duplicate::Kind::SameFile, {}}),
            "a.mov and b.mov are the same clip");
  EXPECT_EQ(duplicate_words(log, {{0, 1}, Duplicate::Kind::SameMoment, MediaTime::from_ms(-1'480)}),
            "card/a.mov and copy/a.mov hold the same moment: card/a.mov begins 1.48 s later");
}

// Sixty moments of little weight, then what matters.
TEST(FootageWords, TellTheWorstFirstAndWhatIsLeftOut) {
  auto spoilt = clip("a.mov", picture(25, 1));
  auto& faults = spoilt.log->faults;
  const auto at = [](int second) {
    return TimeRange{MediaTime::from_seconds(second), MediaTime::from_seconds(second + 1)};
  };
  for (int i = 0; i < 60; ++i) faults.push_back({FaultKind::Shaky, at(i), ""});
  faults.push_back({FaultKind::DroppedFrames, at(70), "3 frames are missing"});
  faults.push_back({FaultKind::Damaged, at(80), "the clip breaks off at 1:20"});
  const auto worst = worst_first(*spoilt.log);
  ASSERT_EQ(worst.size(), faults.size());
  EXPECT_EQ(worst[0].kind, FaultKind::Damaged);
  EXPECT_EQ(worst[1].kind, FaultKind::DroppedFrames);
  for (std::size_t i = 3; i < worst.size(); ++i) EXPECT_LE(worst[i - 1].when.begin, worst[i].when.begin);
  for (int i = 0; i < 70; ++i) {
    LoggedShot shot;
    shot.when = at(i);
    shot.still.emplace();
    spoilt.log->shots.push_back(shot);
  }
  const auto page = contact_sheet(log_of({spoilt}), "results");
  EXPECT_THAT(page, HasSubstr("breaks off at 1:20"));
  EXPECT_THAT(page, HasSubstr("3 frames are missing"));
  EXPECT_THAT(page, HasSubstr("and 22 more, see log.csv"));
  EXPECT_THAT(page, HasSubstr("and 10 more, see log.csv"));
  EXPECT_THAT(contact_sheet(log_of({clip("b.mov", picture(25, 1))}), "results"),
              Not(HasSubstr("more, see log.csv")));
}

}  // namespace
}  // namespace panslate
