#include "desk/desk_state.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/check/spoken_index.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/pickup_sheet.h"
#include "panslate/plan/shot_list.h"
#include "panslate/project/answer_spelling.h"

#include "desk/clip_seconds.h"
#include "desk/decide_part.h"
#include "desk/doubts.h"
#include "desk/playable.h"

namespace panslate {

namespace {

using nlohmann::json;

std::string_view word_of(Standing standing) {
  switch (standing) {
    case Standing::Good:
      return "good";
    case Standing::Doubtful:
      return "doubt";
    case Standing::Wrong:
      return "wrong";
    case Standing::Absent:
    case Standing::NotLooked:
      break;
  }
  return "none";
}

json json_of(const Finding& finding) {
  return {{"words", finding.words}, {"detail", finding.detail}, {"standing", word_of(finding.standing)}};
}

json json_of(const std::optional<DeskMoment>& moment) {
  if (!moment) return nullptr;
  return {{"clip", moment->media},
          {"begin", clip_seconds(moment->when.begin)},
          {"end", clip_seconds(moment->when.end)},
          {"time", format_timestamp(moment->when.begin, TimestampStyle::Spoken, Round::Down)}};
}

std::string_view kind_of(RequirementKind kind) {
  switch (kind) {
    case RequirementKind::Ingredient:
      return "ingredient";
    case RequirementKind::MethodAmount:
      return "amount in the method";
    case RequirementKind::Temperature:
      return "temperature";
    case RequirementKind::Time:
      return "time";
    case RequirementKind::Yield:
      return "how much it makes";
    case RequirementKind::Step:
      return "step";
    case RequirementKind::Cue:
      return "how to tell that it is done";
  }
  return {};
}

std::string words_between(const Transcript& transcript, std::size_t begin, std::size_t end) {
  return SpokenSpan{&transcript, begin, end}.text();
}

class State {
 public:
  explicit State(const DecisionBook::Page& page)
      : page_(page),
        film_(*page.film),
        recipe_(page.film->project->recipe),
        digest_(digest_of(page.film->report)),
        spoken_(page.film->input.said) {
    for (const auto* lines : {&digest_.attention, &digest_.in_order, &digest_.not_needed})
      for (const auto& line : *lines) line_of_.emplace(line.requirement, &line);
  }

  std::string text() {
    const auto doubts = doubts_of(film_);
    json out{{"version", page_.version},
             {"title", recipe_.title.empty() ? recipe_.file.filename().string() : recipe_.title},
             {"file", film_.project->file.filename().string()},
             {"summary", digest_.summary},
             {"lookedIn", film_.looked_in},
             {"undo", page_.to_undo},
             {"redo", page_.to_redo}};
    out["doubts"] = json::array();
    for (const auto& doubt : doubts) out["doubts"].push_back(json_of(doubt));
    set_answers(out);
    out["counts"] = counts(doubts.size());
    out["measures"] = measures();
    out["recipe"] = recipe();
    out["ingredients"] = json::array();
    for (const auto& ingredient : recipe_.ingredients)
      out["ingredients"].push_back(
          {{"key", ingredient.key}, {"name", ingredient.name.empty() ? ingredient.text : ingredient.name}});
    out["framings"] = json::array();
    for (const auto framing : kFramings) out["framings"].push_back(spelling_of(framing));
    out["clips"] = clips();
    out["parts"] = parts();
    out["jobs"] = jobs();
    return out.dump(-1, ' ', false, json::error_handler_t::replace);
  }

 private:
  // Which lines are right by measuring alone, which by her word.
  [[nodiscard]] json counts(std::size_t open) const {
    std::size_t measured = 0;
    for (const auto& line : film_.report.requirements)
      if (line.covered && !line.answered) ++measured;
    return {{"measured", measured}, {"answered", answered_}, {"open", open}};
  }

  json json_of(const Doubt& doubt) {
    const auto& line = film_.report.requirements[doubt.requirement];
    json out = line_json(doubt.requirement);
    out["id"] = doubt_id(line, doubt.about);
    out["about"] = spelling_of(doubt.about);
    out["question"] = doubt.question;
    out["found"] = found_words(line, doubt.about);
    out["moment"] = panslate::json_of(doubt.moment);
    return out;
  }

  json line_json(std::size_t r) {
    const auto& line = film_.report.requirements[r];
    json out{{"line", line.key},
             {"written", line.text},
             {"kind", kind_of(line.kind)},
             {"covered", line.covered},
             {"optional", line.optional},
             {"attention", CheckReport::needs_attention(line)},
             {"why", line.why},
             {"heard", heard(line)},
             {"moment", panslate::json_of(moment_of(film_, r, Answer::About::Said))},
             {"todo", json::array()}};
    if (!line.on_text.mentions.empty()) out["onPicture"] = line.on_text.mentions.front().text;
    if (const auto found = line_of_.find(r); found != line_of_.end()) {
      out["said"] = panslate::json_of(found->second->said);
      out["shown"] = panslate::json_of(found->second->shown);
      out["picture"] = panslate::json_of(found->second->on_picture);
      out["when"] = found->second->when;
    }
    for (const auto& pickup : film_.pickups)
      if (pickup.requirement == r)
        out["todo"].push_back({{"what", pickup.what}, {"fit", fit_in_words(pickup.room, pickup.takes)}});
    return out;
  }

  // The words that decided, within the sentence they stand in.
  [[nodiscard]] json heard(const Requirement& line) const {
    if (line.said.mentions.empty()) return nullptr;
    const auto& mention = line.said.mentions.front();
    const auto span = spoken_.find(mention.media, mention.when);
    if (span.empty()) return {{"before", ""}, {"words", mention.text}, {"after", ""}};
    const auto sentence = spoken_.sentence_around(span);
    return {{"before", words_between(*span.transcript, std::min(sentence.begin, span.begin), span.begin)},
            {"words", words_between(*span.transcript, span.begin, span.end)},
            {"after", words_between(*span.transcript, span.end, std::max(sentence.end, span.end))}};
  }

  void set_answers(json& out) {
    out["answers"] = json::array();
    out["again"] = json::array();
    const auto& answers = film_.project->answers;
    std::set<std::size_t> stale;
    for (const auto& again : film_.report.decide_again) {
      stale.insert(again.answer);
      const auto& answer = answers[again.answer];
      out["again"].push_back({{"forget",
                               {{"answer", again.answer},
                                {"line", answer.line},
                                {"about", spelling_of(answer.about)},
                                {"is", spelling_of(answer.is)},
                                {"written", answer.written}}},
                              {"what", again.what},
                              {"before", again.before},
                              {"after", again.after}});
    }
    for (std::size_t i = 0; i < answers.size(); ++i) {
      const auto line = line_of(film_.report, answers[i]);
      if (!line || stale.contains(i)) continue;
      ++answered_;
      const auto& requirement = film_.report.requirements[*line];
      out["answers"].push_back({{"line", requirement.key},
                                {"about", spelling_of(answers[i].about)},
                                {"is", spelling_of(answers[i].is)},
                                {"written", requirement.text},
                                {"found", found_words(requirement, answers[i].about)}});
    }
  }

  [[nodiscard]] json measures() const {
    const auto matters =
        std::any_of(film_.report.warnings.begin(), film_.report.warnings.end(),
                    [](const CheckWarning& warning) { return warning.code == "measures-guessed"; });
    return {{"is", spelling_of(recipe_.measures)},
            {"guessed", recipe_.measures_guessed},
            {"ask", matters},
            {"why", recipe_.measures_reason}};
  }

  json recipe() {
    std::map<std::size_t, json> of_ingredient;
    std::map<std::size_t, json> of_step;
    json yields = json::array();
    for (std::size_t r = 0; r < film_.report.requirements.size(); ++r) {
      const auto& line = film_.report.requirements[r];
      if (line.kind == RequirementKind::Yield)
        yields.push_back(line_json(r));
      else if (line.kind == RequirementKind::Ingredient)
        of_ingredient[line.index] = line_json(r);
      else if (line.kind == RequirementKind::Step)
        of_step[line.index]["step"] = line_json(r);
      else
        of_step[line.index]["lines"].push_back(line_json(r));
    }
    json groups = json::array();
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i) {
      const auto& ingredient = recipe_.ingredients[i];
      if (groups.empty() || groups.back()["name"] != ingredient.group)
        groups.push_back({{"name", ingredient.group}, {"lines", json::array()}});
      if (of_ingredient.contains(i)) groups.back()["lines"].push_back(std::move(of_ingredient[i]));
    }
    json steps = json::array();
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) {
      json step{{"number", recipe_.steps[s].number},
                {"key", recipe_.steps[s].key},
                {"part", recipe_.steps[s].part},
                {"text", recipe_.steps[s].text},
                {"line", of_step[s].is_null() ? json() : of_step[s].value("step", json())},
                {"lines", of_step[s].is_null() ? json::array() : of_step[s].value("lines", json::array())}};
      steps.push_back(std::move(step));
    }
    return {{"yields", std::move(yields)}, {"groups", std::move(groups)}, {"steps", std::move(steps)}};
  }

  [[nodiscard]] json clips() const {
    json list = json::array();
    const auto& media = film_.project->media;
    for (std::size_t i = 0; i < media.size(); ++i) {
      const auto& facts = film_.footage->clips[i];
      if (!facts) continue;
      json clip{{"id", media[i].id},
                {"content", film_.footage->contents[i]},
                {"role", media[i].role == MediaRole::Edit        ? "edit"
                         : media[i].role == MediaRole::Narration ? "narration"
                                                                 : "camera"},
                {"length", clip_seconds(facts->duration)},
                {"picture", facts->picture.has_value()},
                {"plays", plays_in_browsers(*facts)}};
      if (facts->picture) {
        clip["rate"] = {facts->picture->frame_rate.num, facts->picture->frame_rate.den};
        clip["shape"] = {facts->picture->shown_width, facts->picture->shown_height};
      }
      list.push_back(std::move(clip));
    }
    return list;
  }

  [[nodiscard]] json parts() const {
    json list = json::array();
    for (const auto& segment : film_.project->segments) {
      json steps = json::array();
      for (const auto& step : segment.steps)
        if (step.index) steps.push_back(recipe_.steps[*step.index].key);
      json shows = json::array();
      for (const auto& food : segment.shows)
        if (food.index) shows.push_back(recipe_.ingredients[*food.index].key);
      list.push_back({{"id", segment.id},
                      {"stamp", stamp_of(segment)},
                      {"clip", film_.project->media[segment.media].id},
                      {"in", clip_seconds(segment.range.begin)},
                      {"out", clip_seconds(segment.range.end)},
                      {"steps", std::move(steps)},
                      {"shows", std::move(shows)},
                      {"framing", spelling_of(segment.framing)},
                      {"note", segment.note}});
    }
    return list;
  }

  // What to film and to say, step by step: what she has in her hand beside the stove.
  [[nodiscard]] json jobs() const {
    json list = json::array();
    std::map<std::size_t, json> say;
    for (const auto& pickup : film_.pickups) {
      const auto& line = film_.report.requirements[pickup.requirement];
      if (pickup.kind != Pickup::Kind::SayAgain) continue;
      say[step_of(line)].push_back(
          {{"id", line.key}, {"words", pickup.line.empty() ? pickup.what : pickup.line}});
    }
    std::map<std::size_t, json> film;
    for (const auto& shot : make_shot_list(recipe_, film_.project).shots)
      film[shot.step].push_back({{"id", lasting_id(shot)},
                                 {"subject", shot.subject},
                                 {"framing", spelling_of(shot.framing)},
                                 {"shows", shot.shows},
                                 {"line", shot.line},
                                 {"once", !shot.repeatable},
                                 {"filmed", !shot.covered_by.empty()}});
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s)
      list.push_back({{"step", recipe_.steps[s].number},
                      {"text", recipe_.steps[s].text},
                      {"part", recipe_.steps[s].part},
                      {"say", say.contains(s) ? say[s] : json::array()},
                      {"film", film.contains(s) ? film[s] : json::array()}});
    return list;
  }

  [[nodiscard]] std::string lasting_id(const Shot& shot) const {
    return recipe_.steps.empty() ? shot.number : recipe_.steps[shot.step].key + "/" + shot.subject;
  }

  // The step in which a line is spoken: an ingredient's is the first that uses it.
  [[nodiscard]] std::size_t step_of(const Requirement& line) const {
    if (line.kind == RequirementKind::Yield) return 0;
    if (line.kind != RequirementKind::Ingredient) return line.index;
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) {
      const auto& uses = recipe_.steps[s].uses;
      if (std::find(uses.begin(), uses.end(), line.index) != uses.end()) return s;
    }
    return 0;
  }

  const DecisionBook::Page& page_;
  const DeskFilm& film_;
  const Recipe& recipe_;
  CheckDigest digest_;
  SpokenIndex spoken_;
  std::map<std::size_t, const CheckLine*> line_of_;
  std::size_t answered_ = 0;
};

}  // namespace

std::string desk_state(const DecisionBook::Page& page) {
  return State(page).text();
}

}  // namespace panslate
