#include "desk/papers.h"

#include <array>
#include <cstddef>
#include <utility>

#include "panslate/deliver/overlay.h"
#include "panslate/deliver/pickup_sheet.h"
#include "panslate/deliver/report_page.h"
#include "panslate/deliver/shot_list_files.h"
#include "panslate/plan/shot_list.h"

namespace panslate {

namespace {

constexpr std::size_t kMostStills = 40;  // each may have to be taken while she waits

// Pages that are whole in themselves: their style is in them, their scripts are for a page in a file, where
// the desk is not.
DeskReply page(std::string html) {
  DeskReply reply{200, "text/html; charset=utf-8", std::move(html), {}, {}};
  reply.headers.emplace_back("Content-Security-Policy",
                             "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; "
                             "form-action 'none'; frame-ancestors 'none'");
  return reply;
}

DeskReply file(std::string_view name, std::string text) {
  DeskReply reply{200, "text/plain; charset=utf-8", std::move(text), {}, {}};
  reply.headers.emplace_back("Content-Disposition", "attachment; filename=\"" + std::string(name) + "\"");
  return reply;
}

std::vector<SegmentPicture> pictures_of_parts(const DeskFilm& film, const StillOfClip& still_of) {
  std::vector<SegmentPicture> pictures;
  for (const auto& segment : film.project->segments) {
    SegmentPicture picture;
    picture.id = segment.id;
    picture.clip = film.project->media[segment.media].id;
    picture.range = segment.range;
    picture.edit_begin = segment.edit_begin;
    for (const auto& step : segment.steps)
      if (step.index) picture.steps.push_back(*step.index);
    if (pictures.size() < kMostStills)
      picture.still = still_of(picture.clip, segment.range.begin + segment.range.duration() / 2);
    pictures.push_back(std::move(picture));
  }
  return pictures;
}

std::string report(const DeskFilm& film, const StillOfClip& still_of) {
  ReportPageInput input{&film.report, &film.project->recipe, &film.pickups};
  input.said = film.input.said;
  input.looked_in = film.looked_in;
  for (const auto& again : film.report.decide_again)
    input.decide_again.push_back({again.what, again.before, again.after});
  input.segments = pictures_of_parts(film, still_of);
  return report_page(input);
}

}  // namespace

std::optional<DeskReply> paper(std::string_view name, const DeskFilm& film, const StillOfClip& still_of) {
  const auto& project = *film.project;
  const auto& recipe = project.recipe;
  if (name == "report.html") return page(report(film, still_of));
  if (name == "shot-list.html")
    return page(shot_list_page(make_shot_list(recipe, &project), recipe, &project));
  if (name == "pickups.csv")
    return file(name, pickups_csv(pickup_sheet(film.pickups, film.report, recipe), film.report).bytes);
  if (name == "overlay.srt") return file(name, write_subrip(plan_overlay(film.report, recipe, &project)));
  if (name == "overlay.vtt") return file(name, write_webvtt(plan_overlay(film.report, recipe, &project)));
  return std::nullopt;
}

}  // namespace panslate
