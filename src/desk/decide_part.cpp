#include "desk/decide_part.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include "panslate/base/lasting_key.h"

#include "desk/part_entry.h"
#include "desk/requests.h"

namespace panslate {

namespace {

using nlohmann::ordered_json;

constexpr std::size_t kLongestText = 2000;  // bytes of a note
constexpr std::size_t kMostNames = 200;     // steps or foods of one part

template <class Things>
std::optional<std::size_t> index_of(const Things& things, const std::string& key) {
  const auto found =
      std::find_if(things.begin(), things.end(), [&](const auto& one) { return one.key == key; });
  if (found == things.end()) return std::nullopt;
  return static_cast<std::size_t>(found - things.begin());
}

bool same_moment(MediaTime a, MediaTime b) {
  return a.to_ms(Round::Nearest) == b.to_ms(Round::Nearest);
}

void set_names(ordered_json& entry, const char* name, const std::vector<std::string>& names) {
  if (names.empty())
    entry.erase(name);
  else if (names.size() == 1 && std::string_view(name) == "step")
    entry[name] = names.front();
  else
    entry[name] = names;
}

void set_text(ordered_json& entry, const char* name, std::string_view text) {
  if (text.empty())
    entry.erase(name);
  else
    entry[name] = text;
}

}  // namespace

Result<PartRequest> part_request(std::string_view body) {
  PANSLATE_TRY(const auto fields, RequestFields::read(body));
  PartRequest request;
  const auto id = fields.given_text("id", kLongestText);
  const auto was = fields.given_text("was", kLongestText);
  if (!id || !was) return no_request();
  request.id = *id;
  request.was = *was;
  if (fields.has("gone")) {
    const auto gone = fields.yes_or_no("gone");
    if (!gone) return no_request();
    request.gone = *gone;
  }
  if (request.gone) return request.id.empty() ? Result<PartRequest>(no_request()) : request;
  const auto clip = fields.given_text("clip", kLongestText);
  const auto in = fields.clip_time("in");
  const auto out = fields.clip_time("out");
  const auto steps = fields.texts("steps", kMostNames, kLongestText);
  const auto shows = fields.texts("shows", kMostNames, kLongestText);
  const auto framing = fields.given_text("framing", kLongestText);
  const auto note = fields.given_text("note", kLongestText);
  if (!clip || !in || !out || !steps || !shows || !framing || !note) return no_request();
  const auto known = framing_from_spelling(*framing);
  if (!known) return no_request();
  request.clip = *clip;
  request.in = *in;
  request.out = *out;
  request.steps = *steps;
  request.shows = *shows;
  request.framing = *known;
  request.note = *note;
  return request;
}

std::string stamp_of(const Segment& segment) {
  std::string names;
  for (const auto& step : segment.steps) names += step.written + "\n";
  names += "\n";
  for (const auto& food : segment.shows) names += food.written + "\n";
  return lasting_key({segment.id, std::to_string(segment.media), std::to_string(segment.range.begin.ticks()),
                      std::to_string(segment.range.end.ticks()), names, spelling_of(segment.framing),
                      segment.note});
}

Result<DecisionBook::Edits> edits_of(const PartRequest& request, const DeskFilm& film,
                                     const ProjectText& text) {
  const auto& project = *film.project;
  const auto& recipe = project.recipe;
  if (text.count("segments") != project.segments.size())
    return seen_otherwise("the project file was changed just now");
  const auto found = std::find_if(project.segments.begin(), project.segments.end(),
                                  [&](const Segment& segment) { return segment.id == request.id; });
  const bool is_new = request.id.empty();
  if (!is_new && (found == project.segments.end() || stamp_of(*found) != request.was))
    return seen_otherwise("this part of the clip was changed meanwhile: " + request.id);
  const auto index = static_cast<std::size_t>(found - project.segments.begin());
  const auto before = is_new ? std::nullopt : std::optional(text.entry("segments", index));
  if (request.gone) return DecisionBook::Edits{{"segments", {}, index, before, std::nullopt, false}};
  if (request.out <= request.in)
    return fail(ErrorCode::Malformed, "the part would end before it begins", std::nullopt,
                "set where it begins first, then where it ends");

  ordered_json entry = ordered_json::object();
  if (before) entry = ordered_json::parse(*before, nullptr, /*allow_exceptions=*/false);
  if (!entry.is_object()) return seen_otherwise("the project file was changed just now");
  if (is_new) {
    if (project.find_media(request.clip) == nullptr) return no_request();
    entry["id"] = new_part_id(project, request.clip, {});
    entry["clip"] = request.clip;
  }
  if (is_new || !same_moment(found->range.begin, request.in)) {
    // The edit was not changed by this: what stands in it at a moment stands there still.
    if (!is_new && found->edit_begin) {
      const auto at = *found->edit_begin + (request.in - found->range.begin);
      if (at < MediaTime())
        entry.erase("at");
      else
        entry["at"] = part_time(at);
    }
    entry["in"] = part_time(request.in);
  }
  if (is_new || !same_moment(found->range.end, request.out)) entry["out"] = part_time(request.out);

  std::vector<std::string> steps;
  for (const auto& key : request.steps) {
    const auto step = index_of(recipe.steps, key);
    if (!step) return seen_otherwise("the recipe has other steps now");
    steps.push_back(name_of_step(recipe, *step));
  }
  std::vector<std::string> shows;
  for (const auto& key : request.shows) {
    const auto food = index_of(recipe.ingredients, key);
    if (!food) return seen_otherwise("the recipe has other ingredients now");
    shows.push_back(name_of_food(recipe, *food));
  }
  const auto resolved = [](const std::vector<LastingReference>& references) {
    std::vector<std::size_t> out;
    for (const auto& one : references)
      if (one.index) out.push_back(*one.index);
    return out;
  };
  const auto wanted = [](const auto& things, const std::vector<std::string>& keys) {
    std::vector<std::size_t> out;
    out.reserve(keys.size());
    for (const auto& key : keys) out.push_back(*index_of(things, key));
    return out;
  };
  // Her own words for it stay where they still say the same.
  if (is_new || resolved(found->steps) != wanted(recipe.steps, request.steps))
    set_names(entry, "step", steps);
  if (is_new || resolved(found->shows) != wanted(recipe.ingredients, request.shows))
    set_names(entry, "shows", shows);
  set_text(entry, "framing", spelling_of(request.framing));
  set_text(entry, "note", request.note);
  return DecisionBook::Edits{
      {"segments", {}, is_new ? project.segments.size() : index, before, line_of_json(entry), false}};
}

}  // namespace panslate
