// What a worker answers is believed only after it is checked: a decoder that was taken over by its clip can
// say anything.
#include "media/worker_message.h"

#include <cstring>
#include <fstream>
#include <functional>
#include <ostream>
#include <string>

#include <gtest/gtest.h>

#include "panslate/media/footage_workers.h"

#include "media/samples.h"

namespace panslate::worker {
namespace {

namespace fs = std::filesystem;

ClipFacts full_facts() {
  ClipFacts facts;
  facts.file = "clip.mp4";
  facts.duration = MediaTime::from_ms(2500);
  facts.duration_source = DurationSource::Packets;
  facts.container = "mov,mp4";
  PictureFacts picture;
  picture.width = 1920;
  picture.height = 1080;
  picture.shown_width = 1080;
  picture.shown_height = 1920;
  picture.rotation = 90;
  picture.frame_rate = {30000, 1001};
  picture.frames = 75;
  picture.duration = MediaTime::from_ms(2500);
  picture.codec = "h264";
  facts.picture = picture;
  facts.sound.push_back({2, 48'000, "stereo", "aac", MediaTime::from_ms(-20), MediaTime::from_ms(2480)});
  facts.timecode = "10:00:00;00";
  facts.recorded = "2024-05-04T10:12:00Z";
  facts.warnings = {"crème brûlée"};
  return facts;
}

const std::string kJpeg("\xFF\xD8\xFF\xE0 bytes \xFF\xD9", 13);

// Half-open ranges of numbers that any answer must keep, however it was bent.
void expect_sane(const ClipFacts& facts) {
  EXPECT_GE(facts.duration, MediaTime{});
  EXPECT_LE(facts.duration, kLongestTime);
  EXPECT_EQ(facts.file, "clip.mp4");
  if (facts.picture) {
    EXPECT_GT(facts.picture->width, 0);
    EXPECT_GT(facts.picture->shown_height, 0);
    EXPECT_EQ(facts.picture->rotation % 90, 0);
    EXPECT_GT(facts.picture->frame_rate.num, 0);
    EXPECT_GT(facts.picture->frame_rate.den, 0);
    EXPECT_GE(facts.picture->frames.value_or(0), 0);
  }
  for (const auto& sound : facts.sound) {
    EXPECT_GT(sound.channels, 0);
    EXPECT_LE(sound.begin, sound.end);
  }
}

TEST(WorkerMessage, GoesThereAndBack) {
  Job job{JobKind::Stills, std::string("a\nb\xFF.mp4"), {MediaTime::from_ms(3), MediaTime{}}, 320, {}};
  const auto read = read_job(body_of(job));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->kind, job.kind);
  EXPECT_EQ(read->file, job.file);
  EXPECT_EQ(read->times, job.times);
  EXPECT_EQ(read->longest_side, 320);
  for (std::size_t length = 0; length < body_of(job).size(); ++length)
    EXPECT_FALSE(read_job(body_of(job).substr(0, length))) << length;

  const auto facts = read_facts(body_of(Result<ClipFacts>(full_facts())), "clip.mp4");
  ASSERT_TRUE(facts && *facts);
  EXPECT_EQ((*facts)->picture->frame_rate, (FrameRate{30000, 1001}));
  EXPECT_EQ((*facts)->sound.at(0).begin, MediaTime::from_ms(-20));
  EXPECT_EQ((*facts)->warnings, full_facts().warnings);

  const auto still =
      read_still(body_of(Result<Still>(Still{kJpeg, 320, 180, MediaTime::from_ms(40)})), "c", 320);
  ASSERT_TRUE(still && *still);
  EXPECT_EQ((*still)->jpeg, kJpeg);

  Job sound{JobKind::Sound, "clip.mp4", {MediaTime{}}, 0, MediaTime::from_ms(1)};
  EXPECT_EQ(read_job(body_of(sound)).value_or(job).length, sound.length);
  const Samples samples{1, -2, 32767, -32768};
  const auto heard = read_samples(body_of(Result<Samples>(samples)), "clip.mp4", samples.size());
  ASSERT_TRUE(heard && *heard);
  EXPECT_EQ(**heard, samples);
  EXPECT_FALSE(read_samples(body_of(Result<Samples>(samples)), "clip.mp4", 3));
  EXPECT_FALSE(read_samples(body_of(Result<Samples>(samples)), "clip.mp4", 5));

  const Result<Still> failed =
      fail(ErrorCode::NotMedia, "no picture", Place{"elsewhere", 7, 3}, "film it again");
  const auto error = read_still(body_of(failed), "clip.mp4", 320);
  ASSERT_TRUE(error && !*error);
  EXPECT_EQ(render(error->error()), "clip.mp4: error: no picture\n  hint: film it again");
}

struct Bend {
  std::string name;
  std::function<void(ClipFacts&)> bend;
};

void PrintTo(const Bend& bend, std::ostream* out) {
  *out << bend.name;
}

class BentFacts : public testing::TestWithParam<Bend> {};

TEST_P(BentFacts, AreNoAnswer) {
  auto facts = full_facts();
  GetParam().bend(facts);
  EXPECT_FALSE(read_facts(body_of(Result<ClipFacts>(facts)), "clip.mp4"));
}

INSTANTIATE_TEST_SUITE_P(
    By, BentFacts,
    testing::Values(
        Bend{"no_width", [](ClipFacts& f) { f.picture->width = 0; }},
        Bend{"negative_height", [](ClipFacts& f) { f.picture->shown_height = -1080; }},
        Bend{"vast_width", [](ClipFacts& f) { f.picture->width = 1 << 30; }},
        Bend{"odd_rotation", [](ClipFacts& f) { f.picture->rotation = 45; }},
        Bend{"whole_turn", [](ClipFacts& f) { f.picture->rotation = 360; }},
        Bend{"no_rate",
             [](ClipFacts& f) {
               f.picture->frame_rate = {0, 1};
             }},
        Bend{"divided_by_zero",
             [](ClipFacts& f) {
               f.picture->frame_rate = {25, 0};
             }},
        Bend{"negative_frames", [](ClipFacts& f) { f.picture->frames = -1; }},
        Bend{"negative_duration", [](ClipFacts& f) { f.duration = MediaTime::from_ms(-1); }},
        Bend{"endless_duration", [](ClipFacts& f) { f.duration = MediaTime::from_ticks(INT64_MAX); }},
        Bend{"endless_picture", [](ClipFacts& f) { f.picture->duration = MediaTime::from_ticks(INT64_MAX); }},
        Bend{"no_channels", [](ClipFacts& f) { f.sound[0].channels = 0; }},
        Bend{"sound_backwards", [](ClipFacts& f) { f.sound[0].end = MediaTime::from_ms(-30); }},
        Bend{"nothing_in_it",
             [](ClipFacts& f) {
               f.picture.reset();
               f.sound.clear();
               f.timecode.reset();
             }}),
    [](const auto& test) { return test.param.name; });

TEST(WorkerAnswer, CutOffOrTooLongIsNone) {
  for (const auto& body :
       {body_of(Result<ClipFacts>(full_facts())),
        body_of(Result<ClipFacts>(fail(ErrorCode::NotMedia, "no", std::nullopt, "hint")))}) {
    ASSERT_TRUE(read_facts(body, "clip.mp4"));
    for (std::size_t length = 0; length < body.size(); ++length)
      EXPECT_FALSE(read_facts(std::string_view(body).substr(0, length), "clip.mp4")) << length;
    EXPECT_FALSE(read_facts(body + '\0', "clip.mp4"));
  }
  const auto still = body_of(Result<Still>(Still{kJpeg, 320, 180, {}}));
  for (std::size_t length = 0; length < still.size(); ++length)
    EXPECT_FALSE(read_still(std::string_view(still).substr(0, length), "clip.mp4", 320)) << length;
}

TEST(WorkerAnswer, BentAnywhereIsNoneOrSane) {
  const auto body = body_of(Result<ClipFacts>(full_facts()));
  int refused = 0;
  for (std::size_t at = 0; at < body.size(); ++at)
    for (const int value : {0, 1, 2, 0x7F, 0x80, 0xFF}) {
      auto bent = body;
      bent[at] = static_cast<char>(value);
      const auto facts = read_facts(bent, "clip.mp4");
      if (!facts) ++refused;
      if (facts && *facts) expect_sane(**facts);
    }
  EXPECT_GT(refused, 300);
}

struct Garbage {
  std::string name;
  std::string body;
};

std::vector<Garbage> garbage() {
  const auto number = [](auto value) {
    std::string bytes(sizeof value, '\0');
    std::memcpy(bytes.data(), &value, sizeof value);
    return bytes;
  };
  const auto text = [&](std::string_view value) {
    return number(static_cast<std::uint32_t>(value.size())) + std::string(value);
  };
  const auto error = [&](std::int32_t code, const std::string& message) {
    return "\x02" + number(code) + message + std::string(1, '\0') + text("");
  };
  const auto not_media = static_cast<std::int32_t>(ErrorCode::NotMedia);
  return {{"nothing", ""},
          {"one_zero", std::string(1, '\0')},
          {"a_third_kind", std::string(1, '\x03') + std::string(60, '\0')},
          {"zeros", std::string(500, '\0')},
          {"ones", std::string(500, '\x01')},
          {"all_bits", std::string(500, '\xFF')},
          {"web_page", "<html><body>404</body></html>"},
          {"success_as_an_error", error(static_cast<std::int32_t>(ErrorCode::WriteFailed), text("saved"))},
          {"unknown_error", error(99, text("what?"))},
          {"negative_error", error(-1, text("what?"))},
          {"error_without_words", error(not_media, text(""))},
          {"error_not_utf8", error(not_media, text("\xC3\x28"))},
          {"error_with_nul", error(not_media, text(std::string_view("a\0b", 3)))},
          {"error_too_long", error(not_media, text(std::string(5000, 'a')))},
          {"text_longer_than_all", error(not_media, number(std::uint32_t{0xFFFFFFFF}) + "a")}};
}

TEST(WorkerAnswer, GarbageIsNone) {
  for (const auto& [name, body] : garbage()) {
    EXPECT_FALSE(read_facts(body, "clip.mp4")) << name;
    EXPECT_FALSE(read_still(body, "clip.mp4", 320)) << name;
  }
}

// The same from a real process, with a good clip after each.
TEST(WorkerAnswer, GarbageFromAProcessIsADamagedClip) {
  FootageWorkers::Setup setup;
  setup.program = ODD_WORKER;
  setup.count = 2;
  FootageWorkers workers(setup);
  std::vector<fs::path> files;
  for (const auto& [name, body] : garbage()) {
    files.push_back(samples::folder() / ("raw-" + name));
    std::ofstream(files.back(), std::ios::binary) << framed(body);
    files.push_back(samples::folder() / "who");
  }
  NoProgress progress;
  const auto found = workers.probe_all(files, progress);
  ASSERT_TRUE(found);
  for (std::size_t i = 0; i < files.size(); i += 2) {
    SCOPED_TRACE(files[i]);
    ASSERT_FALSE((*found)[i]);
    EXPECT_EQ((*found)[i].error().message, "the clip breaks off while it is read; it may be damaged");
    EXPECT_TRUE((*found)[i + 1]);
  }
}

TEST(WorkerStill, MustBeAJpegOfTheSizeAskedFor) {
  const auto read = [](const Still& still) {
    return read_still(body_of(Result<Still>(still)), "c", 320).has_value();
  };
  EXPECT_TRUE(read({kJpeg, 320, 180, {}}));
  EXPECT_FALSE(read({kJpeg, 321, 180, {}}));
  EXPECT_FALSE(read({kJpeg, 320, 0, {}}));
  EXPECT_FALSE(read({kJpeg, 320, 180, MediaTime::from_ticks(INT64_MAX)}));
  EXPECT_FALSE(read({"GIF89a", 320, 180, {}}));
  EXPECT_FALSE(read({"", 320, 180, {}}));
  EXPECT_FALSE(read({kJpeg.substr(0, 8), 320, 180, {}})) << "cut off";
}

TEST(Frames, ComeInPieces) {
  FrameReader frames(10);
  const auto bytes = framed("one") + framed("") + framed("two");
  std::vector<std::string> got;
  for (const char byte : bytes) {
    frames.add({&byte, 1});
    while (auto body = frames.next()) got.push_back(*body);
  }
  EXPECT_EQ(got, (std::vector<std::string>{"one", "", "two"}));
  EXPECT_FALSE(frames.refused());
  frames.add(framed("eleven bytes"));
  EXPECT_FALSE(frames.next());
  EXPECT_TRUE(frames.refused());
}

}  // namespace
}  // namespace panslate::worker
