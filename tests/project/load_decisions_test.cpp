// The smaller decisions of a project file: answers, narration laid under the edit, framings.
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/project/project.h"

#include "support/fake_file_system.h"

namespace panslate {
namespace {

using testing::FakeFileSystem;

Checked<Project> load(const std::string& members) {
  FakeFileSystem disk;
  disk.add("p.json", R"({"panslate_project": 1, "recipe": "recipe.md")" + members + "}")
      .add("recipe.md", "Lentils\n\nIngredients\n200 g lentils\n\nMethod\nRinse the lentils.\n");
  return load_project(disk, "p.json");
}

TEST(LoadProject, ReadsAnswers) {
  const auto loaded = load(R"(, "answers": [
{"line": "lentils", "is": "yes"},
{"line": "200 g lentils", "about": "shown", "is": "no", "written": "200 g lentils"},
{"line": "9f2c", "about": "picture", "is": "leave", "found": "two hundred"}])");
  ASSERT_TRUE(loaded) << render(loaded.error().front());
  ASSERT_EQ(loaded->answers.size(), 3U);
  EXPECT_EQ(loaded->answers[0].line, "lentils");
  EXPECT_EQ(loaded->answers[0].about, Answer::About::Said);
  EXPECT_EQ(loaded->answers[0].is, Answer::Is::Yes);
  EXPECT_EQ(loaded->answers[1].about, Answer::About::Shown);
  EXPECT_EQ(loaded->answers[1].is, Answer::Is::No);
  EXPECT_EQ(loaded->answers[1].written, "200 g lentils");
  EXPECT_EQ(loaded->answers[2].about, Answer::About::OnPicture);
  EXPECT_EQ(loaded->answers[2].is, Answer::Is::Leave);
  EXPECT_EQ(loaded->answers[2].found, "two hundred");
}

TEST(LoadProject, ReadsWhereNarrationIsLaid) {
  const auto loaded = load(
      R"(, "media": [{"id": "v", "file": "v.wav", "role": "narration", "at": "0:03.500", "content": "7-ab"}])");
  ASSERT_TRUE(loaded) << render(loaded.error().front());
  EXPECT_EQ(loaded->media[0].edit_begin, MediaTime::from_ms(3500));
  EXPECT_EQ(loaded->media[0].content, "7-ab");
}

TEST(LoadProject, TellsWhatIsWrongWithThem) {
  for (const auto& [members, wanted] : std::vector<std::pair<std::string, std::string>>{
           {R"(, "answers": [{"line": "lentils", "is": "yess"}])", "did you mean \"yes\"?"},
           {R"(, "answers": [{"is": "yes"}])", "line"},
           {R"(, "answers": {}])", "p.json:1"},
           {R"(, "media": [{"id": "v", "file": "v.wav", "role": "narration", "at": "soon"}])",
            "a time of the edit"},
           {R"(, "media": [{"id": "v", "file": "v.wav", "role": "narration", "at": "0:75"}])", "no time"}}) {
    const auto loaded = load(members);
    ASSERT_FALSE(loaded) << members;
    EXPECT_THAT(render(loaded.error().front()), ::testing::HasSubstr(wanted));
  }
}

TEST(LoadProject, SpellsFramingsAsTheFileDoes) {
  EXPECT_EQ(spelling_of(Framing::Unknown), "");
  EXPECT_EQ(spelling_of(Framing::Overhead), "overhead");
  EXPECT_EQ(spelling_of(Framing::Front), "front");
  EXPECT_EQ(spelling_of(Framing::Close), "close");
  EXPECT_EQ(spelling_of(Framing::Wide), "wide");
  EXPECT_EQ(spelling_of(Framing::Insert), "insert");
  EXPECT_EQ(spelling_of(Framing::Beauty), "beauty");
}

}  // namespace
}  // namespace panslate
