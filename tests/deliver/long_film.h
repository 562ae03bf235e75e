#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/deliver/report_page.h"

#include "support/sample_check.h"

/// A made-up film of many lines: ten minutes for sixty of them, a third of which needs attention.
namespace panslate::testing {

struct LongFilm {
  Recipe recipe;
  CheckReport report;
  Transcript transcript;
  std::vector<Pickup> pickups;
  std::vector<SegmentPicture> segments;
  std::map<std::size_t, Still> moments;

  [[nodiscard]] ReportPageInput input() const {
    ReportPageInput page{&report, &recipe, &pickups};
    page.segments = segments;
    page.moments = moments;
    page.said = {{&transcript, {}}};
    page.looked_in = "Checked on the edit.";
    page.changes = {{"100 g food 0", "not said", "said at 0:04"}, {"Step 2", "", "shown"}};
    page.decide_again = {{"Part s3 films step 4", "Toast the millet", "Toast the millet and the seeds"}};
    page.playable = {{"", "../footage/the film.mp4"}};
    return page;
  }
};

/// `jpeg` is used for every still. Every line is spoken for ten seconds, four lines make a step.
inline LongFilm long_film(std::size_t lines, const std::string& jpeg) {
  LongFilm film;
  film.recipe.title = "A Long Table";
  film.recipe.file = "table.md";
  film.report.duration = MediaTime::from_seconds(static_cast<std::int64_t>(lines) * 10);
  Still still;
  still.jpeg = jpeg;
  still.width = 320;
  still.height = 180;
  const auto add_words = [&](std::int64_t begin_ms, std::int64_t end_ms, const std::string& text) {
    Cue cue;
    cue.id = "c" + std::to_string(film.transcript.cues.size() + 1);
    cue.when = ms_range(begin_ms, end_ms);
    cue.text = text;
    film.transcript.cues.push_back(cue);
    const auto words = split(text, ' ');
    const auto each = (end_ms - begin_ms) / static_cast<std::int64_t>(words.size());
    for (std::size_t w = 0; w < words.size(); ++w) {
      const auto from = begin_ms + each * static_cast<std::int64_t>(w);
      Word word;
      word.text = words[w];
      word.when = ms_range(from, from + each);
      word.cue = static_cast<std::uint32_t>(film.transcript.cues.size() - 1);
      film.transcript.words.push_back(word);
    }
  };
  for (std::size_t i = 0; i < lines; ++i) {
    const auto number = std::to_string(i);
    const auto at = static_cast<std::int64_t>(i) * 10'000;
    Ingredient ingredient;
    ingredient.text = std::to_string(100 + i % 50) + " g food " + number + ", chopped";
    ingredient.name = "food " + number;
    ingredient.foods = {ingredient.name};
    ingredient.amounts = {amount_of(static_cast<std::int64_t>(100 + i % 50), Unit::Gram)};
    if (i % 4 == 0) {
      Step step;
      step.number = static_cast<int>(film.recipe.steps.size()) + 1;
      step.text = "Stir the foods together in a wide pan. Cook them for 10 minutes, until they are soft.";
      film.recipe.steps.push_back(step);
      SegmentPicture picture{"s" + number,
                             "pan-" + number,
                             ms_range(1'000, 9'000),
                             MediaTime::from_ms(at),
                             {film.recipe.steps.size() - 1},
                             still};
      film.segments.push_back(picture);
      auto spoken =
          requirement_of(RequirementKind::Step, step.number, step.text, "", {}, film.recipe.steps.size() - 1);
      spoken.said = {Verdict::Match, {mention_at(at, at + 4'000, "then we stir it all together")}};
      spoken.covered = true;
      film.report.requirements.push_back(spoken);
    }
    film.recipe.steps.back().uses.push_back(i);
    auto line = requirement_of(RequirementKind::Ingredient, static_cast<int>(i) + 1, ingredient.text,
                               ingredient.name, ingredient.amounts, i);
    film.recipe.ingredients.push_back(std::move(ingredient));
    add_words(at, at + 4'000, "Here we are at the stove again, friends.");
    add_words(at + 4'000, at + 8'000, "In go ninety grams of food " + number + " and a little patience.");
    const auto& words = film.transcript.words;
    const auto first = words.size() - 11;  // "In", of eleven words
    auto mention = mention_at(words[first + 2].when.begin.to_ms(Round::Nearest),
                              words[first + 6].when.end.to_ms(Round::Nearest),
                              "ninety grams of food " + number, amount_of(90, Unit::Gram));
    const bool wrong = i % 3 == 0;
    line.said = {wrong ? Verdict::Differs : Verdict::Match, {mention}};
    line.on_text = {Verdict::Match, {mention_at(at + 4'000, at + 8'000, "food " + number)}};
    line.covered = !wrong;
    line.why = wrong ? "90 g is said, another amount is written" : "said";
    const auto requirement = film.report.requirements.size();
    if (wrong) {
      film.moments.emplace(requirement, still);
      Pickup pickup{
          Pickup::Kind::SayAgain, requirement, "Say: “In go 100 g of food.”", mention.when.begin, {}};
      pickup.line = "In go 100 g of food " + number + ".";
      pickup.instead_of = "In go ninety grams of food.";
      pickup.room = MediaTime::from_ms(4'000);
      pickup.takes = MediaTime::from_ms(3'100);
      film.pickups.push_back(pickup);
    }
    film.report.requirements.push_back(std::move(line));
  }
  return film;
}

}  // namespace panslate::testing
