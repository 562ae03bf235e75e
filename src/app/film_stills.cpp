#include "app/film_stills.h"

#include <map>
#include <utility>

#include "panslate/media/still.h"

namespace panslate::app {

namespace {

constexpr int kStillSide =
    320;  // pixels: legible beside a line of text, small enough to carry within the page

Status stopped_or(const Progress& progress) {
  if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
  return {};
}

std::vector<std::size_t> resolved(const std::vector<LastingReference>& references) {
  std::vector<std::size_t> indices;
  for (const auto& reference : references)
    if (reference.index) indices.push_back(*reference.index);
  return indices;
}

}  // namespace

Result<std::vector<SegmentPicture>> take_segment_stills(const Film& film, Progress& progress) {
  std::vector<SegmentPicture> pictures;
  if (!film.project) return pictures;
  const auto& project = *film.project;
  const auto total = static_cast<std::int64_t>(project.segments.size());
  for (const auto& segment : project.segments) {
    PANSLATE_CHECK(stopped_or(progress));
    progress.step("taking stills", static_cast<std::int64_t>(pictures.size()), total);
    const auto& media = project.media[segment.media];
    SegmentPicture picture{segment.id,  media.id, segment.range, segment.edit_begin, resolved(segment.steps),
                           std::nullopt};
    const auto& facts = film.footage.clips[segment.media];
    if (facts && facts->picture) {
      const auto middle = segment.range.begin + segment.range.duration() / 2;
      if (auto still = take_still(media.file, middle, kStillSide)) picture.still = *std::move(still);
    }
    pictures.push_back(std::move(picture));
  }
  return pictures;
}

Result<std::map<std::size_t, Still>> take_moment_stills(const Film& film, const CheckReport& report,
                                                        Progress& progress) {
  std::map<std::size_t, Still> stills;
  if (!film.video || !film.video->picture) return stills;
  for (std::size_t i = 0; i < report.requirements.size(); ++i) {
    const auto& requirement = report.requirements[i];
    if (!CheckReport::needs_attention(requirement)) continue;
    const auto& mentions =
        requirement.said.mentions.empty() ? requirement.on_text.mentions : requirement.said.mentions;
    if (mentions.empty()) continue;
    PANSLATE_CHECK(stopped_or(progress));
    progress.step("taking stills", static_cast<std::int64_t>(i),
                  static_cast<std::int64_t>(report.requirements.size()));
    const auto middle = mentions.front().when.begin + mentions.front().when.duration() / 2;
    if (auto still = take_still(film.video->file, middle, kStillSide)) stills.emplace(i, *std::move(still));
  }
  return stills;
}

}  // namespace panslate::app
