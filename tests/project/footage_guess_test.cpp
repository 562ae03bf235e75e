#include "project/footage_guess.h"

#include <gtest/gtest.h>

namespace panslate {
namespace {

TEST(FootageGuess, TakesNamesApart) {
  struct Case {
    std::string file;
    std::vector<std::string> words;
  };
  const Case cases[] = {
      {"FinalEdit_v2.mp4", {"final", "edit", "v", "2"}},
      {"VoiceOver.wav", {"voice", "over"}},
      {"GX010034.MP4", {"gx", "010034"}},
      {"Crème brûlée 1.mov", {"crème", "brûlée", "1"}},
      {"folder/edit.en.vtt", {"edit", "en"}},
      {".mp4", {"mp", "4"}},
      {"", {}},
  };
  for (const auto& [file, words] : cases) EXPECT_EQ(name_words(file), words) << file;
}

TEST(FootageGuess, TellsKindsByExtension) {
  EXPECT_EQ(kind_of("a/GX010034.MP4"), FileKind::Media);
  EXPECT_EQ(kind_of("voice.wav"), FileKind::Media);
  EXPECT_EQ(kind_of("edit.VTT"), FileKind::TimedText);
  EXPECT_EQ(kind_of("notes.txt"), FileKind::TimedText);
  EXPECT_EQ(kind_of("plate.jpg"), FileKind::Neither);
  EXPECT_EQ(kind_of("project.json"), FileKind::Neither);
  EXPECT_EQ(kind_of("mp4"), FileKind::Neither);
}

TEST(FootageGuess, GuessesRolesFromNamesAndSound) {
  ClipFacts film;
  film.picture.emplace();
  const ClipFacts sound;
  struct Case {
    std::string file;
    ClipFacts facts;
    MediaRole role;
  };
  const Case cases[] = {
      {"pan-1.mp4", film, MediaRole::Camera},        {"edit.mp4", film, MediaRole::Edit},
      {"Dal FINAL v3.mov", film, MediaRole::Edit},   {"export_2.mp4", film, MediaRole::Edit},
      {"credits.mp4", film, MediaRole::Camera},      {"voiceover.mp4", film, MediaRole::Narration},
      {"VO_01.mov", film, MediaRole::Narration},     {"avocado.mp4", film, MediaRole::Camera},
      {"recorder.wav", sound, MediaRole::Narration}, {"edit.wav", sound, MediaRole::Narration},
  };
  for (const auto& [file, facts, role] : cases) EXPECT_EQ(guess_role(file, facts), role) << file;
}

TEST(FootageGuess, TellsTextOnThePictureFromSpeech) {
  EXPECT_TRUE(is_on_screen_text("titles.srt"));
  EXPECT_TRUE(is_on_screen_text("edit_overlay.vtt"));
  EXPECT_FALSE(is_on_screen_text("captions.srt"));
  EXPECT_FALSE(is_on_screen_text("entitled.srt"));
}

TEST(FootageGuess, MakesIdsFromNames) {
  EXPECT_EQ(new_id("a/pan-1.mp4", {}), "pan-1");
  EXPECT_EQ(new_id("Pan one.mp4", {"pan-1"}), "Pan-one");
  EXPECT_EQ(new_id("pan.mov", {"pan"}), "pan-2");
  EXPECT_EQ(new_id("pan.mkv", {"pan", "pan-2"}), "pan-3");
}

}  // namespace
}  // namespace panslate
