#include "desk/decide_answer.h"

#include <algorithm>

#include "panslate/project/answer_spelling.h"

#include "desk/doubts.h"

namespace panslate {

namespace {

bool is_stale(const CheckReport& report, std::size_t answer) {
  const auto& again = report.decide_again;
  return std::any_of(again.begin(), again.end(), [&](const auto& one) { return one.answer == answer; });
}

// As a person would write it, where that names this line and no other; else its key.
std::string name_of(const DeskFilm& film, std::size_t line) {
  const auto& requirement = film.report.requirements[line];
  if (requirement.kind != RequirementKind::Ingredient || requirement.name.empty()) return requirement.key;
  Answer by_name;
  by_name.line = requirement.name;
  return line_of(film.report, by_name) == line ? requirement.name : requirement.key;
}

std::string json_text(const DeskFilm& film, std::size_t line, const AnswerRequest& request) {
  auto out = "{\"line\": " + in_json_quotes(name_of(film, line));
  if (request.about != Answer::About::Said)
    out += ", \"about\": " + in_json_quotes(spelling_of(request.about));
  out += ", \"is\": " + in_json_quotes(spelling_of(*request.is));
  out += ", \"written\": " + in_json_quotes(request.written);
  out += ", \"found\": " + in_json_quotes(request.found);
  return out + "}";
}

}  // namespace

Result<DecisionBook::Edits> edits_of(const AnswerRequest& request, const DeskFilm& film,
                                     const ProjectText& text) {
  const auto& lines = film.report.requirements;
  const auto found = std::find_if(lines.begin(), lines.end(),
                                  [&](const Requirement& line) { return line.key == request.line; });
  if (found == lines.end() || found->text != request.written)
    return seen_otherwise("this line reads otherwise now: " + request.written);
  if (request.is && found_words(*found, request.about) != request.found)
    return seen_otherwise("something else is found for this line now: " + request.written);
  const auto line = static_cast<std::size_t>(found - lines.begin());

  if (text.count("answers") != film.project->answers.size())
    return seen_otherwise("the project file was changed just now");
  std::vector<std::size_t> standing;  // indices of the answers about the same, that hold or held
  std::string was;
  const auto& answers = film.project->answers;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    if (answers[i].about != request.about || line_of(film.report, answers[i]) != line) continue;
    standing.push_back(i);
    if (!is_stale(film.report, i)) was = spelling_of(answers[i].is);
  }
  if (was != request.was)
    return seen_otherwise(was.empty() ? "the answer to this was taken away meanwhile: " + request.written
                                      : "this was answered meanwhile (" + was + "): " + request.written);

  // From the last to the first, so that no index moves before it is used.
  DecisionBook::Edits edits;
  for (auto i = standing.rbegin(); i != standing.rend(); ++i)
    edits.push_back({"answers", {}, *i, text.entry("answers", *i), std::nullopt, false});
  if (!request.is) return edits;
  if (!edits.empty())
    edits.back().after = json_text(film, line, request);
  else
    edits.push_back(
        {"answers", {}, text.count("answers"), std::nullopt, json_text(film, line, request), false});
  return edits;
}

Result<DecisionBook::Edits> edits_of(const MeasuresRequest& request, const DeskFilm& film,
                                     const ProjectText& text) {
  const auto& recipe = film.project->recipe;
  const std::string was = recipe.measures_guessed ? std::string() : std::string(spelling_of(recipe.measures));
  if (was != request.was) return seen_otherwise("whose cups and spoons it means was decided meanwhile");
  return DecisionBook::Edits{{"settings", "measures", 0, text.member("settings", "measures"),
                              in_json_quotes(spelling_of(request.measures)), false}};
}

Result<DecisionBook::Edits> edits_of(const ForgetRequest& request, const DeskFilm& film,
                                     const ProjectText& text) {
  const auto& answers = film.project->answers;
  const auto is_hers = [&](const Answer& answer) {
    return answer.line == request.line && answer.about == request.about && answer.is == request.is &&
           answer.written == request.written;
  };
  if (request.answer >= answers.size() || text.count("answers") != answers.size() ||
      !is_hers(answers[request.answer]) || !is_stale(film.report, request.answer))
    return seen_otherwise("this answer stands elsewhere now");
  return DecisionBook::Edits{
      {"answers", {}, request.answer, text.entry("answers", request.answer), std::nullopt, false}};
}

}  // namespace panslate
