#include "project/segments.h"

#include <algorithm>
#include <string>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"

#include "project/near_spelling.h"

namespace panslate {

namespace {

constexpr std::string_view kTimeHint = "minutes and seconds go from 00 to 59";

bool is_timecode(std::string_view text) {
  return std::count(text.begin(), text.end(), ':') + std::count(text.begin(), text.end(), ';') == 3;
}

// A time of a segment: known, pending, or left out.
struct ReadTime {
  WrittenTime written;
  std::optional<MediaTime> time;
};

ReadTime read_time(const Entry& segment, std::string_view key, ProblemList& problems) {
  ReadTime out;
  out.written.place = problems.place_of(segment.spot().at);
  const auto entry = segment.member(key);
  if (!entry || problems.is_wrong(*entry)) return out;
  out.written.text = entry->text().value_or("");
  out.written.place = problems.place_of(entry->spot().at);
  out.time = parse_timestamp(out.written.text);
  if (out.time) return out;
  out.written.pending = is_timecode(out.written.text);
  if (!out.written.pending)
    problems.add(*entry, in_quotes(out.written.text) + " is no time", std::string(kTimeHint));
  return out;
}

std::optional<std::size_t> media_index(const Project& project, std::string_view id) {
  for (std::size_t i = 0; i < project.media.size(); ++i)
    if (project.media[i].id == id) return i;
  return std::nullopt;
}

std::vector<LastingReference> read_references(const Entry& segment, std::string_view key,
                                              ProblemList& problems) {
  std::vector<LastingReference> references;
  const auto entry = segment.member(key);
  if (!entry) return references;
  auto list = entry->items();
  if (entry->value().is_string()) list = {*entry};
  for (const auto& item : list)
    if (const auto words = item.text(); words && !problems.is_wrong(item))
      references.push_back({*words, std::nullopt, problems.place_of(item.spot().at)});
  return references;
}

std::string clock_words(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Clock);
}

// A stretch of a segment on one clock, for finding overlaps.
struct Stretch {
  const Segment* segment;
  TimeRange range;
  const Place* place;
};

// Linear after sorting: each stretch is compared with the one before it that reaches furthest.
void add_overlaps(std::vector<Stretch> stretches, std::string_view where, std::vector<Error>& found) {
  std::stable_sort(stretches.begin(), stretches.end(),
                   [](const Stretch& a, const Stretch& b) { return a.range.begin < b.range.begin; });
  const Stretch* furthest = nullptr;
  for (const auto& now : stretches) {
    if (furthest != nullptr && furthest->range.overlaps(now.range)) {
      const auto by = std::min(furthest->range.end, now.range.end) - now.range.begin;
      found.push_back({ErrorCode::Malformed,
                       in_quotes(now.segment->id) + " and " + in_quotes(furthest->segment->id) + " overlap " +
                           std::string(where) + " by " + clock_words(by) + ", from " +
                           clock_words(now.range.begin),
                       *now.place, "let one end where the other begins"});
    }
    if (furthest == nullptr || furthest->range.end < now.range.end) furthest = &now;
  }
}

}  // namespace

void add_unknown_clip(const Entry& entry, const std::string& id, const Project& project,
                      ProblemList& problems) {
  std::optional<std::string> near;
  if (problems.suggestions_left > 0) {
    --problems.suggestions_left;
    std::vector<std::string> ids;
    for (const auto& media : project.media) ids.push_back(media.id);
    near = nearest_spelling(id, ids);
  }
  problems.add(entry, "no clip has the id " + in_quotes(id),
               near ? "did you mean " + in_quotes(*near) + "?" : std::string("its id must stand in media"));
}

std::optional<Segment> read_segment(const Entry& entry, const Project& project, ProblemList& problems) {
  if (!entry.value().is_object()) return std::nullopt;
  Segment segment;
  segment.place = problems.place_of(entry.spot().at);
  const auto text_of = [&](std::string_view key) {
    const auto member = entry.member(key);
    return member && !problems.is_wrong(*member) ? member->text() : std::nullopt;
  };
  segment.id = text_of("id").value_or("");
  segment.note = text_of("note").value_or("");
  segment.framing = framing_from_spelling(text_of("framing").value_or("")).value_or(Framing::Unknown);
  segment.steps = read_references(entry, "step", problems);
  segment.shows = read_references(entry, "shows", problems);

  auto in = read_time(entry, "in", problems);
  auto out = read_time(entry, "out", problems);
  auto at = read_time(entry, "at", problems);
  if (out.written.text.empty()) out.written.pending = true;
  const auto begin = in.written.text.empty() ? MediaTime() : in.time;
  if (begin && out.time) {
    segment.range = {*begin, *out.time};
    if (segment.range.empty())
      problems.add(*entry.member("out"),
                   "ends at " + clock_words(segment.range.end) + ", but begins at " + clock_words(*begin),
                   "out is later than in");
  } else if (begin) {
    segment.range = {*begin, *begin};
  }
  segment.edit_begin = at.time;
  segment.in = std::move(in.written);
  segment.out = std::move(out.written);
  segment.at = std::move(at.written);

  const auto clip = text_of("clip");
  if (!clip) return std::nullopt;
  const auto media = media_index(project, *clip);
  if (!media) {
    add_unknown_clip(*entry.member("clip"), *clip, project, problems);
    return std::nullopt;
  }
  segment.media = *media;
  return segment;
}

std::vector<Error> overlaps_of(const Project& project) {
  std::vector<std::vector<Stretch>> by_clip(project.media.size());
  std::vector<Stretch> picture_in_edit;
  std::vector<Stretch> narration_in_edit;
  for (const auto& segment : project.segments) {
    if (segment.in.pending || segment.out.pending || segment.range.empty()) continue;
    by_clip[segment.media].push_back({&segment, segment.range, &segment.place});
    if (!segment.edit_begin || segment.at.pending) continue;
    const TimeRange placed{*segment.edit_begin, *segment.edit_begin + segment.range.duration()};
    auto& track =
        project.media[segment.media].role == MediaRole::Narration ? narration_in_edit : picture_in_edit;
    track.push_back({&segment, placed, &segment.at.place});
  }
  std::vector<Error> found;
  for (std::size_t i = 0; i < by_clip.size(); ++i)
    add_overlaps(std::move(by_clip[i]), "in clip " + in_quotes(project.media[i].id), found);
  add_overlaps(std::move(picture_in_edit), "in the edit", found);
  add_overlaps(std::move(narration_in_edit), "in the edit", found);
  return found;
}

}  // namespace panslate
