#pragma once

#include <string>
#include <utility>
#include <vector>

#include "panslate/check/pickup.h"
#include "panslate/check/report.h"

/// A small checked film, made by hand: an invented stew with one line of every kind and every outcome.
namespace panslate::testing {

inline Amount amount_of(std::int64_t value, Unit unit) {
  Amount amount;
  amount.value = Ratio(value);
  amount.unit = unit;
  return amount;
}

inline Amount amount_of(Ratio value, Unit unit) {
  Amount amount;
  amount.value = value;
  amount.unit = unit;
  return amount;
}

inline TimeRange ms_range(std::int64_t begin, std::int64_t end) {
  return {MediaTime::from_ms(begin), MediaTime::from_ms(end)};
}

inline Mention mention_at(std::int64_t begin_ms, std::int64_t end_ms, std::string text,
                          std::optional<Amount> amount = std::nullopt, std::int64_t precision_ms = 50) {
  Mention mention;
  mention.when = ms_range(begin_ms, end_ms);
  mention.precision = MediaTime::from_ms(precision_ms);
  mention.text = std::move(text);
  mention.amount = std::move(amount);
  mention.refs = {"c1"};
  return mention;
}

inline Requirement requirement_of(RequirementKind kind, int ordinal, std::string text, std::string name,
                                  std::vector<Amount> amounts, std::size_t index) {
  Requirement requirement;
  requirement.kind = kind;
  requirement.ordinal = ordinal;
  requirement.key = "00000000000000" + std::to_string(10 + ordinal);
  requirement.line = 4 + ordinal;
  requirement.text = std::move(text);
  requirement.name = std::move(name);
  requirement.amounts = std::move(amounts);
  requirement.index = index;
  return requirement;
}

struct SampleCheck {
  Recipe recipe;
  CheckReport report;
  std::vector<Pickup> pickups;
};

inline Recipe sample_recipe() {
  Recipe recipe;
  recipe.title = "Marsh Barley Pot";
  recipe.file = "pot.md";
  RecipeYield serves;
  serves.amount = amount_of(4, Unit::Serving);
  serves.text = "Serves 4";
  serves.line = 3;
  recipe.yields = {serves};
  const auto ingredient = [&](int line, std::string text, std::string name, std::vector<Amount> amounts,
                              std::string group) {
    Ingredient one;
    one.line = line;
    one.key = "key" + std::to_string(line);
    one.text = std::move(text);
    one.name = name;
    one.foods = {std::move(name)};
    one.amounts = std::move(amounts);
    one.group = std::move(group);
    recipe.ingredients.push_back(std::move(one));
  };
  ingredient(5, "250 g pearl barley (1¼ cups), rinsed", "pearl barley",
             {amount_of(250, Unit::Gram), amount_of(*Ratio::make(5, 4), Unit::Cup)}, "");
  ingredient(6, "2 leeks", "leeks", {amount_of(2, Unit::Piece)}, "");
  ingredient(7, "1 tbsp mustard", "mustard", {amount_of(1, Unit::Tablespoon)}, "For the dressing");
  ingredient(8, "chives, optional", "chives", {}, "For the dressing");
  recipe.ingredients[3].optional = true;
  const auto step = [&](int line, std::string text, std::vector<std::size_t> uses,
                        std::vector<std::string> cues) {
    Step one;
    one.number = static_cast<int>(recipe.steps.size()) + 1;
    one.line = line;
    one.key = "step" + std::to_string(line);
    one.text = std::move(text);
    one.uses = std::move(uses);
    one.cues = std::move(cues);
    recipe.steps.push_back(std::move(one));
  };
  step(11, "Rinse the barley. Slice the leeks and add them to the pot.", {0, 1}, {});
  step(12, "Simmer for 40 minutes until soft. It should still have a bite.", {}, {"until soft"});
  step(13, "Whisk the mustard with the chives, then pour it over.", {2, 3}, {});
  return recipe;
}

inline SampleCheck sample_check() {
  using Kind = RequirementKind;
  SampleCheck sample;
  sample.recipe = sample_recipe();
  auto& report = sample.report;
  report.duration = MediaTime::from_ms(90'500);

  auto barley = requirement_of(Kind::Ingredient, 1, "250 g pearl barley (1¼ cups), rinsed", "pearl barley",
                               sample.recipe.ingredients[0].amounts, 0);
  barley.said = {
      Verdict::Differs,
      {mention_at(12'340, 14'100, "two hundred grams of pearl barley", amount_of(200, Unit::Gram))}};
  barley.shown = {ShownVerdict::Unconfirmed, {"s1"}};
  barley.why = "200 g is said at 0:12, 250 g is written";
  auto leeks = requirement_of(Kind::Ingredient, 2, "2 leeks", "leeks", {amount_of(2, Unit::Piece)}, 1);
  leeks.said = {Verdict::Match, {mention_at(20'000, 21'000, "two leeks", amount_of(2, Unit::Piece))}};
  leeks.shown = {ShownVerdict::Yes, {"s1"}};
  leeks.covered = true;
  leeks.why = "said at 0:20";
  auto mustard =
      requirement_of(Kind::Ingredient, 3, "1 tbsp mustard", "mustard", {amount_of(1, Unit::Tablespoon)}, 2);
  mustard.said = {Verdict::NoAmount, {mention_at(61'000, 64'500, "and some mustard", std::nullopt, 3500)}};
  mustard.shown = {ShownVerdict::No, {}};
  mustard.on_text = {Verdict::Differs,
                     {mention_at(61'000, 64'000, "1 tsp mustard", amount_of(1, Unit::Teaspoon))}};
  mustard.why = "said at 1:01 without an amount";
  auto chives = requirement_of(Kind::Ingredient, 4, "chives, optional", "chives", {}, 3);
  chives.optional = true;
  chives.said.verdict = Verdict::Missing;
  chives.why = "never named";
  auto time = requirement_of(Kind::Time, 1, "40 minutes", "simmer", {amount_of(40, Unit::Minute)}, 1);
  time.said = {Verdict::Match, {mention_at(40'000, 42'000, "forty minutes", amount_of(40, Unit::Minute))}};
  time.covered = true;
  time.why = "said at 0:40";
  auto serves = requirement_of(Kind::Yield, 1, "Serves 4", "", {amount_of(4, Unit::Serving)}, 0);
  serves.said.verdict = Verdict::Missing;
  serves.why = "never said";
  report.requirements = {barley, leeks, mustard, chives, time, serves};

  report.extras = {{ms_range(70'250, 72'000), "a dollop of yoghurt on top", "yoghurt", std::nullopt}};
  Heard heard;
  heard.when = ms_range(12'340, 13'100);
  heard.text = "two hundred grams";
  heard.amount = amount_of(200, Unit::Gram);
  heard.role = HeardRole::Ingredient;
  heard.requirement = 0;
  report.heard = {heard};
  report.warnings = {
      {"measures-guessed", WarningLevel::Note, "cups are taken as metric cups", 5, std::nullopt},
      {"clip-missing", WarningLevel::Warning, "pan-2.mp4: there is no such file", std::nullopt,
       MediaTime::from_ms(33'000)}};
  CaptionCorrection leek;
  leek.when = ms_range(20'400, 20'900);
  leek.heard = "leaks";
  leek.meant = "leeks";
  leek.requirement = 1;
  CaptionCorrection chive;
  chive.when = ms_range(66'000, 66'700);
  chive.heard = "chive's <b>";
  chive.meant = "chives";
  chive.requirement = 3;
  chive.sure = false;
  report.corrections = {leek, chive};
  sample.pickups = {{Pickup::Kind::SayAgain, 0, "\"250 g pearl barley\"", MediaTime::from_ms(12'340), {}},
                    {Pickup::Kind::Film, 2, "1 tbsp mustard, close, with its spoon", std::nullopt, {}},
                    {Pickup::Kind::CorrectText,
                     2,
                     "\"1 tsp mustard\" to \"1 tbsp mustard\"",
                     MediaTime::from_ms(61'000),
                     {}}};
  return sample;
}

}  // namespace panslate::testing
