#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/project/project.h"

#include "support/fake_file_system.h"

namespace panslate {
namespace {

using ::testing::ElementsAre;
using testing::FakeFileSystem;
using ::testing::IsEmpty;

constexpr std::string_view kRecipe = R"(# Lentil pot

Serves 2

## Ingredients

- 200 g red lentils
- 1 tsp salt
- 2 limes

## Method

1. Rinse the lentils well.
2. Simmer them for 20 minutes.
3. Stir in the salt.
)";
constexpr std::string_view kCaptions =
    "WEBVTT\n\n00:01.000 --> 00:03.000\nTwo hundred grams of red lentils\n";
constexpr std::string_view kTitles = "1\n00:00:01,000 --> 00:00:03,000\n200 g\n";

FakeFileSystem disk_with(std::string project) {
  FakeFileSystem disk;
  disk.add("kitchen/p.json", std::move(project))
      .add("kitchen/recipe.md", std::string(kRecipe))
      .add("kitchen/captions.vtt", std::string(kCaptions))
      .add("kitchen/titles.srt", std::string(kTitles))
      .add("kitchen/shopping.md", "bread\n")
      .add("kitchen/notes.srt", "nothing that is timed\n")
      .add("kitchen/fault.md", "x")
      .make_unreadable("kitchen/fault.md")
      .add_folder("kitchen/folder");
  return disk;
}

Checked<Project> load(std::string project) {
  return load_project(disk_with(std::move(project)), "kitchen/p.json");
}

std::vector<std::string> rendered(const std::vector<Error>& errors) {
  std::vector<std::string> out;
  for (const auto& error : errors) out.push_back(render(error));
  return out;
}

std::vector<std::string> problems_of(std::string project) {
  const auto loaded = load(std::move(project));
  return loaded ? std::vector<std::string>{} : rendered(loaded.error());
}

// Two lines that are right; what is to be tried follows from line 3.
std::string after_media(std::string_view rest) {
  return "{\"panslate_project\": 1, \"recipe\": \"recipe.md\",\n"
         "\"media\": [{\"id\": \"pan\", \"file\": \"pan.mp4\", \"role\": \"camera\"}],\n" +
         std::string(rest) + "}";
}

struct ProblemCase {
  std::string rest;
  std::string told;
};

const ProblemCase kProblems[] = {
    // Parts of clips.
    {R"("segments": {})",
     "kitchen/p.json:3:13: error: segments: a list of at most 20000 parts of clips in [ ] was expected, "
     "found a "
     "group in { }"},
    {R"("segments": [7])",
     "kitchen/p.json:3:14: error: segments[0]: a part of a clip in { } was expected, found 7"},
    {R"("segments": [{"clip": "pan"}])",
     "kitchen/p.json:3:14: error: segments[0].id: a short name for the part (such as s1) was expected, found "
     "nothing"},
    {R"("segments": [{"id": "", "clip": "pan"}])",
     "kitchen/p.json:3:21: error: segments[0].id: a short name for the part (such as s1) was expected, found "
     "\"\""},
    {R"("segments": [{"id": "s1"}])",
     "kitchen/p.json:3:14: error: segments[0].clip: the id of a clip from media was expected, found nothing"},
    {R"("segments": [{"id": "s1", "clpi": "pan"}])",
     "kitchen/p.json:3:14: error: segments[0].clip: the id of a clip from media was expected, found nothing\n"
     "  hint: \"clpi\" stands there: did you mean \"clip\"?"},
    {R"("segments": [{"id": "s1", "clip": null}])",
     "kitchen/p.json:3:35: error: segments[0].clip: the id of a clip from media was expected, found nothing"},
    {R"("segments": [{"id": "s1", "clip": "pna"}])",
     "kitchen/p.json:3:35: error: segments[0].clip: no clip has the id \"pna\"\n  hint: did you mean "
     "\"pan\"?"},
    {R"("segments": [{"id": "s1", "clip": "table"}])",
     "kitchen/p.json:3:35: error: segments[0].clip: no clip has the id \"table\"\n"
     "  hint: its id must stand in media"},
    {"\"segments\": [{\"id\": \"s1\", \"clip\": \"pan\", \"out\": \"0:01\"},\n"
     "{\"id\": \"s1\", \"clip\": \"pan\", \"in\": \"0:02\"}]",
     "kitchen/p.json:4:8: error: segments[1].id: \"s1\" is used twice, first on line 3\n"
     "  hint: give each an id of its own"},
    // Times.
    {R"("segments": [{"id": "s1", "clip": "pan", "in": 12}])",
     "kitchen/p.json:3:48: error: segments[0].in: a time such as 00:00:01.000 or timecode 00:00:01:12 was "
     "expected, "
     "found 12"},
    {R"("segments": [{"id": "s1", "clip": "pan", "in": "1.5 s"}])",
     "kitchen/p.json:3:48: error: segments[0].in: a time such as 00:00:01.000 or timecode 00:00:01:12 was "
     "expected, "
     "found \"1.5 s\""},
    {R"("segments": [{"id": "s1", "clip": "pan", "out": "00:00:01."}])",
     "kitchen/p.json:3:49: error: segments[0].out: a time such as 00:00:01.000 or timecode 00:00:01:12 was "
     "expected, found \"00:00:01.\""},
    {R"("segments": [{"id": "s1", "clip": "pan", "at": "-00:00:01.000"}])",
     "kitchen/p.json:3:48: error: segments[0].at: a time such as 00:00:01.000 or timecode 00:00:01:12 was "
     "expected, "
     "found \"-00:00:01.000\""},
    {R"("segments": [{"id": "s1", "clip": "pan", "in": "00:75:00"}])",
     "kitchen/p.json:3:48: error: segments[0].in: \"00:75:00\" is no time\n"
     "  hint: minutes and seconds go from 00 to 59"},
    {R"("segments": [{"id": "s1", "clip": "pan", "in": "00:00:05.000", "out": "00:00:04.000"}])",
     "kitchen/p.json:3:71: error: segments[0].out: ends at 00:00:04.000, but begins at 00:00:05.000\n"
     "  hint: out is later than in"},
    {R"("segments": [{"id": "s1", "clip": "pan", "in": "00:00:05.000", "out": "0:05"}])",
     "kitchen/p.json:3:71: error: segments[0].out: ends at 00:00:05.000, but begins at 00:00:05.000\n"
     "  hint: out is later than in"},
    {R"("segments": [{"id": "s1", "clip": "pan", "out": "0:00"}])",
     "kitchen/p.json:3:49: error: segments[0].out: ends at 00:00:00.000, but begins at 00:00:00.000\n"
     "  hint: out is later than in"},
    // Overlaps.
    {"\"segments\": [{\"id\": \"s1\", \"clip\": \"pan\", \"in\": \"0:01\", \"out\": \"0:09.5\"},\n"
     "{\"id\": \"s2\", \"clip\": \"pan\", \"in\": \"0:08\", \"out\": \"0:12\"}]",
     "kitchen/p.json:4:1: error: \"s2\" and \"s1\" overlap in clip \"pan\" by 00:00:01.500, from "
     "00:00:08.000\n"
     "  hint: let one end where the other begins"},
    {"\"segments\": [{\"id\": \"s1\", \"clip\": \"pan\", \"in\": \"0:02\", \"out\": \"0:04\"},\n"
     "{\"id\": \"s2\", \"clip\": \"pan\", \"out\": \"0:12\"}]",
     "kitchen/p.json:3:14: error: \"s1\" and \"s2\" overlap in clip \"pan\" by 00:00:02.000, from "
     "00:00:02.000\n"
     "  hint: let one end where the other begins"},
    {"\"segments\": [{\"id\": \"s1\", \"clip\": \"pan\", \"out\": \"0:04\", \"at\": \"0:10\"},\n"
     "{\"id\": \"s2\", \"clip\": \"pan\", \"in\": \"0:04\", \"out\": \"0:09\", \"at\": \"0:07\"}]",
     "kitchen/p.json:3:63: error: \"s1\" and \"s2\" overlap in the edit by 00:00:02.000, from 00:00:10.000\n"
     "  hint: let one end where the other begins"},
    // What it films and shows.
    {R"("segments": [{"id": "s1", "clip": "pan", "step": 2}])",
     "kitchen/p.json:3:50: error: segments[0].step: the beginning of a step in words (or a list of such) was "
     "expected, found 2\n  hint: numbers of steps change when a step is put in; write the first words of the "
     "step"},
    {R"("segments": [{"id": "s1", "clip": "pan", "step": ["Rinse", 2]}])",
     "kitchen/p.json:3:60: error: segments[0].step[1]: the beginning of a step in words was expected, found "
     "2\n"
     "  hint: numbers of steps change when a step is put in; write the first words of the step"},
    {R"("segments": [{"id": "s1", "clip": "pan", "step": ""}])",
     "kitchen/p.json:3:50: error: segments[0].step: the beginning of a step in words (or a list of such) was "
     "expected, found \"\""},
    {R"("segments": [{"id": "s1", "clip": "pan", "shows": true}])",
     "kitchen/p.json:3:51: error: segments[0].shows: a list of ingredients in [ ] was expected, found true"},
    {R"("segments": [{"id": "s1", "clip": "pan", "shows": [["limes"]]}])",
     "kitchen/p.json:3:52: error: segments[0].shows[0]: the name of an ingredient was expected, found a list "
     "in [ ]"},
    {R"("segments": [{"id": "s1", "clip": "pan", "framing": "overhed"}])",
     "kitchen/p.json:3:53: error: segments[0].framing: one of overhead, front, close, wide, insert or beauty "
     "was "
     "expected, found \"overhed\"\n  hint: did you mean \"overhead\"?"},
    {R"("segments": [{"id": "s1", "clip": "pan", "framing": "from above, with the lid of the big pot on it"}])",
     "kitchen/p.json:3:53: error: segments[0].framing: one of overhead, front, close, wide, insert or beauty "
     "was "
     "expected, found \"from above, with the lid of the big pot …\""},
    {R"("segments": [{"id": "s1", "clip": "pan", "note": 5}])",
     "kitchen/p.json:3:50: error: segments[0].note: a note in words was expected, found 5"},
    // Captions and text on the picture.
    {R"("captions": "captions.vtt")",
     "kitchen/p.json:3:13: error: captions: a list of at most 100 captions files in [ ] was expected, found "
     "\"captions.vtt\""},
    {R"("captions": ["captions.vtt"])",
     "kitchen/p.json:3:14: error: captions[0]: a file and its clock in { } was expected, found "
     "\"captions.vtt\""},
    {R"("captions": [{"file": "captions.vtt"}])",
     "kitchen/p.json:3:14: error: captions[0].clock: the id of the media that it belongs to was expected, "
     "found "
     "nothing"},
    {R"("captions": [{"clock": "pan"}])",
     "kitchen/p.json:3:14: error: captions[0].file: the file (such as captions.vtt) was expected, found "
     "nothing"},
    {R"("captions": [{"file": "captions.vtt", "clock": "edit"}])",
     "kitchen/p.json:3:48: error: captions[0].clock: no clip has the id \"edit\"\n"
     "  hint: its id must stand in media"},
    {R"("captions": [{"file": "caption.vtt", "clock": "pan"}])",
     "kitchen/p.json:3:23: error: captions[0].file: there is no file \"caption.vtt\"\n"
     "  hint: files are looked for from the folder of the project file"},
    {R"("captions": [{"file": "folder", "clock": "pan"}])",
     "kitchen/p.json:3:23: error: captions[0].file: \"folder\": this is a folder, a file is needed"},
    {R"("captions": [{"file": "notes.srt", "clock": "pan"}])",
     "kitchen/notes.srt:1:1: error: neither SubRip, WebVTT nor text with [m:ss] marks\n"
     "  hint: captions are SubRip (.srt), WebVTT (.vtt), or plain text with times such as [1:05] before what "
     "is "
     "said"},
    {R"("on_screen_text": [{"file": "titels.srt", "clock": "pan"}])",
     "kitchen/p.json:3:29: error: on_screen_text[0].file: there is no file \"titels.srt\"\n"
     "  hint: files are looked for from the folder of the project file"},
    {R"("on_screen_text": [{"file": 7, "clock": "pan"}])",
     "kitchen/p.json:3:29: error: on_screen_text[0].file: the file (such as captions.vtt) was expected, "
     "found 7"},
    // Settings, and names written twice.
    {R"("settings": [])",
     "kitchen/p.json:3:13: error: settings: settings in { } was expected, found a list in [ ]"},
    {R"("settings": {"measures": "metrik"})",
     "kitchen/p.json:3:26: error: settings.measures: one of us, metric, au or uk was expected, found "
     "\"metrik\"\n"
     "  hint: did you mean \"metric\"?"},
    {"\"settings\": {},\n\"settings\": {}",
     "kitchen/p.json:4:1: error: \"settings\" is written twice, first on line 3\n  hint: keep one of them"},
};

TEST(LoadProject, TellsWhatIsWrongAndWhere) {
  for (const auto& [rest, told] : kProblems) {
    SCOPED_TRACE(rest);
    EXPECT_THAT(problems_of(after_media(rest)), ElementsAre(told));
  }
}

const ProblemCase kWholeFiles[] = {
    {"", "kitchen/p.json:1:1: error: the file is empty\n  hint: start one with: panslate new"},
    {"[]", "kitchen/p.json:1:1: error: a project in { } was expected, found a list in [ ]"},
    {"null", "kitchen/p.json:1:1: error: a project in { } was expected, found nothing"},
    {R"({"recipe": "recipe.md"})",
     "kitchen/p.json:1:1: error: panslate_project: the version of the form (1) was expected, found nothing\n"
     "  hint: a project file begins with \"panslate_project\": 1"},
    {R"({"panslate_project": "1", "recipe": "recipe.md"})",
     "kitchen/p.json:1:22: error: panslate_project: the version of the form (1) was expected, found \"1\""},
    {R"({"panslate_project": 0, "recipe": "recipe.md"})",
     "kitchen/p.json:1:22: error: panslate_project: the version of the form (1) was expected, found 0"},
    {R"({"panslate_project": 2, "recipe": 7, "media": "?"})",
     "kitchen/p.json:1:22: error: made by a newer panslate: its form is version 2, this one reads up to 1\n"
     "  hint: install the newer panslate"},
    {R"({"panslate_project": 18446744073709551615})",
     "kitchen/p.json:1:22: error: made by a newer panslate: its form is version 18446744073709551615, this "
     "one "
     "reads up to 1\n  hint: install the newer panslate"},
    {R"({"panslate_project": 1})",
     "kitchen/p.json:1:1: error: recipe: the recipe's file (such as recipe.md) was expected, found nothing"},
    {R"({"panslate_project": 1, "recipe": ""})",
     "kitchen/p.json:1:35: error: recipe: the recipe's file (such as recipe.md) was expected, found \"\""},
    {R"({"panslate_project": 1, "recipe": "pot.md"})",
     "kitchen/p.json:1:35: error: recipe: there is no file \"pot.md\"\n"
     "  hint: files are looked for from the folder of the project file"},
    {R"({"panslate_project": 1, "recipe": "fault.md"})",
     "kitchen/p.json:1:35: error: recipe: \"fault.md\": cannot be read: Input/output error"},
    {R"({"panslate_project": 1, "recipe": "recipe.md", "media": {"id": "pan"}})",
     "kitchen/p.json:1:57: error: media: a list of at most 2000 clips in [ ] was expected, found a group in "
     "{ }"},
    {R"({"panslate_project": 1, "recipe": "recipe.md", "media": ["pan.mp4"]})",
     "kitchen/p.json:1:58: error: media[0]: a clip in { } was expected, found \"pan.mp4\""},
    {R"({"panslate_project": 1, "recipe": "recipe.md", "media": [{"file": "p.mp4", "role": "camera"}]})",
     "kitchen/p.json:1:58: error: media[0].id: a short name for the clip (such as pan-1) was expected, found "
     "nothing"},
    {R"({"panslate_project": 1, "recipe": "recipe.md", "media": [{"id": "p", "flie": "p.mp4", "role": "camera"}]})",
     "kitchen/p.json:1:58: error: media[0].file: the clip's file (such as footage/pan-1.mp4) was expected, "
     "found "
     "nothing\n  hint: \"flie\" stands there: did you mean \"file\"?"},
    {R"({"panslate_project": 1, "recipe": "recipe.md", "media": [{"id": "p", "file": "p.mp4", "role": "camra"}]})",
     "kitchen/p.json:1:95: error: media[0].role: one of camera, narration or edit was expected, found "
     "\"camra\"\n"
     "  hint: did you mean \"camera\"?"},
    {"{\"panslate_project\": 1, \"recipe\": \"recipe.md\", \"media\": [\n"
     "{\"id\": \"p\", \"file\": \"p.mp4\", \"role\": \"camera\"},\n"
     "{\"id\": \"p\", \"file\": \"q.mp4\", \"role\": \"camera\"}]}",
     "kitchen/p.json:3:8: error: media[1].id: \"p\" is used twice, first on line 2\n"
     "  hint: give each an id of its own"},
    {"{\"panslate_project\": 1, \"recipe\": \"recipe.md\", \"media\": [\n"
     "{\"id\": \"p\", \"file\": \"p.mp4\", \"role\": \"edit\"},\n"
     "{\"id\": \"q\", \"file\": \"q.mp4\", \"role\": \"edit\"}]}",
     "kitchen/p.json:3:38: error: media[1].role: there is one edit only, and it is \"p\" already\n"
     "  hint: give this one the role camera, or take it out"},
};

TEST(LoadProject, TellsWhatIsWrongWithAWholeFile) {
  for (const auto& [text, told] : kWholeFiles) {
    SCOPED_TRACE(text);
    EXPECT_THAT(problems_of(text), ElementsAre(told));
  }
}

TEST(LoadProject, TellsOfARecipeThatCannotBeRead) {
  const auto loaded = load(R"({"panslate_project": 1, "recipe": "shopping.md"})");
  ASSERT_FALSE(loaded.has_value());
  ASSERT_EQ(loaded.error().size(), 1U);
  EXPECT_EQ(loaded.error()[0].code, ErrorCode::Malformed);
  ASSERT_TRUE(loaded.error()[0].place.has_value());
  EXPECT_EQ(loaded.error()[0].place->file, "kitchen/shopping.md") << "its own place, not the project's";
}

TEST(LoadProject, TellsOfAFileThatIsNotThere) {
  const auto loaded = load_project(FakeFileSystem(), "p.json");
  ASSERT_FALSE(loaded.has_value());
  EXPECT_THAT(rendered(loaded.error()),
              ElementsAre("p.json: error: there is no such file\n  hint: check the name and the folder"));
  EXPECT_EQ(loaded.error()[0].code, ErrorCode::NotFound);
}

TEST(LoadProject, RefusesAFileThatIsTooLargeByItsName) {
  const auto loaded = load(std::string(std::size_t{5} * 1024 * 1024, ' '));
  ASSERT_FALSE(loaded.has_value());
  EXPECT_THAT(rendered(loaded.error()), ElementsAre("kitchen/p.json: error: larger than 4 MB, so not read"));
}

TEST(LoadProject, TellsAllProblemsInOneRun) {
  const auto told = problems_of(R"({"panslate_project": 1, "recipe": "pot.md",
"media": [{"id": "pan", "file": "pan.mp4", "role": "camra"},
          {"id": "pan", "role": "edit"}],
"segments": [{"id": "s1", "clip": "lid", "in": 12, "framing": "top"},
             {"id": "s2", "clip": "pan", "out": "0:04", "step": "Soak the beans"},
             {"id": "s3", "clip": "pan", "in": "0:03", "out": "0:02"},
             {"id": "s4", "clip": "pan", "in": "0:03", "out": "0:05"}],
"captions": [{"file": "notes.srt", "clock": "edit"}, {"file": "no.srt"}],
"settings": {"measures": "imperial"}}
)");
  EXPECT_THAT(
      told,
      ElementsAre(
          "kitchen/p.json:1:35: error: recipe: there is no file \"pot.md\"\n"
          "  hint: files are looked for from the folder of the project file",
          "kitchen/p.json:2:52: error: media[0].role: one of camera, narration or edit was expected, found "
          "\"camra\"\n  hint: did you mean \"camera\"?",
          "kitchen/p.json:3:11: error: media[1].file: the clip's file (such as footage/pan-1.mp4) was "
          "expected, "
          "found nothing",
          "kitchen/p.json:3:18: error: media[1].id: \"pan\" is used twice, first on line 2\n"
          "  hint: give each an id of its own",
          "kitchen/p.json:4:35: error: segments[0].clip: no clip has the id \"lid\"\n"
          "  hint: its id must stand in media",
          "kitchen/p.json:4:48: error: segments[0].in: a time such as 00:00:01.000 or timecode 00:00:01:12 "
          "was "
          "expected, found 12",
          "kitchen/p.json:4:63: error: segments[0].framing: one of overhead, front, close, wide, insert or "
          "beauty "
          "was expected, found \"top\"",
          "kitchen/p.json:6:63: error: segments[2].out: ends at 00:00:02.000, but begins at 00:00:03.000\n"
          "  hint: out is later than in",
          "kitchen/p.json:7:14: error: \"s4\" and \"s2\" overlap in clip \"pan\" by 00:00:01.000, from "
          "00:00:03.000\n  hint: let one end where the other begins",
          "kitchen/p.json:8:45: error: captions[0].clock: no clip has the id \"edit\"\n"
          "  hint: its id must stand in media",
          "kitchen/p.json:8:54: error: captions[1].clock: the id of the media that it belongs to was "
          "expected, "
          "found nothing",
          "kitchen/p.json:8:63: error: captions[1].file: there is no file \"no.srt\"\n"
          "  hint: files are looked for from the folder of the project file",
          "kitchen/p.json:9:26: error: settings.measures: one of us, metric, au or uk was expected, found "
          "\"imperial\"",
          "kitchen/notes.srt:1:1: error: neither SubRip, WebVTT nor text with [m:ss] marks\n"
          "  hint: captions are SubRip (.srt), WebVTT (.vtt), or plain text with times such as [1:05] before "
          "what "
          "is said"));
}

// The example of the form, with a byte order mark and CRLF, and names of the user's own.
TEST(LoadProject, ReadsAProject) {
  std::string text =
      "\xEF\xBB\xBF"
      R"({
  "panslate_project": 1,
  "recipe": "recipe.md",
  "mood": {"music": ["slow"]},
  "media": [
    {"id": "pan-1", "file": "footage/pan-1.mp4", "role": "camera", "lens": 35},
    {"id": "voice", "file": "../voice.wav", "role": "narration"},
    {"id": "edit", "file": "/films/edit.mp4", "role": "edit"}
  ],
  "segments": [
    {"id": "s1", "clip": "pan-1", "in": "00:00:01.000", "out": "00:00:09.500", "step": "Rinse the lentils",
     "framing": "overhead", "shows": ["red lentils"], "at": "00:00:12.000", "note": "good light"},
    {"id": "s2", "clip": "pan-1", "in": "00:00:10:12", "step": ["Simmer", "Stir in"]},
    {"id": "v1", "clip": "voice", "out": "1:02,5", "at": "00:00:13.000"}
  ],
  "captions": [{"file": "captions.vtt", "clock": "edit"}],
  "on_screen_text": [{"file": "titles.srt", "clock": "edit"}],
  "settings": {"measures": "us"}
}
)";
  for (std::size_t i = text.find('\n'); i != std::string::npos; i = text.find('\n', i + 2))
    text.insert(i, "\r");
  const auto loaded = load(text);
  ASSERT_TRUE(loaded.has_value()) << render(loaded.error()[0]);
  const Project& project = *loaded;
  EXPECT_THAT(rendered(project.to_decide), IsEmpty());
  EXPECT_EQ(project.file, "kitchen/p.json");
  EXPECT_EQ(project.recipe.title, "Lentil pot");
  EXPECT_EQ(project.recipe_source, kRecipe);
  EXPECT_EQ(project.recipe.measures, Measures::Us);
  EXPECT_FALSE(project.recipe.measures_guessed);
  EXPECT_EQ(project.recipe.measures_reason, "the project's settings");

  ASSERT_EQ(project.media.size(), 3U);
  EXPECT_EQ(project.media[0].file, "kitchen/footage/pan-1.mp4");
  EXPECT_EQ(project.media[1].file, "kitchen/../voice.wav");
  EXPECT_EQ(project.media[2].file, "/films/edit.mp4");
  EXPECT_EQ(project.media[0].role, MediaRole::Camera);
  EXPECT_EQ(project.media[1].role, MediaRole::Narration);
  EXPECT_EQ(project.media[2].role, MediaRole::Edit);
  EXPECT_EQ(project.media[0].place, (Place{"kitchen/p.json", 6, 5}));
  EXPECT_EQ(project.media[0].file_place, (Place{"kitchen/p.json", 6, 29}));
  EXPECT_EQ(project.find_media("voice"), &project.media[1]);
  EXPECT_EQ(project.find_media("pan"), nullptr);

  ASSERT_EQ(project.segments.size(), 3U);
  const auto& s1 = project.segments[0];
  EXPECT_EQ(s1.id, "s1");
  EXPECT_EQ(s1.media, 0U);
  EXPECT_EQ(s1.range, (TimeRange{MediaTime::from_ms(1000), MediaTime::from_ms(9500)}));
  EXPECT_EQ(s1.framing, Framing::Overhead);
  EXPECT_EQ(s1.note, "good light");
  EXPECT_EQ(s1.edit_begin, MediaTime::from_ms(12000));
  ASSERT_EQ(s1.steps.size(), 1U);
  EXPECT_EQ(s1.steps[0].written, "Rinse the lentils");
  EXPECT_EQ(s1.steps[0].index, 0U);
  EXPECT_EQ(s1.steps[0].place, (Place{"kitchen/p.json", 11, 88}));
  ASSERT_EQ(s1.shows.size(), 1U);
  EXPECT_EQ(s1.shows[0].index, 0U);
  EXPECT_FALSE(s1.in.pending);
  EXPECT_FALSE(s1.out.pending);

  const auto& s2 = project.segments[1];
  EXPECT_EQ(s2.in.text, "00:00:10:12");
  EXPECT_TRUE(s2.in.pending) << "timecode waits for the clip";
  EXPECT_EQ(s2.in.place, (Place{"kitchen/p.json", 13, 41}));
  EXPECT_EQ(s2.out.text, "");
  EXPECT_TRUE(s2.out.pending) << "the end waits for the clip";
  EXPECT_TRUE(s2.range.empty());
  EXPECT_EQ(s2.edit_begin, std::nullopt);
  ASSERT_EQ(s2.steps.size(), 2U);
  EXPECT_EQ(s2.steps[0].index, 1U);
  EXPECT_EQ(s2.steps[1].index, 2U);

  const auto& v1 = project.segments[2];
  EXPECT_EQ(v1.range, (TimeRange{MediaTime(), MediaTime::from_ms(62500)}));

  ASSERT_EQ(project.captions.size(), 1U);
  EXPECT_EQ(project.captions[0].clock, "edit");
  EXPECT_EQ(project.captions[0].text.cues.size(), 1U);
  EXPECT_EQ(project.captions[0].text.file, "kitchen/captions.vtt");
  ASSERT_EQ(project.on_screen_text.size(), 1U);
  EXPECT_EQ(project.on_screen_text[0].text.format, CaptionFormat::SubRip);
}

TEST(LoadProject, NeedsNoMoreThanARecipe) {
  const auto loaded = load(R"({"panslate_project": 1, "recipe": "recipe.md"})");
  ASSERT_TRUE(loaded.has_value());
  EXPECT_THAT(loaded->media, IsEmpty());
  EXPECT_THAT(loaded->segments, IsEmpty());
  EXPECT_EQ(loaded->recipe.steps.size(), 3U);
}

TEST(LoadProject, PartsMayTouchAndTracksMayRunTogether) {
  const auto told = problems_of(R"({"panslate_project": 1, "recipe": "recipe.md",
"media": [{"id": "pan", "file": "pan.mp4", "role": "camera"}, {"id": "voice", "file": "v.wav", "role": "narration"}],
"segments": [{"id": "s1", "clip": "pan", "in": "0:04", "out": "0:08", "at": "0:04"},
             {"id": "s2", "clip": "pan", "in": "0:00", "out": "0:04", "at": "0:00"},
             {"id": "v1", "clip": "voice", "in": "0:00", "out": "0:08", "at": "0:00"}]})");
  EXPECT_THAT(told, IsEmpty());
}

TEST(LoadProject, LeavesDoubtfulDecisionsToBeMadeAgain) {
  const auto loaded = load(after_media(R"("segmets": [],
"setings": 1,
"segments": [{"id": "s1", "clip": "pan", "step": "Soak the beans overnight", "frming": "close"},
{"id": "s2", "clip": "pan", "step": "the", "shows": ["garlic", "sallt", "lentil"]}])"));
  ASSERT_TRUE(loaded.has_value()) << render(loaded.error()[0]);
  EXPECT_THAT(
      rendered(loaded->to_decide),
      ElementsAre(
          "kitchen/p.json:4:1: error: \"setings\" means nothing here\n  hint: did you mean \"settings\"?",
          "kitchen/p.json:5:50: error: segments[0].step: no step of the recipe fits \"Soak the beans "
          "overnight\"",
          "kitchen/p.json:5:78: error: segments[0]: \"frming\" means nothing here\n"
          "  hint: did you mean \"framing\"?",
          "kitchen/p.json:6:37: error: segments[1].step: \"the\" fits 2 steps: \"Rinse the lentils well.\" "
          "(line 13), \"Stir in the salt.\" (line 15)\n"
          "  hint: write more of its words, or its key from a report",
          "kitchen/p.json:6:54: error: segments[1].shows: no ingredient of the recipe fits \"garlic\"",
          "kitchen/p.json:6:64: error: segments[1].shows: no ingredient of the recipe fits \"sallt\"\n"
          "  hint: the nearest: \"1 tsp salt\" (line 8)"));
  EXPECT_EQ(loaded->segments[0].steps[0].index, std::nullopt);
  EXPECT_EQ(loaded->segments[1].shows[2].index, 0U);
}

}  // namespace
}  // namespace panslate
