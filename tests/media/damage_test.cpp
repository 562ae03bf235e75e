// Our own clips, cut off and with bytes flipped: facts or a reason, never a crash or a hang.
#include <chrono>
#include <fstream>
#include <iterator>
#include <ostream>
#include <string>

#include <gtest/gtest.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/still.h"

#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

struct Whole {
  std::string name;
  fs::path (*file)();
};

void PrintTo(const Whole& whole, std::ostream* out) {
  *out << whole.name;
}

class Damage : public testing::TestWithParam<Whole> {
 protected:
  void SetUp() override {
    const auto file = GetParam().file();
    std::ifstream in(file, std::ios::binary);
    bytes_.assign(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
    ASSERT_GT(bytes_.size(), 2000U);
    damaged_ = samples::folder() / ("damaged" + file.extension().string());
  }

  // Looks at a damaged clip in every way there is.
  Result<ClipFacts> look(const std::string& bytes) {
    std::ofstream(damaged_, std::ios::binary | std::ios::trunc) << bytes;
    const auto begin = std::chrono::steady_clock::now();
    auto facts = probe_clip(damaged_);
    if (facts) {
      EXPECT_GT(facts->duration, MediaTime{});
      EXPECT_TRUE(facts->picture || !facts->sound.empty() || facts->timecode);
    } else {
      EXPECT_EQ(facts.error().code, ErrorCode::NotMedia);
      EXPECT_FALSE(facts.error().message.empty());
    }
    const auto still = take_still(damaged_, MediaTime::from_ms(500), 64);
    if (!still) {
      EXPECT_EQ(still.error().code, ErrorCode::NotMedia);
    }
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(20));
    return facts;
  }

  std::string bytes_;
  fs::path damaged_;
};

TEST_P(Damage, ByCuttingOff) {
  for (std::size_t length = 1; length < bytes_.size(); length += 997) {
    SCOPED_TRACE(length);
    const auto facts = look(bytes_.substr(0, length));
    // What is left is never longer than the whole.
    if (facts) {
      EXPECT_LT(facts->duration, MediaTime::from_ms(3100));
    }
  }
}

TEST_P(Damage, ByFlippedBytes) {
  std::uint32_t chance = 12345;  // the same damage every run
  for (int round = 0; round < 40; ++round) {
    SCOPED_TRACE(round);
    std::string bytes = bytes_;
    for (int flips = 0; flips < 1 + round / 2; ++flips) {
      chance = chance * 1664525U + 1013904223U;
      bytes[(chance >> 4U) % bytes.size()] ^= static_cast<char>(1U << (chance % 8U));
    }
    (void)look(bytes);
  }
}

INSTANTIATE_TEST_SUITE_P(
    Of, Damage,
    testing::Values(Whole{"camera", samples::camera_mp4}, Whole{"phone", samples::phone_mp4},
                    Whole{"timecode", samples::timecode_mov}, Whole{"film", samples::film_mkv},
                    Whole{"broadcast", samples::broadcast_ts}, Whole{"old", samples::old_avi},
                    Whole{"varying", samples::varying_mp4}, Whole{"narration", samples::narration_wav}),
    [](const auto& test) { return test.param.name; });

// A camera that stopped in the middle: the header still claims the whole.
TEST(BrokenOff, SaysHowMuchIsThere) {
  const auto whole = samples::old_avi();
  std::ifstream in(whole, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  const auto file = samples::folder() / "broken_off.avi";
  std::ofstream(file, std::ios::binary) << bytes.substr(0, bytes.size() / 3);
  const auto facts = probe_clip(file);
  ASSERT_TRUE(facts) << render(facts.error());
  EXPECT_EQ(facts->duration_source, DurationSource::Packets);
  EXPECT_LT(facts->duration, MediaTime::from_ms(1200));
  EXPECT_GT(facts->duration, MediaTime::from_ms(300));
  ASSERT_EQ(facts->warnings.size(), 1U);
  EXPECT_EQ(facts->warnings[0].substr(0, 52), "it says it lasts 00:00:02.000, but what is in it end");
}

}  // namespace
}  // namespace panslate
