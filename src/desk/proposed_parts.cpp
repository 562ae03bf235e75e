#include "desk/proposed_parts.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "desk/clip_seconds.h"
#include "desk/requests.h"

namespace panslate {

namespace {

using nlohmann::json;

}  // namespace

std::string proposed_parts(const DeskFilm& film, const PartProposals& proposals) {
  const auto& project = *film.project;
  json list = json::array();
  for (const auto& part : proposals.parts)
    list.push_back({{"clip", project.media[part.media].id},
                    {"in", clip_seconds(part.range.begin)},
                    {"out", clip_seconds(part.range.end)},
                    {"step", project.recipe.steps[part.step].key},
                    {"said", part.said.text},
                    {"at", clip_seconds(part.said.when.begin)},
                    {"draft", part.draft}});
  return list.dump(-1, ' ', false, json::error_handler_t::replace);
}

Result<TakeRequest> take_request(std::string_view body) {
  PANSLATE_TRY(const auto fields, RequestFields::read(body));
  const auto clip = fields.text("clip");
  const auto in = fields.clip_time("in");
  const auto out = fields.clip_time("out");
  const auto step = fields.text("step");
  if (!clip || clip->empty() || !in || !out || !step || step->empty()) return no_request();
  return TakeRequest{*clip, *in, *out, *step};
}

Result<PartProposals> taken_from(const PartProposals& proposals, const DeskFilm& film,
                                 const TakeRequest& wanted) {
  const auto& project = *film.project;
  const auto found =
      std::find_if(proposals.parts.begin(), proposals.parts.end(), [&](const ProposedPart& part) {
        return project.media[part.media].id == wanted.clip && part.range.begin == wanted.in &&
               part.range.end == wanted.out && project.recipe.steps[part.step].key == wanted.step;
      });
  if (found == proposals.parts.end()) return seen_otherwise("this part is no longer proposed as you saw it");
  PartProposals one;
  one.parts.push_back(*found);
  return one;
}

}  // namespace panslate
