#include "panslate/plan/shot_list.h"

#include <gtest/gtest.h>

#include "panslate/base/text.h"

#include "support/sample_check.h"

namespace panslate {
namespace {

Recipe recipe_of(std::string step_text) {
  auto recipe = testing::sample_recipe();
  recipe.steps.resize(1);
  recipe.steps[0].text = std::move(step_text);
  recipe.steps[0].uses = {};
  recipe.steps[0].cues = {};
  return recipe;
}

// The shots of the method's one step that have a line: "framing, once only or again: line".
std::vector<std::string> spoken_shots(const std::string& step_text) {
  std::vector<std::string> out;
  for (const auto& shot : make_shot_list(recipe_of(step_text), nullptr).shots)
    if (!shot.line.empty())
      out.push_back(std::string(spelling_of(shot.framing)) + (shot.repeatable ? ", again: " : ", once: ") +
                    shot.line);
  return out;
}

struct SentenceCase {
  std::string text;
  std::vector<std::string> shots;
};

class ShotsOfAStep : public ::testing::TestWithParam<SentenceCase> {};

TEST_P(ShotsOfAStep, Are) {
  EXPECT_EQ(spoken_shots(GetParam().text), GetParam().shots);
}

// Framings and what can be done twice: common practice, no source.
INSTANTIATE_TEST_SUITE_P(
    Table, ShotsOfAStep,
    ::testing::Values(
        SentenceCase{"Chop the leeks.", {"overhead, again: Chop the leeks."}},
        SentenceCase{"Crack in the eggs.", {"close, once: Crack in the eggs."}},
        SentenceCase{"Carefully pour over the stock.", {"close, once: Carefully pour over the stock."}},
        SentenceCase{"In a bowl, whisk the mustard and pour it over.",
                     {"overhead, once: In a bowl, whisk the mustard and pour it over."}},
        SentenceCase{"Preheat the oven to 180 C.", {"insert, again: Preheat the oven to 180 C."}},
        SentenceCase{"Rinse the barley. Slice the leeks.",
                     {"close, again: Rinse the barley.", "overhead, once: Slice the leeks."}},
        // A remark is spoken over the picture before it.
        SentenceCase{"Knead the dough. It will be sticky.",
                     {"front, again: Knead the dough. It will be sticky."}},
        // "the cut" and "the stock" are no actions; abbreviations and decimals end no sentence.
        SentenceCase{"Mix with the cut of the flour, approx. 2.5 cm deep.",
                     {"overhead, again: Mix with the cut of the flour, approx. 2.5 cm deep."}},
        SentenceCase{"Sauté the leeks for 5 min. Flambé at once.",
                     {"close, again: Sauté the leeks for 5 min.", "front, once: Flambé at once."}},
        SentenceCase{"Leave to cool.", {"front, again: Leave to cool."}}));

TEST(ShotList, EveryIngredientHasOneInsertWithItsAmount) {
  const auto list = make_shot_list(testing::sample_recipe(), nullptr);
  std::vector<std::string> inserts;
  for (const auto& shot : list.shots)
    if (shot.framing == Framing::Insert) inserts.push_back(shot.subject);
  EXPECT_EQ(inserts,
            (std::vector<std::string>{"pearl barley, 250 g", "leeks, 2", "mustard, 1 tbsp", "chives"}));
}

TEST(ShotList, AnIngredientNoStepNamesStillHasItsInsert) {
  auto recipe = testing::sample_recipe();
  for (auto& step : recipe.steps) step.uses.clear();
  std::size_t inserts = 0;
  for (const auto& shot : make_shot_list(recipe, nullptr).shots)
    inserts += shot.framing == Framing::Insert ? 1U : 0U;
  EXPECT_EQ(inserts, 4U);
}

TEST(ShotList, TheBeautyShotIsLast) {
  const auto list = make_shot_list(testing::sample_recipe(), nullptr);
  EXPECT_EQ(list.shots.back().framing, Framing::Beauty);
  EXPECT_EQ(list.shots.back().subject, "the finished dish: Marsh Barley Pot");
}

TEST(ShotList, ARecipeWithoutMethodHasInsertsAndTheDish) {
  auto recipe = testing::sample_recipe();
  recipe.steps.clear();
  EXPECT_EQ(make_shot_list(recipe, nullptr).shots.size(), 5U);
}

TEST(ShotList, SetUpsAreLetteredAsTheyCome) {
  std::vector<std::string> numbers;
  for (const auto& shot : make_shot_list(testing::sample_recipe(), nullptr).shots)
    numbers.push_back(shot.number);
  EXPECT_EQ(numbers, (std::vector<std::string>{"A1", "A2", "B1", "C1", "B2", "B3", "A3", "A4", "C2", "D1"}));
}

TEST(ShotList, LengthIsTheTimeToSayTheLine) {
  // 150 words a minute are 0.4 s a word, and a second of breath; three seconds at least.
  auto list = make_shot_list(recipe_of("Stir."), nullptr);
  EXPECT_EQ(list.shots[0].length, MediaTime::from_seconds(3));
  list = make_shot_list(recipe_of("Stir one two three four five six seven eight nine."), nullptr);
  EXPECT_EQ(list.shots[0].length, MediaTime::from_ms(5'000));
}

TEST(ShotList, ASmellIsNotFilmed) {
  auto recipe = recipe_of("Toast the seeds.");
  recipe.steps[0].cues = {"until they smell nutty", "until golden"};
  std::vector<std::string> cues;
  for (const auto& shot : make_shot_list(recipe, nullptr).shots)
    if (shot.subject.starts_with("the sign")) cues.push_back(shot.subject);
  EXPECT_EQ(cues, (std::vector<std::string>{"the sign to wait for: until golden"}));
}

TEST(ShotList, SegmentsCoverTheirStepAndWhatTheyShow) {
  const auto recipe = testing::sample_recipe();
  Project project;
  const auto add = [&](std::string id, std::optional<std::size_t> step, std::optional<std::size_t> shows,
                       Framing framing) {
    Segment segment;
    segment.id = std::move(id);
    LastingReference reference;
    if (step) {
      reference.index = step;
      segment.steps = {reference};
    }
    if (shows) {
      reference.index = shows;
      segment.shows = {reference};
    }
    segment.framing = framing;
    project.segments.push_back(std::move(segment));
  };
  add("s1", 0, 1, Framing::Overhead);
  add("s2", 1, std::nullopt, Framing::Close);
  add("s3", std::nullopt, std::nullopt, Framing::Beauty);
  std::vector<std::string> covered;
  for (const auto& shot : make_shot_list(recipe, &project).shots)
    covered.push_back(shot.number + ":" + join(shot.covered_by, ","));
  EXPECT_EQ(covered, (std::vector<std::string>{"A1:", "A2:s1", "B1:s1", "C1:s1", "B2:s2", "B3:s2",
                                               "A3:", "A4:", "C2:", "D1:s3"}));
}

}  // namespace
}  // namespace panslate
