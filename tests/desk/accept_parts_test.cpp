// All proposed parts written into the project at once: what stands in the file then, and what does not.
#include "panslate/desk/accept_parts.h"

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/desk_folder.h"

namespace panslate {
namespace {

using nlohmann::json;
using testing::DeskFolder;
using ::testing::HasSubstr;

constexpr const char* kBegin =
    "{\n  \"panslate_project\": 1,\n  \"recipe\":   \"recipe.md\",\n"
    "  \"media\": [ {\"id\": \"pan\", \"file\": \"pan.mp4\", \"role\": \"camera\"} ],\n";
constexpr const char* kEnd =
    "  \"captions\": [{\"file\": \"captions.vtt\", \"clock\": \"pan\"}],\n  \"mine\": [1,  2]\n}\n";

// Its key, as DeskFolder's work gives it.
constexpr const char* kClipAsItWas = "key-abc";

class AcceptParts : public ::testing::Test {
 protected:
  // `segments`: a whole line of the file, or none.
  void project_with(const std::string& segments) {
    folder_.write("project.json", kBegin + segments + kEnd);
    folder_.open_again();
  }
  [[nodiscard]] Project read() {
    auto project = load_project(real_file_system(), folder_.path() / "project.json");
    EXPECT_TRUE(project);
    return project ? *std::move(project) : Project{};
  }
  static ProposedPart part(std::int64_t from_ms, std::int64_t to_ms, std::size_t step) {
    ProposedPart out;
    out.range = {MediaTime::from_ms(from_ms), MediaTime::from_ms(to_ms)};
    out.step = step;
    return out;
  }
  static Checked<AcceptedParts> accept(DeskFolder& folder, const Project& seen,
                                       const std::vector<ProposedPart>& parts) {
    const std::vector<std::string> contents(seen.media.size(), kClipAsItWas);
    PartProposals proposals;
    proposals.parts = parts;
    return accept_parts(real_file_system(), folder.path() / "project.json", folder.work(), {seen, contents},
                        proposals);
  }
  Checked<AcceptedParts> accept_two() {
    return accept(folder_, read(), {part(500, 3500, 0), part(3500, 9250, 2)});
  }

  DeskFolder folder_;
};

constexpr const char* kFirst =
    R"({"id": "pan-1", "clip": "pan", "in": "00:00:00.500", "out": "00:00:03.500", "step": "Rinse the lentils"})";
constexpr const char* kSecond =
    R"({"id": "pan-2", "clip": "pan", "in": "00:00:03.500", "out": "00:00:09.250", "step": "Simmer the lentils"})";

TEST_F(AcceptParts, LeavesAllElseByteForByte) {
  struct Case {
    const char* what;
    std::string before, after;
    std::size_t gave_way, held_back;
  };
  const std::string hers = R"({"id": "s1", "clip": "pan", "in": "0:12",   "out": "0:19", "step": "Stir in"})";
  const std::string whole = R"({"id": "s1", "clip": "pan", "in": "00:00:00.000", "out": "00:00:20.000"})";
  const std::string whole_hers = R"({"id": "s1", "clip": "pan", "in": "0:00", "out": "0:20", "mine": true})";
  const auto list = [](const std::vector<std::string>& entries) {
    std::string out = "  \"segments\": [\n";
    for (std::size_t i = 0; i < entries.size(); ++i)
      out += "    " + entries[i] + (i + 1 < entries.size() ? ",\n" : "\n");
    return out + "  ],\n";
  };
  const std::vector<Case> cases{
      {"beside a part of hers", list({hers}), list({hers, kFirst, kSecond}), 0, 0},
      {"in the place of a clip of which nothing is said", list({whole}), list({kFirst, kSecond}), 1, 0},
      {"not over one with something of hers in it", list({whole_hers}), list({whole_hers}), 0, 2},
  };
  for (const auto& one : cases) {
    project_with(one.before);
    const auto accepted = accept_two();
    ASSERT_TRUE(accepted) << one.what << render(accepted.error().front());
    EXPECT_EQ(accepted->gave_way, one.gave_way) << one.what;
    EXPECT_EQ(accepted->held_back, one.held_back) << one.what;
    EXPECT_EQ(folder_.project_text(), kBegin + one.after + kEnd) << one.what;
  }
}

TEST_F(AcceptParts, IsOneDecisionThatADeskTakesBack) {
  project_with("");
  const auto before = folder_.project_text();
  ASSERT_TRUE(accept_two());
  EXPECT_EQ(read().segments.size(), 2U);
  EXPECT_EQ(read().segments[1].steps.front().index, 2U);
  folder_.open_again();
  ASSERT_EQ(folder_.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder_.project_text(), before);
}

TEST_F(AcceptParts, WritesNothingWhereOneNoLongerFits) {
  struct Case {
    const char* what;
    std::string segments, recipe, begin, captions, clip, told;
  };
  const std::string recipe =
      "# Lentil pot\n\n## Ingredients\n\n- 200 g red lentils\n\n## Method\n\n1. Rinse the lentils well.\n";
  const std::string renamed =
      "{\n  \"panslate_project\": 1, \"recipe\": \"recipe.md\",\n"
      "  \"media\": [ {\"id\": \"pan\", \"file\": \"other.mp4\", \"role\": \"camera\"} ],\n";
  const std::string later = "WEBVTT\n\n00:01.000 --> 00:03.000\nNow stir in the mustard, please.\n";
  const std::vector<Case> cases{
      {"a part was marked there meanwhile",
       "  \"segments\": [{\"id\": \"a\", \"clip\": \"pan\", \"in\": \"0:09\", \"out\": \"0:10\"}],\n", "",
       kBegin, "", "", "a part of this clip was marked meanwhile: a"},
      {"the recipe has other steps", "", recipe, kBegin, "", "", "the recipe has other steps now"},
      {"the id is another clip's", "", "", renamed, "", "",
       "this clip stands otherwise in the project now: pan"},
      {"its captions were edited", "", "", kBegin, later, "",
       "the captions of this clip were changed meanwhile"},
      {"the clip is another", "", "", kBegin, "", "another recording",
       "took the place of this clip meanwhile"},
  };
  for (const auto& one : cases) {
    DeskFolder fresh;
    fresh.write("project.json", std::string(kBegin) + kEnd);
    const auto seen = load_project(real_file_system(), fresh.path() / "project.json");
    ASSERT_TRUE(seen);
    if (!one.recipe.empty()) fresh.write("recipe.md", one.recipe);
    if (!one.captions.empty()) fresh.write("captions.vtt", one.captions);
    if (!one.clip.empty()) fresh.write("pan.mp4", one.clip);
    fresh.write("project.json", one.begin + one.segments + kEnd);
    fresh.open_again();
    const auto before = fresh.project_text();
    const auto accepted = accept(fresh, *seen, {part(500, 3500, 0), part(3500, 9250, 2)});
    ASSERT_FALSE(accepted) << one.what;
    EXPECT_EQ(accepted.error().front().code, ErrorCode::Exists) << one.what;
    EXPECT_THAT(accepted.error().front().message, HasSubstr(one.told)) << one.what;
    EXPECT_EQ(fresh.project_text(), before) << one.what;
  }
}

}  // namespace
}  // namespace panslate
