// Many stills of one clip in one go are those that would be taken one by one.
#include <algorithm>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/footage_workers.h"
#include "panslate/media/still.h"

#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

// In no order, some of them twice, some of them the same picture, some of them outside.
std::vector<MediaTime> times_in(MediaTime duration) {
  std::vector<MediaTime> times{duration / 2, MediaTime{}, duration * 2, MediaTime::from_ms(-100),
                               duration / 2};
  for (int i = 0; i < 10; ++i) times.push_back(duration * ((i * 7) % 10) / 10 + MediaTime::from_ms(i % 3));
  return times;
}

// Of a damaged clip the pictures may differ: what a decoder makes of missing parts depends on what it saw
// before.
enum class Expect { SamePictures, SameTimes };

void expect_as_one_by_one(const fs::path& file, MediaTime duration, Expect expect = Expect::SamePictures) {
  SCOPED_TRACE(file.filename());
  const auto times = times_in(duration);
  std::vector<std::optional<Result<Still>>> together(times.size());
  MediaTime before = MediaTime::from_seconds(-1);
  const auto taken = take_stills(file, times, 96, [&](std::size_t i, Result<Still> still) {
    EXPECT_GE(times[i], before) << "in order of time";
    before = times[i];
    EXPECT_FALSE(together[i]);
    together[i] = std::move(still);
    return true;
  });
  const auto first = take_still(file, times[0], 96);
  if (!taken) {
    ASSERT_FALSE(first);
    EXPECT_EQ(render(taken.error()), render(first.error()));
    return;
  }
  for (std::size_t i = 0; i < times.size(); ++i) {
    SCOPED_TRACE(times[i].seconds());
    const auto alone = take_still(file, times[i], 96);
    ASSERT_TRUE(together[i]);
    ASSERT_EQ(together[i]->has_value(), alone.has_value());
    if (!alone) continue;
    EXPECT_EQ((*together[i])->time, alone->time);
    if (expect == Expect::SamePictures) {
      EXPECT_TRUE((*together[i])->jpeg == alone->jpeg);
    }
  }
}

TEST(TakeStills, OfSamplesAreThoseOneByOne) {
  for (const auto& file : {samples::camera_mp4(), samples::phone_mp4(), samples::timecode_mov(),
                           samples::film_mkv(), samples::broadcast_ts(), samples::old_avi(),
                           samples::varying_mp4(), samples::narration_wav(), samples::silent_mov()})
    expect_as_one_by_one(file, MediaTime::from_seconds(2));
  // Longer than the distance of pictures to start from (x264's 250).
  const auto counting = samples::counting_grey({25, 1}) + "[v]";
  for (const char* ending : {"mp4", "mkv", "ts"})
    expect_as_one_by_one(samples::make(std::string("long.") + ending, samples::spec(counting, 25'000)),
                         MediaTime::from_seconds(25));
}

TEST(TakeStills, OfOutsideClipsAreThoseOneByOne) {
  const auto folder = fs::path(PANSLATE_SOURCE_DIR) / "../shared/media";
  if (!fs::is_directory(folder)) GTEST_SKIP() << "the shared clips are not here";
  for (const char* kind : {"clips", "broken"})
    for (const auto& entry : fs::directory_iterator(folder / kind)) {
      const auto facts = probe_clip(entry.path());
      if (facts && facts->picture && facts->picture->width <= 854)
        expect_as_one_by_one(entry.path(), facts->picture->duration,
                             std::string_view(kind) == "clips" ? Expect::SamePictures : Expect::SameTimes);
    }
}

TEST(TakeStills, StopWhenTold) {
  int told = 0;
  const std::vector<MediaTime> times(5);
  EXPECT_TRUE(take_stills(samples::camera_mp4(), times, 64,
                          [&](std::size_t, const Result<Still>&) { return ++told < 2; }));
  EXPECT_EQ(told, 2);
}

// By workers, of several clips mixed, in the order they were asked for.
TEST(TakeStills, ByWorkersAreTheSame) {
  FootageWorkers::Setup setup;
  setup.program = ODD_WORKER;
  setup.count = 2;
  FootageWorkers workers(setup);
  FootageWorkers here;
  std::vector<StillWanted> wanted;
  for (int i = 0; i < 10; ++i)
    for (const auto& file : {samples::camera_mp4(), samples::film_mkv(), samples::folder() / "missing.mp4"})
      wanted.push_back({file, MediaTime::from_ms(1900 - i * 190)});
  NoProgress progress;
  const auto local = here.stills(wanted, 64, progress);
  ASSERT_TRUE(local);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const auto alone = take_still(wanted[i].file, wanted[i].time, 64);
    ASSERT_EQ((*local)[i].has_value(), alone.has_value());
    if (alone) {
      EXPECT_TRUE((*local)[i]->jpeg == alone->jpeg);
    } else {
      EXPECT_EQ(render((*local)[i].error()), render(alone.error()));
    }
  }
  const auto far = workers.stills(wanted, 64, progress);
  ASSERT_TRUE(far);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    ASSERT_EQ((*far)[i].has_value(), (*local)[i].has_value());
    if ((*far)[i]) {
      EXPECT_TRUE((*far)[i]->jpeg == (*local)[i]->jpeg);
      EXPECT_EQ((*far)[i]->time, (*local)[i]->time);
    } else {
      EXPECT_EQ(render((*far)[i].error()), render((*local)[i].error()));
    }
  }
}

}  // namespace
}  // namespace panslate
