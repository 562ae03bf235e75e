// The three forms of the on-screen text, read back by our own reader and by libavformat: all must say the
// same.
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include <gtest/gtest.h>
#include <unistd.h>

#include "panslate/base/text.h"
#include "panslate/deliver/overlay.h"
#include "panslate/speech/transcript.h"

#include "support/golden.h"
#include "support/sample_check.h"

namespace panslate {
namespace {

OverlayTrack sample_track() {
  OverlayTrack track;
  const auto add = [&](std::int64_t begin, std::int64_t end, std::string text) {
    OverlayText one;
    one.when = testing::ms_range(begin, end);
    one.text = std::move(text);
    track.texts.push_back(std::move(one));
  };
  add(0, 2'000, "pearl barley · 250 g (1¼ cups)");
  add(2'000, 4'980, "crème fraîche · 100 ml\nmustard · 1 tbsp");
  add(61'230, 63'230, "oven · 180 °C (160 °C fan, gas 4)");
  add(3'661'990, 3'663'990, "salt & pepper · 1 tsp");
  return track;
}

std::vector<std::string> cues_of(const std::string& bytes) {
  const auto transcript = read_captions(bytes, "overlay");
  if (!transcript) return {render(transcript.error())};
  std::vector<std::string> cues;
  for (const auto& cue : transcript->cues)
    cues.push_back(std::to_string(cue.when.begin.to_ms(Round::Nearest)) + "-" +
                   std::to_string(cue.when.end.to_ms(Round::Nearest)) + " " +
                   join(split(cue.text, '\n'), " / "));
  return cues;
}

const std::vector<std::string> kExpected{
    "0-2000 pearl barley · 250 g (1¼ cups)", "2000-4980 crème fraîche · 100 ml / mustard · 1 tbsp",
    "61230-63230 oven · 180 °C (160 °C fan, gas 4)", "3661990-3663990 salt & pepper · 1 tsp"};

TEST(OverlayFiles, ReadBackByOurOwnReader) {
  EXPECT_EQ(cues_of(write_subrip(sample_track())), kExpected);
  EXPECT_EQ(cues_of(write_webvtt(sample_track())), kExpected);
}

// What libavformat and libavcodec make of a file, as SubRip.
std::string through_ffmpeg(const std::string& name, const std::string& bytes) {
  const auto folder =
      std::filesystem::temp_directory_path() / ("panslate-overlay-" + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  const auto in = folder / name;
  const auto out = folder / (name + ".out.srt");
  std::ofstream(in, std::ios::binary) << bytes;
  const auto command = "ffmpeg -nostdin -v error -y -i '" + in.string() + "' '" + out.string() + "'";
  if (std::system(command.c_str()) != 0)
    return "ffmpeg failed";  // NOLINT(cert-env33-c,concurrency-mt-unsafe)
  std::ifstream result(out, std::ios::binary);
  std::string text((std::istreambuf_iterator<char>(result)), std::istreambuf_iterator<char>());
  std::filesystem::remove_all(folder);
  return text;
}

// How many events libavformat finds in a file.
std::string events_in(const std::string& name, const std::string& bytes) {
  const auto file =
      std::filesystem::temp_directory_path() / ("panslate-events-" + std::to_string(::getpid()) + "-" + name);
  std::ofstream(file, std::ios::binary) << bytes;
  const auto command = "ffprobe -v error -count_packets -show_entries stream=nb_read_packets -of csv=p=0 '" +
                       file.string() + "' > '" + file.string() + ".count'";
  if (std::system(command.c_str()) != 0)
    return "ffprobe failed";  // NOLINT(cert-env33-c,concurrency-mt-unsafe)
  std::string count;
  std::ifstream(file.string() + ".count") >> count;
  std::filesystem::remove(file);
  std::filesystem::remove(file.string() + ".count");
  return count;
}

bool has_ffmpeg() {
  return std::system("ffmpeg -version > /dev/null 2>&1") == 0;
}  // NOLINT(cert-env33-c,concurrency-mt-unsafe)

TEST(OverlayFiles, LibavformatReadsAllThreeAlike) {
  if (!has_ffmpeg()) GTEST_SKIP() << "no ffmpeg here";
  EXPECT_EQ(cues_of(through_ffmpeg("o.srt", write_subrip(sample_track()))), kExpected);
  EXPECT_EQ(cues_of(through_ffmpeg("o.vtt", write_webvtt(sample_track()))), kExpected);
  EXPECT_EQ(cues_of(through_ffmpeg("o.ass", write_ass(sample_track(), 1920, 1080))), kExpected);
  EXPECT_EQ(cues_of(through_ffmpeg("u.ass", write_ass(sample_track(), 1080, 1920))), kExpected);
}

TEST(OverlayFiles, HostileTextNeitherEndsACueNorStartsATag) {
  OverlayTrack track = sample_track();
  track.texts[0].text = "a\n\n2\n00:00:09,000 --> 00:00:10,000\n<i>b</i> {\\an8}c\\Nd,e\r\n\r\nf";
  for (const auto& bytes : {write_subrip(track), write_webvtt(track)}) {
    const auto transcript = read_captions(bytes, "overlay");
    ASSERT_TRUE(transcript);
    EXPECT_EQ(transcript->cues.size(), 4U);
  }
  const auto ass = write_ass(track, 1920, 1080);
  std::size_t events = 0;
  for (const auto& line : split_lines(ass)) events += line.text.starts_with("Dialogue: ") ? 1U : 0U;
  EXPECT_EQ(events, 4U);
  if (!has_ffmpeg()) return;
  for (const auto& [name, bytes] :
       {std::pair{"h.srt", write_subrip(track)}, {"h.vtt", write_webvtt(track)}, {"h.ass", ass}})
    EXPECT_EQ(events_in(name, bytes), "4") << name;
}

TEST(OverlayFiles, Goldens) {
  testing::expect_golden("overlay.srt", write_subrip(sample_track()));
  testing::expect_golden("overlay.vtt", write_webvtt(sample_track()));
  testing::expect_golden("overlay.ass", write_ass(sample_track(), 1920, 1080));
  testing::expect_golden("overlay-upright.ass", write_ass(sample_track(), 1080, 1920));
}

TEST(OverlayFiles, AnEmptyTrackIsStillAFile) {
  EXPECT_EQ(write_subrip({}), "");
  EXPECT_TRUE(write_webvtt({}).starts_with("WEBVTT\n"));
  EXPECT_TRUE(write_ass({}, 0, 0).find("PlayResX: 1920") != std::string::npos);
}

}  // namespace
}  // namespace panslate
