#include <algorithm>
#include <string>

#include "panslate/check/check.h"

namespace panslate {

CheckInput check_input_of(const Project& project, const Footage& footage) {
  CheckInput input;
  input.recipe = &project.recipe;
  const auto is_edit = [&](const std::string& clock) {
    const auto* media = project.find_media(clock);
    return media != nullptr && media->role == MediaRole::Edit;
  };
  // Once there is an edit with captions it is what viewers get; captions of raw clips would say everything
  // twice.
  const bool has_edit = std::any_of(project.captions.begin(), project.captions.end(),
                                    [&](const auto& c) { return is_edit(c.clock); });
  for (const auto& captions : project.captions)
    if (!has_edit || is_edit(captions.clock)) input.said.push_back({&captions.text, captions.clock});
  for (const auto& text : project.on_screen_text) input.on_text.push_back({&text.text, text.clock});
  // Parts of clips that nobody has tied to a step yet (a project just begun) say nothing about what is
  // filmed.
  const bool decided = std::any_of(project.segments.begin(), project.segments.end(),
                                   [](const Segment& s) { return !s.steps.empty() || !s.shows.empty(); });
  if (decided) {
    input.segments.emplace();
    for (const auto& segment : project.segments) {
      FilmedSegment filmed{segment.id, {}, {}};
      for (const auto& step : segment.steps)
        if (step.index) filmed.steps.push_back(*step.index);
      for (const auto& food : segment.shows)
        if (food.index) filmed.shows.push_back(*food.index);
      input.segments->push_back(std::move(filmed));
    }
  }
  for (std::size_t i = 0; i < project.media.size() && i < footage.clips.size(); ++i)
    if (project.media[i].role == MediaRole::Edit && footage.clips[i])
      input.duration = footage.clips[i]->duration;
  if (!input.duration)
    for (const auto& said : input.said)
      input.duration = std::max(input.duration.value_or(MediaTime()), said.transcript->end());
  return input;
}

void add_project_warnings(CheckReport& report, const Project& project, const Footage& footage) {
  const auto add = [&](const Error& error, const char* code) {
    CheckWarning warning{code, WarningLevel::Warning, render(error), std::nullopt, std::nullopt};
    report.warnings.push_back(std::move(warning));
  };
  for (const auto& error : footage.unusable) add(error, "clip-unusable");
  for (const auto& error : project.to_decide) add(error, "decide-again");
  for (const auto& error : footage.moved)
    report.warnings.push_back({"clip-moved", WarningLevel::Note, render(error), std::nullopt, std::nullopt});
  const auto open = std::count_if(project.segments.begin(), project.segments.end(),
                                  [](const Segment& s) { return s.steps.empty() && s.shows.empty(); });
  if (static_cast<std::size_t>(open) * 2 > project.segments.size())
    report.warnings.push_back(
        {"part-without-step", WarningLevel::Note,
         std::to_string(open) + " of " + std::to_string(project.segments.size()) +
             " parts of clips name no step yet: write \"step\" and \"shows\" beside them in the project file",
         std::nullopt, std::nullopt});
}

}  // namespace panslate
