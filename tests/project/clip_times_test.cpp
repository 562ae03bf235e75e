#include "project/clip_times.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/base/timestamp.h"

namespace panslate {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

ClipFacts film(std::int64_t ms, FrameRate rate = {25, 1},
               std::optional<std::string> timecode = std::nullopt) {
  ClipFacts facts;
  facts.duration = MediaTime::from_ms(ms);
  facts.picture.emplace();
  facts.picture->frame_rate = rate;
  facts.timecode = std::move(timecode);
  return facts;
}

ClipFacts sound(std::int64_t ms) {
  ClipFacts facts;
  facts.duration = MediaTime::from_ms(ms);
  return facts;
}

MediaEntry media(std::string id, MediaRole role = MediaRole::Camera) {
  return {std::move(id), "x.mp4", role, Place{"p.json", 1, 1}, Place{"p.json", 1, 2}};
}

// As load_project leaves it: times known, pending, or left out.
Segment segment(std::string id, const std::string& in, const std::string& out, const std::string& at = {}) {
  Segment s;
  s.id = std::move(id);
  s.in = {in, false, Place{"p.json", 2, 1}};
  s.out = {out, out.empty(), Place{"p.json", 3, 1}};
  s.at = {at, false, Place{"p.json", 4, 1}};
  s.place = Place{"p.json", 5, 1};
  const auto begin = in.empty() ? MediaTime() : parse_timestamp(in);
  const auto end = parse_timestamp(out);
  s.in.pending = !begin;
  s.out.pending = !end;
  if (begin) s.range = {*begin, end.value_or(*begin)};  // empty while one of them is pending
  if (!at.empty()) {
    s.edit_begin = parse_timestamp(at);
    s.at.pending = !s.edit_begin;
  }
  return s;
}

std::vector<std::string> settle(Project& project, const std::vector<std::optional<ClipFacts>>& clips) {
  std::vector<std::string> told;
  for (const auto& error : settle_clip_times(project, clips)) told.push_back(render(error));
  return told;
}

struct RangeCase {
  std::string in, out;
  ClipFacts facts;
  std::int64_t begin_ms, end_ms;
  std::string why;
};

TEST(ClipTimes, SettlesWhatWaitedForTheClip) {
  const RangeCase cases[] = {
      {"0:01", "0:02", film(10000), 1000, 2000, "known before"},
      {"", "", film(9480), 0, 9480, "the whole clip"},
      {"0:01", "", film(9480), 1000, 9480, "to the clip's end"},
      {"", "0:03", film(9480), 0, 3000, "from the clip's beginning"},
      {"0:01", "00:00:09.500", film(9480), 1000, 9480, "20 ms past the end is less than a frame of 40 ms"},
      {"0:01", "00:00:09.520", film(9480), 1000, 9480, "one frame past the end"},
      {"0:01", "00:00:05.040", sound(5000), 1000, 5000, "sound has no frames: 40 ms"},
      {"10:00:01:00", "10:00:02:12", film(10000, {25, 1}, "10:00:00:00"), 1000, 2480,
       "2 s and 12 frames of 40 ms"},
      {"10:00:01:00", "", film(10000, {25, 1}, "10:00:00:00"), 1000, 10000, "timecode to the clip's end"},
      {"0:01", "10:00:02:12", film(10000, {25, 1}, "10:00:00:00"), 1000, 2480, "a time and a timecode"},
      {"10:00:01:00", "0:02.5", film(10000, {25, 1}, "10:00:00:00"), 1000, 2500, "a timecode and a time"},
      {"00:00:00:10", "00:00:01:00", film(10000, {25, 1}, "23:59:59:00"), 1400, 2000, "runs past midnight"},
  };
  for (const auto& [in, out, facts, begin, end, why] : cases) {
    SCOPED_TRACE(why);
    Project project;
    project.media = {media("pan")};
    project.segments = {segment("s1", in, out)};
    EXPECT_THAT(settle(project, {facts}), IsEmpty());
    const auto& settled = project.segments[0];
    EXPECT_EQ(settled.range, (TimeRange{MediaTime::from_ms(begin), MediaTime::from_ms(end)}));
    EXPECT_FALSE(settled.in.pending);
    EXPECT_FALSE(settled.out.pending);
  }
}

// 00:01:00;02 is frame 1800 of drop-frame, 00:10:00;00 is frame 17982 (SMPTE ST 12-1), each frame 1001/30000
// s.
TEST(ClipTimes, CountsDropFrame) {
  Project project;
  project.media = {media("pan")};
  project.segments = {segment("s1", "00:01:00;02", "00:10:00;00")};
  EXPECT_THAT(settle(project, {film(700000, {30000, 1001}, "00:00:00;00")}), IsEmpty());
  EXPECT_EQ(project.segments[0].range.begin, MediaTime::from_frames(1800, {30000, 1001}));
  EXPECT_EQ(project.segments[0].range.begin.to_ms(Round::Down), 60060);
  EXPECT_EQ(project.segments[0].range.end.to_ms(Round::Down), 599999);
}

struct MistakeCase {
  Segment segment;
  ClipFacts facts;
  std::string told;
};

TEST(ClipTimes, TellsWhatTheClipContradicts) {
  const auto with_timecode = film(10000, {25, 1}, "10:00:00:00");
  const auto drop_frame = film(60000, {30000, 1001}, "10:00:00;00");
  const MistakeCase cases[] = {
      {segment("s1", "0:01", "0:12"), film(9480),
       "p.json:3:1: error: part \"s1\": ends at 00:00:12.000, past the end of clip \"pan\", which is "
       "00:00:09.480 "
       "long\n  hint: without \"out\" it goes to the end of the clip"},
      {segment("s1", "0:01", "00:00:09.521"), film(9480),
       "p.json:3:1: error: part \"s1\": ends at 00:00:09.521, past the end of clip \"pan\", which is "
       "00:00:09.480 "
       "long\n  hint: without \"out\" it goes to the end of the clip"},
      {segment("s1", "0:10", "0:12"), film(9480),
       "p.json:2:1: error: part \"s1\": begins at 00:00:10.000, past the end of clip \"pan\", which is "
       "00:00:09.480 "
       "long"},
      {segment("s1", "0:10", ""), film(9480),
       "p.json:2:1: error: part \"s1\": begins at 00:00:10.000, past the end of clip \"pan\", which is "
       "00:00:09.480 "
       "long"},
      {segment("s1", "00:00:01:00", ""), film(9480),
       "p.json:2:1: error: part \"s1\": 00:00:01:00 is timecode, and clip \"pan\" carries none\n"
       "  hint: write the time on the clip's own clock, such as 00:00:01.000"},
      {segment("s1", "", "00:00:01:00"), sound(9480),
       "p.json:3:1: error: part \"s1\": 00:00:01:00 is timecode, and clip \"pan\" carries none\n"
       "  hint: write the time on the clip's own clock, such as 00:00:01.000"},
      {segment("s1", "10:00:01:25", ""), with_timecode,
       "p.json:2:1: error: part \"s1\": '10:00:01:25' is no timecode: at this rate frames go from 00 to 24\n"
       "  hint: write HH:MM:SS:FF, or HH:MM:SS;FF for drop-frame"},
      {segment("s1", "09:59:59:24", ""), with_timecode,
       "p.json:2:1: error: part \"s1\": 09:59:59:24 is before the beginning of clip \"pan\", which is "
       "10:00:00:00"},
      {segment("s1", "10:00:11:00", ""), with_timecode,
       "p.json:2:1: error: part \"s1\": begins at 00:00:11.000, past the end of clip \"pan\", which is "
       "00:00:10.000 "
       "long"},
      {segment("s1", "10:00:03:00", "10:00:02:00"), with_timecode,
       "p.json:3:1: error: part \"s1\": ends at 00:00:02.000, but begins at 00:00:03.000\n"
       "  hint: out is later than in"},
      {segment("s1", "10:00:01:00", ""), drop_frame,
       "p.json:2:1: error: part \"s1\": 10:00:01:00 does not count as clip \"pan\" does, which begins at "
       "10:00:00;00\n  hint: write HH:MM:SS;FF"},
      {segment("s1", "10:00:01;00", ""), film(60000, {30000, 1001}, "10:00:00:00"),
       "p.json:2:1: error: part \"s1\": 10:00:01;00 does not count as clip \"pan\" does, which begins at "
       "10:00:00:00\n  hint: write HH:MM:SS:FF"},
      {segment("s1", "10:01:00;00", ""), drop_frame,
       "p.json:2:1: error: part \"s1\": '10:01:00;00' is no timecode: drop-frame skips this label; the next "
       "is "
       "10:01:00;02\n  hint: write HH:MM:SS:FF, or HH:MM:SS;FF for drop-frame"},
      {segment("s1", "", "", "00:00:01:00"), film(9480),
       "p.json:4:1: error: part \"s1\": 00:00:01:00 is timecode, and there is no edit that could carry it\n"
       "  hint: write the time from the edit's beginning, such as 00:00:01.000"},
  };
  for (const auto& [given, facts, told] : cases) {
    SCOPED_TRACE(told);
    Project project;
    project.media = {media("pan")};
    project.segments = {given};
    EXPECT_THAT(settle(project, {facts}), ElementsAre(told));
  }
}

TEST(ClipTimes, HoldsPlacesAgainstTheEdit) {
  struct Case {
    std::string at;
    std::vector<std::string> told;
  };
  const Case cases[] = {
      {"0:00", {}},
      {"0:08", {}},
      {"00:00:08.040", {}},  // a frame past the end
      {"00:00:08.041",
       {"p.json:4:1: error: part \"s1\": stands in the edit from 00:00:08.041 to 00:00:10.041, and the edit "
        "is "
        "00:00:10.000 long\n  hint: correct its place, or export the edit again"}},
      {"0:10",
       {"p.json:4:1: error: part \"s1\": stands in the edit from 00:00:10.000 to 00:00:12.000, and the edit "
        "is "
        "00:00:10.000 long\n  hint: correct its place, or export the edit again"}},
      {"01:00:04:00", {}},  // the edit's own timecode
      {"01:00:09:00",
       {"p.json:4:1: error: part \"s1\": stands in the edit from 00:00:09.000 to 00:00:11.000, and the edit "
        "is "
        "00:00:10.000 long\n  hint: correct its place, or export the edit again"}},
  };
  for (const auto& [at, told] : cases) {
    SCOPED_TRACE(at);
    Project project;
    project.media = {media("pan"), media("edit", MediaRole::Edit)};
    project.segments = {segment("s1", "0:01", "0:03", at)};
    EXPECT_EQ(settle(project, {film(20000), film(10000, {25, 1}, "01:00:00:00")}), told);
    EXPECT_FALSE(project.segments[0].at.pending);
    if (at == "01:00:04:00") {
      EXPECT_EQ(project.segments[0].edit_begin, MediaTime::from_seconds(4));
    }
  }
}

TEST(ClipTimes, FindsOverlapsThatOnlyTheClipTells) {
  Project project;
  project.media = {media("pan")};
  project.segments = {segment("s1", "0:01", ""), segment("s2", "0:05", "0:06"),
                      segment("s3", "0:00", "0:01")};
  EXPECT_THAT(
      settle(project, {film(9000)}),
      ElementsAre("p.json:5:1: error: \"s2\" and \"s1\" overlap in clip \"pan\" by 00:00:01.000, from "
                  "00:00:05.000\n  hint: let one end where the other begins"));
}

TEST(ClipTimes, LeavesWhatBelongsToAClipThatCannotBeUsed) {
  Project project;
  project.media = {media("pan"), media("edit", MediaRole::Edit)};
  project.segments = {segment("s1", "0:01", "99:00", "50:00"),
                      segment("s2", "00:00:01:00", "", "01:00:00:00")};
  EXPECT_THAT(settle(project, {std::nullopt, std::nullopt}), IsEmpty());
  EXPECT_TRUE(project.segments[1].in.pending);
  EXPECT_TRUE(project.segments[1].out.pending);
  EXPECT_TRUE(project.segments[1].at.pending);
  EXPECT_EQ(project.segments[0].range.end, MediaTime::from_seconds(99 * 60));
}

}  // namespace
}  // namespace panslate
