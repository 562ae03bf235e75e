#include "app/film_stills.h"

#include <map>
#include <utility>

namespace panslate::app {

namespace {

constexpr int kStillSide =
    320;  // pixels: legible beside a line of text, small enough to carry within the page

MediaTime middle_of(const TimeRange& range) {
  return range.begin + range.duration() / 2;
}

std::vector<std::size_t> resolved(const std::vector<LastingReference>& references) {
  std::vector<std::size_t> indices;
  for (const auto& reference : references)
    if (reference.index) indices.push_back(*reference.index);
  return indices;
}

}  // namespace

Result<std::vector<SegmentPicture>> take_segment_stills(Film& film, FootageWorkers& workers,
                                                        Progress& progress) {
  std::vector<SegmentPicture> pictures;
  if (!film.project) return pictures;
  const auto& project = *film.project;
  std::vector<StillWanted> wanted;
  std::vector<std::size_t> whose;
  for (const auto& segment : project.segments) {
    const auto& media = project.media[segment.media];
    const auto& facts = film.footage.clips[segment.media];
    std::optional<Still> kept;
    if (facts && facts->picture) {
      const auto time = middle_of(segment.range);
      kept = film.store.still(film.footage.contents[segment.media], time, kStillSide);
      if (!kept) {
        wanted.push_back({media.file, time});
        whose.push_back(pictures.size());
      }
    }
    pictures.push_back(
        {segment.id, media.id, segment.range, segment.edit_begin, resolved(segment.steps), std::move(kept)});
  }
  PANSLATE_TRY(auto stills, workers.stills(wanted, kStillSide, progress));
  for (std::size_t i = 0; i < stills.size(); ++i) {
    if (!stills[i]) continue;
    const auto& content = film.footage.contents[project.segments[whose[i]].media];
    if (!content.empty()) film.store.keep_still(content, wanted[i].time, kStillSide, *stills[i]);
    pictures[whose[i]].still = *std::move(stills[i]);
  }
  return pictures;
}

Result<std::map<std::size_t, Still>> take_moment_stills(const Film& film, const CheckReport& report,
                                                        FootageWorkers& workers, Progress& progress) {
  std::map<std::size_t, Still> taken;
  if (!film.video || !film.video->picture) return taken;
  std::vector<StillWanted> wanted;
  std::vector<std::size_t> whose;
  for (std::size_t i = 0; i < report.requirements.size(); ++i) {
    const auto& requirement = report.requirements[i];
    if (!CheckReport::needs_attention(requirement)) continue;
    const auto& mentions =
        requirement.said.mentions.empty() ? requirement.on_text.mentions : requirement.said.mentions;
    if (mentions.empty()) continue;
    wanted.push_back({film.video->file, middle_of(mentions.front().when)});
    whose.push_back(i);
  }
  PANSLATE_TRY(auto stills, workers.stills(wanted, kStillSide, progress));
  for (std::size_t i = 0; i < stills.size(); ++i)
    if (stills[i]) taken.emplace(whose[i], *std::move(stills[i]));
  return taken;
}

}  // namespace panslate::app
