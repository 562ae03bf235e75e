#include "media/survey.h"

#include <ostream>
#include <string>

#include <gtest/gtest.h>

#include "media/samples.h"

namespace panslate::av {
namespace {

struct Looked {
  std::string name;
  std::filesystem::path (*file)();
  std::int64_t read_whole;
  Reach reach;
};

void PrintTo(const Looked& looked, std::ostream* out) {
  *out << looked.name;
}

class SurveyReach : public testing::TestWithParam<Looked> {};

TEST_P(SurveyReach, IsTheLeastThatTellsTheTruth) {
  const auto& looked = GetParam();
  auto reader = ClipReader::open(looked.file(), std::chrono::seconds(20));
  ASSERT_TRUE(reader);
  const auto survey = survey_clip(*reader, looked.read_whole);
  ASSERT_TRUE(survey);
  EXPECT_EQ(survey->reach, looked.reach);
  EXPECT_FALSE(survey->breaks_off);
  const AVStream& stream = reader->picture() != nullptr ? *reader->picture() : *reader->sounds().front();
  const auto end = end_of(stream, survey->streams.at(static_cast<std::size_t>(stream.index)));
  ASSERT_TRUE(end);
  const auto claimed = claimed_duration(*reader);
  if (claimed) {
    EXPECT_TRUE(agree(*end - reader->clock_start(), *claimed));
  }
}

constexpr std::int64_t kLarge = 0;  // every file counts as a large one

INSTANTIATE_TEST_SUITE_P(
    Of, SurveyReach,
    testing::Values(Looked{"index", samples::camera_mp4, kReadWhole, Reach::Index},
                    Looked{"index_of_a_large_file", samples::camera_mp4, kLarge, Reach::Index},
                    Looked{"avi", samples::old_avi, kLarge, Reach::Index},
                    Looked{"matroska", samples::film_mkv, kReadWhole, Reach::Everything},
                    Looked{"large_matroska", samples::film_mkv, kLarge, Reach::Ends},
                    Looked{"large_wav", samples::narration_wav, kLarge, Reach::Ends},
                    Looked{"transport", samples::broadcast_ts, kReadWhole, Reach::Everything},
                    Looked{"large_transport", samples::broadcast_ts, kLarge, Reach::Everything}),
    [](const auto& test) { return test.param.name; });

TEST(Agreement, IsHalfASecondOrAFiftieth) {
  const auto ms = [](std::int64_t n) { return MediaTime::from_ms(n); };
  EXPECT_TRUE(agree(ms(1000), ms(1500)));
  EXPECT_FALSE(agree(ms(1000), ms(1501)));
  EXPECT_TRUE(agree(ms(100'000), ms(98'000)));
  EXPECT_FALSE(agree(ms(100'000), ms(97'999)));
}

}  // namespace
}  // namespace panslate::av
