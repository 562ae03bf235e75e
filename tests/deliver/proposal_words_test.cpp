// Proposed parts of clips as she reads them, and as programs do.
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "panslate/deliver/footage_log_files.h"

namespace panslate {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using Json = nlohmann::json;

class Proposals : public testing::Test {
 protected:
  Proposals() {
    auto recipe = read_recipe(
        "# Soup\n\n## Ingredients\n\n- 2 onions\n\n## Method\n\n1. Slice the onions.\n"
        "2. Fry the onions & stir until golden.\n",
        "recipe.md");
    EXPECT_TRUE(recipe);
    if (recipe) project_.recipe = *std::move(recipe);
    project_.media.push_back({"pan", "clips/pan.mp4", MediaRole::Camera, {}, {}});
    project_.media.push_back({"quiet", "clips/quiet.mp4", MediaRole::Camera, {}, {}});
    for (const auto& media : project_.media) {
      log_.clips.emplace_back();
      log_.clips.back().file = media.file;
      log_.clips.back().log.emplace();
      log_.clips.back().log->facts.duration = MediaTime::from_seconds(90);
    }
    ProposedPart part;
    part.range = {MediaTime::from_ms(42'400), MediaTime::from_ms(75'250)};
    part.step = 1;
    part.said.text = "now the onions\ngo in";
    part.said.when = {MediaTime::from_ms(43'000), MediaTime::from_ms(45'000)};
    part.said.refs = {"c7", "c8"};
    found_.parts.push_back(part);
  }
  [[nodiscard]] LoggedProposals logged() const { return {project_, found_, {0, 1}, true}; }

  Project project_;
  FootageLog log_;
  PartProposals found_;
};

TEST_F(Proposals, GiveTheReasonInHerWords) {
  auto& part = found_.parts.front();
  EXPECT_EQ(part_moments(part), "0:42–1:15");
  EXPECT_EQ(part_reason(project_, part),
            "\"now the onions go in\" is said: step 2, Fry the onions & stir until golden.");
  part.cut_behind = true;
  EXPECT_THAT(part_reason(project_, part), HasSubstr("\"now the onions go in …\" is said"));
  part.cut_before = true;
  EXPECT_THAT(part_reason(project_, part), HasSubstr("\"… now the onions go in …\" is said"));
  part.draft = true;
  EXPECT_THAT(part_reason(project_, part), HasSubstr("is heard in the draft of the words: step 2"));
}

TEST_F(Proposals, TellWhatIsLeftOut) {
  EXPECT_THAT(left_out_words(log_, logged()), IsEmpty());
  found_.untold = 4;
  found_.marked = 1;
  found_.without_words = {0, 1};
  EXPECT_THAT(
      left_out_words(log_, logged()),
      ElementsAre(
          "not proposed: 4 stretches where the words tell no step, 1 over parts already in the project",
          "no words yet for pan.mp4, quiet.mp4: give captions, or run panslate listen"));
  found_ = {};
  found_.between_steps = 1;
  found_.without_words = {0};
  found_.without_voice = {1};
  auto told = logged();
  told.can_listen = false;
  EXPECT_THAT(left_out_words(log_, told),
              ElementsAre("not proposed: 1 stretch where two steps are about as likely",
                          "no words yet for pan.mp4: give captions",
                          "nobody speaks in quiet.mp4: mark the parts of it at the desk"));
}

TEST_F(Proposals, StandInTheJson) {
  found_.between_steps = 2;
  found_.without_voice = {1};
  const auto told = logged();
  const auto json = Json::parse(footage_log_json(log_, Stills::NotSaved, &told), nullptr, false);
  ASSERT_TRUE(json.is_object());
  const auto key = project_.recipe.steps[1].key;
  EXPECT_EQ(json["proposals"], Json::array({{{"media", "pan"},
                                             {"in", 42.4},
                                             {"out", 75.25},
                                             {"step", 2},
                                             {"key", key},
                                             {"reason", part_reason(project_, found_.parts.front())},
                                             {"said", "now the onions\ngo in"},
                                             {"said_at", {{"start", 43.0}, {"end", 45.0}}},
                                             {"refs", {"c7", "c8"}},
                                             {"draft", false}}}));
  EXPECT_EQ(json["not_proposed"], Json({{"no_step", 0},
                                        {"two_steps", 2},
                                        {"marked", 0},
                                        {"without_words", Json::array()},
                                        {"without_voice", {"quiet"}}}));
  const auto without = Json::parse(footage_log_json(log_, Stills::NotSaved), nullptr, false);
  EXPECT_EQ(without["proposals"], Json::array());
}

TEST_F(Proposals, StandInTheRowOfTheirClip) {
  const auto told = logged();
  const auto page = contact_sheet(log_, "results", &told);
  const auto part = page.find(
      "#t=42.4,75.25\"><span class=\"when\">0:42–1:15</span></a> "
      "&quot;now the onions go in&quot; is said: step 2, Fry the onions &amp; stir");
  EXPECT_NE(part, std::string::npos) << page.substr(page.find("<main>"));
  EXPECT_LT(part, page.find(">quiet.mp4<"));
  EXPECT_EQ(page.find("Proposed parts"), page.rfind("Proposed parts")) << "only where there are some";
  EXPECT_THAT(contact_sheet(log_, "results"), Not(HasSubstr("Proposed parts")));
  auto written = logged();
  written.written = true;
  EXPECT_THAT(contact_sheet(log_, "results", &written),
              AllOf(HasSubstr("Parts written into the project"), Not(HasSubstr("Proposed parts"))));
}

}  // namespace
}  // namespace panslate
