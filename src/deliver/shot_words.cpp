#include "deliver/shot_words.h"

#include <algorithm>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/check_digest.h"

namespace panslate {

namespace {

std::string segment_words(const std::string& id, const Project* project) {
  if (project == nullptr) return id;
  const auto found = std::find_if(project->segments.begin(), project->segments.end(),
                                  [&](const Segment& segment) { return segment.id == id; });
  if (found == project->segments.end()) return id;
  const auto spoken = [](MediaTime time) {
    return format_timestamp(time, TimestampStyle::Spoken, Round::Down);
  };
  const auto& clip = project->media[found->media].id;
  // Where in and out are timecode, only the measured clip knows the stretch.
  if (found->range.empty()) return id + " (" + clip + ")";
  return id + " (" + clip + ", " + spoken(found->range.begin) + "–" + spoken(found->range.end) + ")";
}

}  // namespace

std::string framing_words(const Shot& shot) {
  const auto words = spelling_of(shot.framing);
  return words.empty() ? "any" : std::string(words);
}

std::string filmed_words(const Shot& shot, const Project* project) {
  if (shot.covered_by.empty()) return "to film";
  std::vector<std::string> parts;
  for (const auto& id : shot.covered_by) parts.push_back(segment_words(id, project));
  return join(parts, ", ");
}

std::string length_words(const Shot& shot) {
  const auto halves = (shot.length.to_ms(Round::Up) + 499) / 500;
  return std::to_string(halves / 2) + (halves % 2 != 0 ? ".5 s" : " s");
}

std::string shot_list_summary(const ShotList& list) {
  std::size_t to_film = 0;
  MediaTime total;
  for (const auto& shot : list.shots) {
    to_film += shot.covered_by.empty() ? 1U : 0U;
    total += shot.length;
  }
  return count_in_words(list.shots.size(), "shot", "shots") + ", " + std::to_string(to_film) +
         " to film; about " + format_timestamp(total, TimestampStyle::Spoken, Round::Down) + " of film.";
}

std::size_t step_number(const Shot& shot, const Recipe& recipe) {
  return shot.step < recipe.steps.size() ? shot.step + 1 : 0;
}

}  // namespace panslate
