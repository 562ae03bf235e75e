// `panslate listen` from outside, on sound that the ffmpeg of the distribution speaks (SYNTHETIC: its flite
// filter).
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/program_folder.h"

namespace panslate {
namespace {

using ::testing::Contains;
using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

class ListenProgram : public testing::ProgramFolder {
 protected:
  void SetUp() override {
    ProgramFolder::SetUp();
    write("recipe.md",
          "# Oat cakes\n\n## Ingredients\n\n- 200 g rolled oats\n- 2 tsp baking powder\n- 50 g butter\n\n"
          "## Method\n\n1. Weigh the oats and add the baking powder.\n2. Melt the butter and bake for 15 "
          "minutes.\n");
    write("script.txt",
          "First weigh 200 g of rolled oats.\nNow add two teaspoons of baking powder.\nMelt fifty grams of "
          "butter.\nBake them for fifteen minutes.\n");
    speak(
        "voice.wav",
        "First weigh three hundred grams of rolled oats. Now add two teaspoons of baking powder. Melt fifty "
        "grams of butter.");
  }
  void speak(const std::string& name, const std::string& text) const {
    shell_ok("ffmpeg -v error -f lavfi -i \"flite=voice=slt:text='" + text + "'\" '" + name + "'");
  }
};

TEST_F(ListenProgram, FindsTheWordsAndTheSlip) {
  const auto heard = run("listen --script script.txt --media voice.wav --json");
  EXPECT_EQ(heard.status, 1);
  const auto report = Json::parse(heard.out, nullptr, false);
  ASSERT_TRUE(report.is_object()) << heard.out;
  EXPECT_EQ(report["panslate_listening"], 1);
  const auto& clip = report["clips"][0];
  EXPECT_FALSE(clip.contains("draft"));
  ASSERT_EQ(clip["lines"].size(), 4U);
  for (std::size_t line = 0; line < 3; ++line) {
    ASSERT_EQ(clip["lines"][line]["takes"].size(), 1U) << line;
    EXPECT_EQ(clip["lines"][line]["takes"][0]["complete"], true);
  }
  EXPECT_TRUE(clip["lines"][3]["takes"].empty());
  ASSERT_EQ(clip["amounts"].size(), 3U);
  EXPECT_EQ(clip["amounts"][0]["verdict"], "differs");
  EXPECT_EQ(clip["amounts"][0]["heard_text"], "three hundred grams");
  EXPECT_EQ(clip["amounts"][1]["verdict"], "as-written");
  const auto shown = run("listen --script script.txt --media voice.wav");
  EXPECT_THAT(shown.out, HasSubstr("Said otherwise"));
  EXPECT_THAT(shown.out, HasSubstr("Never spoken"));
  EXPECT_THAT(shown.out, HasSubstr("3 of 4 lines are spoken"));
}

TEST_F(ListenProgram, WritesADraftWhereThereIsNoScript) {
  const auto heard = run("listen --recipe recipe.md --media voice.wav --out results");
  EXPECT_EQ(heard.status, 1);
  EXPECT_THAT(heard.out, HasSubstr("three hundred grams of rolled oats"));
  EXPECT_THAT(heard.out, HasSubstr("A draft of what is said, written by ear"));
  const auto draft = read("results/draft-voice.vtt");
  EXPECT_THAT(draft, HasSubstr("WEBVTT"));
  EXPECT_THAT(read("results/listen.html"), HasSubstr("draft"));

  // Whatever the draft says is at best doubtful, until she takes its note out.
  const auto check = [&] {
    return Json::parse(run("check --recipe recipe.md --captions results/draft-voice.vtt --json").out, nullptr,
                       false);
  };
  auto report = check();
  ASSERT_TRUE(report.is_object());
  for (const auto& requirement : report["requirements"]) {
    const std::string said = requirement["said"]["verdict"];
    EXPECT_TRUE(said == "unsure" || said == "not-checked") << said;
  }
  const auto note = draft.find("NOTE");
  const auto after = draft.find("\n\n", note);
  write("results/draft-voice.vtt", draft.substr(0, note) + draft.substr(after + 2));
  report = check();
  ASSERT_TRUE(report.is_object());
  EXPECT_EQ(report["requirements"][0]["said"]["verdict"], "differs");

  // The draft is hers now.
  const auto again = run("listen --recipe recipe.md --media voice.wav --out results");
  EXPECT_EQ(again.status, 1);
  EXPECT_THAT(again.out, HasSubstr("kept draft-voice.vtt as it is: it may have been put right"));
  EXPECT_EQ(run("listen --recipe recipe.md --media voice.wav --out results --overwrite").status, 1);
  EXPECT_EQ(read("results/draft-voice.vtt").find("NOTE"), std::string::npos);
}

TEST_F(ListenProgram, GivesTheCheckOfAProjectItsWords) {
  const std::string media = R"("media": [{"id": "voice", "file": "voice.wav", "role": "narration"}])";
  write("film.json",
        R"({"panslate_project": 1, "recipe": "recipe.md", "script": "script.txt", )" + media + "}");
  const auto before = Json::parse(run("check film.json --json").out, nullptr, false);
  ASSERT_TRUE(before.is_object());
  EXPECT_EQ(before["requirements"][0]["said"]["verdict"], "not-checked");
  EXPECT_EQ(run("listen film.json").status, 1);
  const auto after = Json::parse(run("check film.json --json").out, nullptr, false);
  ASSERT_TRUE(after.is_object());
  EXPECT_EQ(after["requirements"][0]["said"]["verdict"], "differs");
  EXPECT_EQ(after["requirements"][1]["said"]["verdict"], "match");

  write("draft.json", R"({"panslate_project": 1, "recipe": "recipe.md", )" + media + "}");
  EXPECT_EQ(run("listen draft.json").status, 1);
  const auto draft = Json::parse(run("check draft.json --json").out, nullptr, false);
  ASSERT_TRUE(draft.is_object());
  EXPECT_EQ(draft["requirements"][0]["said"]["verdict"], "unsure");
}

// The same sound against the same words: what is doubtful while nobody has read the draft is heard once she
// has put it right and taken its note out, without listening anew.
TEST_F(ListenProgram, TrustsADraftOnceItsNoteIsTakenOut) {
  const std::string media = R"("media": [{"id": "voice", "file": "voice.wav", "role": "narration"}])";
  EXPECT_EQ(run("listen --recipe recipe.md --media voice.wav --out results").status, 1);
  const auto draft = read("results/draft-voice.vtt");
  write("draft.vtt", draft);
  write(
      "film.json",
      R"({"panslate_project": 1, "recipe": "recipe.md", "captions": [{"file": "draft.vtt", "clock": "voice"}], )" +
          media + "}");
  const auto verdicts = [&] {
    std::vector<std::string> out;
    const auto heard = Json::parse(run("listen film.json --json").out, nullptr, false);
    if (heard.is_object())
      for (const auto& amount : heard["clips"][0]["amounts"]) out.push_back(amount["verdict"]);
    return out;
  };
  const auto doubted = verdicts();
  ASSERT_FALSE(doubted.empty());
  EXPECT_THAT(doubted, Each("unsure"));
  const auto note = draft.find("NOTE");
  write("draft.vtt", draft.substr(0, note) + draft.substr(draft.find("\n\n", note) + 2));
  EXPECT_THAT(verdicts(), Contains("as-written"));
}

// Narration laid under the edit is checked on the edit's clock; a slip in its sound counts there too.
TEST_F(ListenProgram, HearsTheSlipUnderTheEdit) {
  shell_ok("ffmpeg -v error -f lavfi -i testsrc=duration=12:size=64x36:rate=25 edit.mp4");
  write("voice.vtt",
        "WEBVTT\n\n00:00.100 --> 00:02.600\nFirst weigh 200 g of rolled oats.\n\n00:02.600 --> "
        "00:05.200\nNow add "
        "two teaspoons of baking powder.\n\n00:05.200 --> 00:07.000\nMelt fifty grams of butter.\n");
  write(
      "film.json",
      R"({"panslate_project": 1, "recipe": "recipe.md", "captions": [{"file": "voice.vtt", "clock": "voice"}],
            "media": [{"id": "voice", "file": "voice.wav", "role": "narration", "at": "00:00:03.000"},
                      {"id": "edit", "file": "edit.mp4", "role": "edit"}]})");
  const auto said = [&] {
    const auto report = Json::parse(run("check film.json --on edit --json").out, nullptr, false);
    return report.is_object() ? report["requirements"][0]["said"]["verdict"].get<std::string>() : "";
  };
  EXPECT_EQ(said(), "match");
  EXPECT_EQ(run("listen film.json").status, 1);
  EXPECT_EQ(said(), "differs");
}

TEST_F(ListenProgram, SaysWhatIsMissing) {
  for (const auto& [arguments, message] : {std::pair{"listen", "nothing to listen to was named"},
                                           {"listen --media voice.wav", "neither script nor recipe is named"},
                                           {"listen --script script.txt", "the clip is not named"}}) {
    const auto result = run(arguments);
    EXPECT_EQ(result.status, 2) << arguments;
    EXPECT_THAT(result.out, HasSubstr(message));
  }
  EXPECT_EQ(run("listen --script none.txt --media voice.wav").status, 3);
  EXPECT_EQ(run("listen --script script.txt --media none.wav").status, 3);
}

}  // namespace
}  // namespace panslate
