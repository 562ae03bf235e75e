#include "deliver/overlay_moment.h"

#include <algorithm>
#include <map>
#include <vector>

#include "panslate/base/timestamp.h"

namespace panslate {

namespace {

constexpr MediaTime kCoarse = MediaTime::from_ms(500);
// A picture is read before its text is: the text waits until the cut has been seen.
constexpr MediaTime kAfterCut = MediaTime::from_ms(500);

const Mention* deciding(const ChannelFinding& channel) {
  return channel.mentions.empty() ? nullptr : &channel.mentions.front();
}

const MediaEntry* edit_of(const Project& project) {
  const auto found = std::find_if(project.media.begin(), project.media.end(),
                                  [](const MediaEntry& media) { return media.role == MediaRole::Edit; });
  return found == project.media.end() ? nullptr : &*found;
}

bool is_edit(const Project& project, const std::string& clock) {
  const auto* edit = edit_of(project);
  return edit != nullptr && edit->id == clock;
}

// The same instant on the edit's clock, where a part of the clip that holds it stands in the edit.
std::optional<MediaTime> in_edit(const Project& project, const std::string& clip, MediaTime time) {
  for (const auto& segment : project.segments)
    if (segment.edit_begin && project.media[segment.media].id == clip && segment.range.contains(time))
      return *segment.edit_begin + (time - segment.range.begin);
  return std::nullopt;
}

std::optional<MediaTime> on_clock(const Mention& mention, const Project* project, const std::string& clock) {
  if (project == nullptr || mention.media == clock) return mention.when.begin;
  if (is_edit(*project, clock)) return in_edit(*project, mention.media, mention.when.begin);
  return std::nullopt;
}

std::vector<std::size_t> steps_of(const Requirement& requirement, const Recipe& recipe) {
  if (requirement.kind != RequirementKind::Ingredient) return {requirement.index};
  std::vector<std::size_t> steps;
  for (std::size_t s = 0; s < recipe.steps.size(); ++s) {
    const auto& uses = recipe.steps[s].uses;
    if (std::find(uses.begin(), uses.end(), requirement.index) != uses.end()) steps.push_back(s);
  }
  return steps;
}

// Parts of clips that show it as a person said, before those that only film its step.
std::vector<const Segment*> segments_of(const Requirement& requirement, const Recipe& recipe,
                                        const Project& project) {
  const auto steps = steps_of(requirement, recipe);
  std::vector<const Segment*> listed, of_step;
  for (const auto& segment : project.segments) {
    const bool shows =
        requirement.kind == RequirementKind::Ingredient &&
        std::any_of(segment.shows.begin(), segment.shows.end(),
                    [&](const LastingReference& reference) { return reference.index == requirement.index; });
    const bool films =
        std::any_of(segment.steps.begin(), segment.steps.end(), [&](const LastingReference& reference) {
          return reference.index && std::find(steps.begin(), steps.end(), *reference.index) != steps.end();
        });
    if (shows)
      listed.push_back(&segment);
    else if (films)
      of_step.push_back(&segment);
  }
  listed.insert(listed.end(), of_step.begin(), of_step.end());
  return listed;
}

}  // namespace

std::string overlay_clock(const CheckReport& report, const Project* project) {
  if (project == nullptr) return {};
  const auto* edit = edit_of(*project);
  std::map<std::string, int> lines;
  bool reaches_edit = false;
  for (const auto& requirement : report.requirements) {
    const auto* mention = deciding(requirement.said);
    if (mention == nullptr) continue;
    ++lines[mention->media];
    if (edit != nullptr && on_clock(*mention, project, edit->id)) reaches_edit = true;
  }
  if (edit != nullptr)
    reaches_edit = reaches_edit || lines.empty() ||
                   std::any_of(project->segments.begin(), project->segments.end(),
                               [](const Segment& segment) { return segment.edit_begin.has_value(); });
  if (reaches_edit) return edit->id;
  const auto most = std::max_element(lines.begin(), lines.end(),
                                     [](const auto& a, const auto& b) { return a.second < b.second; });
  return most == lines.end() ? std::string{} : most->first;
}

std::optional<OverlayMoment> overlay_moment(const Requirement& requirement, const Recipe& recipe,
                                            const Project* project, const std::string& clock) {
  for (const auto* channel : {&requirement.said, &requirement.on_text})
    if (const auto* mention = deciding(*channel))
      if (const auto begin = on_clock(*mention, project, clock))
        return OverlayMoment{*begin, *begin + mention->when.duration(), mention->precision > kCoarse,
                             mention->precision};
  if (project == nullptr) return std::nullopt;
  for (const auto* segment : segments_of(requirement, recipe, *project)) {
    if (segment->edit_begin && is_edit(*project, clock)) {
      const auto begin = *segment->edit_begin + kAfterCut;
      return OverlayMoment{begin, begin, false, {}};
    }
    if (project->media[segment->media].id == clock) {
      const auto begin = segment->range.begin + kAfterCut;
      return OverlayMoment{begin, begin, false, {}};
    }
  }
  return std::nullopt;
}

std::string moment_elsewhere(const Requirement& requirement, const Recipe& recipe, const Project* project) {
  const auto spoken = [](MediaTime time) {
    return format_timestamp(time, TimestampStyle::Spoken, Round::Down);
  };
  if (const auto* mention = deciding(requirement.said))
    return "said at " + spoken(mention->when.begin) + (mention->media.empty() ? "" : " in " + mention->media);
  if (project == nullptr) return {};
  const auto segments = segments_of(requirement, recipe, *project);
  if (segments.empty()) return {};
  const auto& first = *segments.front();
  return "filmed at " + spoken(first.range.begin) + " in " + project->media[first.media].id;
}

}  // namespace panslate
