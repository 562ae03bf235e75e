#include "panslate/media/render.h"

#include <fstream>
#include <iterator>
#include <ostream>
#include <string>

#include <gtest/gtest.h>

#include "panslate/media/clip_facts.h"

#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

struct Kind {
  std::string ending;
  std::string graph;
};

void PrintTo(const Kind& kind, std::ostream* out) {
  *out << kind.ending;
}

class RenderKinds : public testing::TestWithParam<Kind> {};

TEST_P(RenderKinds, AreWrittenAsLongAsAsked) {
  const auto& kind = GetParam();
  const auto file = samples::make("kind" + kind.ending, samples::spec(kind.graph, 1000));
  const auto facts = probe_clip(file);
  ASSERT_TRUE(facts) << render(facts.error());
  EXPECT_NEAR(facts->duration.seconds(), 1.0, 0.022);
  EXPECT_EQ(facts->picture.has_value(), kind.graph.find("[v]") != std::string::npos);
  EXPECT_EQ(facts->sound.size(), 1U);
}

const std::string kBoth = "testsrc=s=64x48[v];sine[a]";

INSTANTIATE_TEST_SUITE_P(All, RenderKinds,
                         testing::Values(Kind{".mp4", kBoth}, Kind{".mov", kBoth}, Kind{".mkv", kBoth},
                                         Kind{".ts", kBoth}, Kind{".avi", kBoth}, Kind{".m4a", "sine[a]"},
                                         Kind{".wav", "sine[a]"}, Kind{".flac", "sine[a]"}),
                         [](const auto& test) { return test.param.ending.substr(1); });

TEST(RenderLength, PadsShortEndsAndCutsLongOnes) {
  const auto file =
      samples::make("padded.mp4", samples::spec("testsrc=s=64x48:d=0.5[v];sine=d=0.25[a]", 1000));
  const auto facts = probe_clip(file);
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->picture->frames, 25);
  EXPECT_EQ(facts->duration, MediaTime::from_seconds(1));
  EXPECT_EQ(facts->sound.at(0).end, MediaTime::from_seconds(1));
}

TEST(RenderLength, WithoutADurationFollowsTheEndThatStopsFirst) {
  RenderSpec spec;
  spec.graph = "color=s=64x48[v];sine=d=0.8[a]";
  const auto facts = probe_clip(samples::make("as_long_as_sound.mp4", spec));
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->picture->frames, 20);  // 0.8 s at 25/s
  spec.graph = "testsrc=s=64x48:d=0.4[v];anullsrc[a]";
  const auto other = probe_clip(samples::make("as_long_as_picture.mp4", spec));
  ASSERT_TRUE(other);
  EXPECT_EQ(other->picture->frames, 10);
  EXPECT_NEAR(other->sound.at(0).end.seconds(), 0.4, 0.022);
}

TEST(RenderLength, IsWholePicturesToTheNearest) {
  // 1 s at 24000/1001 is 23.976 pictures: 24.
  const auto facts =
      probe_clip(samples::make("nearest.mov", samples::spec("testsrc=s=64x48[v]", 1000, {24000, 1001})));
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->picture->frames, 24);
}

TEST(RenderAgain, GivesTheSameBytes) {
  const auto spec = samples::spec(kBoth, 500);
  EXPECT_EQ(bytes_of(samples::make("once.mp4", spec)), bytes_of(samples::make("twice.mp4", spec)));
}

// Text written through graph_value looks like the same text from a file, which no graph reads.
TEST(GraphValue, KeepsEveryCharacter) {
  const std::string text = " it's 1/2 cup [of] a:b, c;d \\ 50 % \"x\" = y ";
  const auto note = samples::folder() / "note.txt";
  std::ofstream(note) << text;
  const std::string look = "color=s=640x48,drawtext=expansion=none:fontsize=20:fontcolor=white:";
  const auto written =
      samples::make("written.mp4", samples::spec(look + "text=" + graph_value(text) + "[v]", 80));
  const auto read =
      samples::make("read.mp4", samples::spec(look + "textfile=" + graph_value(note.string()) + "[v]", 80));
  const auto blank = samples::make("blank.mp4", samples::spec(look + "text=x[v]", 80));
  EXPECT_EQ(bytes_of(written), bytes_of(read));
  EXPECT_NE(bytes_of(written), bytes_of(blank));
}

struct Refused {
  std::string graph;
  std::string ending;
  ErrorCode code;
  std::string message;
};

void PrintTo(const Refused& refused, std::ostream* out) {
  *out << refused.graph;
}

class RenderRefuses : public testing::TestWithParam<Refused> {};

TEST_P(RenderRefuses, AndLeavesWhatWasThere) {
  const auto& refused = GetParam();
  const auto folder = samples::folder() / "refused";
  fs::create_directories(folder);
  const auto file = folder / ("film" + refused.ending);
  std::ofstream(file) << "before";
  NoProgress progress;
  const auto made = render_film(samples::spec(refused.graph, 500), file, progress);
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().code, refused.code);
  EXPECT_EQ(render(made.error()), file.string() + ": error: " + refused.message);
  EXPECT_EQ(bytes_of(file), "before");
  EXPECT_EQ(files_in(folder), 1U) << "nothing is left beside it";
  fs::remove_all(folder);
}

INSTANTIATE_TEST_SUITE_P(
    Specs, RenderRefuses,
    testing::Values(
        Refused{kBoth, ".ogg", ErrorCode::Usage,
                "films are not written as '.ogg'\n"
                "  hint: use one of .mp4, .mov, .mkv, .ts, .avi, .m4a, .wav, .flac"},
        Refused{"soup[v]", ".mp4", ErrorCode::Malformed,
                "cannot draw this film: Invalid argument\n  hint: No such filter: 'soup'"},
        Refused{"color=s=64x48[x]", ".mp4", ErrorCode::Malformed,
                "the drawing has an end labelled 'x'; pictures end in [v], sound in [a]"},
        Refused{"sine[v]", ".mp4", ErrorCode::Malformed,
                "the drawing has an end labelled 'v'; pictures end in [v], sound in [a]"},
        Refused{"color[v];color[v]", ".mp4", ErrorCode::Malformed, "the drawing has the end [v] twice"},
        Refused{"hflip[v]", ".mp4", ErrorCode::Malformed, "the drawing has an input that nothing feeds"},
        Refused{"testsrc=s=63x47[v]", ".mp4", ErrorCode::Malformed,
                "the picture must be an even number of pixels wide and high"},
        Refused{"color[v]", ".wav", ErrorCode::Usage,
                "this kind of file holds sound only, but the drawing has pictures"},
        Refused{"color=s=64x48,nullsink", ".mp4", ErrorCode::Malformed,
                "the drawing has neither an end [v] nor an end [a]"}),
    [](const auto& test) { return "n" + std::to_string(test.index); });

TEST(RenderStops, WhenAskedTo) {
  class StopAtOnce final : public Progress {
   public:
    void step(std::string_view /*phase*/, std::int64_t /*done*/, std::int64_t /*total*/) override {}
    [[nodiscard]] bool cancelled() const noexcept override { return true; }
  };
  const auto folder = samples::folder() / "stopped";
  fs::create_directories(folder);
  StopAtOnce progress;
  const auto made = render_film(samples::spec(kBoth, 500), folder / "film.mp4", progress);
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().code, ErrorCode::Cancelled);
  EXPECT_EQ(files_in(folder), 0U);
}

TEST(RenderTells, HowFarItIs) {
  class Recorded final : public Progress {
   public:
    void step(std::string_view phase, std::int64_t done, std::int64_t total) override {
      last_phase = phase;
      EXPECT_GE(done, last_done);
      last_done = done;
      last_total = total;
    }
    [[nodiscard]] bool cancelled() const noexcept override { return false; }
    std::string last_phase;
    std::int64_t last_done = 0;
    std::int64_t last_total = 0;
  };
  Recorded progress;
  ASSERT_TRUE(render_film(samples::spec(kBoth, 1000), samples::folder() / "told.mp4", progress));
  EXPECT_EQ(progress.last_phase, "making told.mp4");
  EXPECT_EQ(progress.last_total, 1000);
  EXPECT_GT(progress.last_done, 800);
}

}  // namespace
}  // namespace panslate
