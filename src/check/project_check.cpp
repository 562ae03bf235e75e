#include <algorithm>
#include <string>

#include "panslate/base/timestamp.h"
#include "panslate/check/check.h"
#include "panslate/project/edit_map.h"

namespace panslate {

namespace {

// Beside other findings it is no error: what it is, where the project says so, what to do.
std::string in_one_line(const Error& error) {
  auto line = error.message;
  if (error.place && error.place->line > 0)
    line +=
        " (" + error.place->file.filename().string() + ", line " + std::to_string(error.place->line) + ")";
  return error.hint.empty() ? line : line + "; " + error.hint;
}

bool is_edit(const Project& project, const std::string& clock) {
  const auto* media = project.find_media(clock);
  return media != nullptr && media->role == MediaRole::Edit;
}

bool edit_has_captions(const Project& project) {
  return std::any_of(project.captions.begin(), project.captions.end(),
                     [&](const auto& captions) { return is_edit(project, captions.clock); });
}

const MediaEntry* edit_of(const Project& project) {
  const auto found = std::find_if(project.media.begin(), project.media.end(),
                                  [](const MediaEntry& media) { return media.role == MediaRole::Edit; });
  return found == project.media.end() ? nullptr : &*found;
}

// Captions of clips and narration, as far as they are in the edit.
void add_captions_in_edit(const Project& project, const EditMap& map, CheckInput& input) {
  const auto* edit = edit_of(project);
  for (const auto& captions : project.captions) {
    for (std::size_t i = 0; i < project.media.size(); ++i) {
      if (project.media[i].id != captions.clock || !map.has(i)) continue;
      input.moved.push_back(std::make_shared<const Transcript>(map.in_edit(captions.text, i)));
      input.said.push_back({input.moved.back().get(), edit != nullptr ? edit->id : std::string{}});
    }
  }
}

void add_captions(const Project& project, const Footage& footage, LookIn look, CheckInput& input) {
  // Once there is an edit with captions it is what viewers get; captions of raw clips would say everything
  // twice.
  const bool of_edit = look == LookIn::Raw ? false : edit_has_captions(project);
  if (look == LookIn::Edit && !of_edit) {
    add_captions_in_edit(project, EditMap(project, footage), input);
    return;
  }
  for (const auto& captions : project.captions) {
    const bool on_edit = is_edit(project, captions.clock);
    if (look == LookIn::Raw ? !on_edit : !of_edit || on_edit)
      input.said.push_back({&captions.text, captions.clock});
  }
}

FilmedSegment filmed(const Segment& segment) {
  FilmedSegment out{segment.id, {}, {}};
  for (const auto& step : segment.steps)
    if (step.index) out.steps.push_back(*step.index);
  for (const auto& food : segment.shows)
    if (food.index) out.shows.push_back(*food.index);
  return out;
}

}  // namespace

CheckInput check_input_of(const Project& project, const Footage& footage, LookIn look) {
  CheckInput input;
  input.recipe = &project.recipe;
  add_captions(project, footage, look, input);
  for (const auto& text : project.on_screen_text)
    if (look == LookIn::Usual || is_edit(project, text.clock) == (look == LookIn::Edit))
      input.on_text.push_back({&text.text, text.clock});
  // Parts of clips that nobody has tied to a step yet (a project just begun) say nothing about what is
  // filmed.
  const bool decided = std::any_of(project.segments.begin(), project.segments.end(),
                                   [](const Segment& s) { return !s.steps.empty() || !s.shows.empty(); });
  if (decided) {
    input.segments.emplace();
    for (const auto& segment : project.segments)
      if (look != LookIn::Edit || segment.edit_begin) input.segments->push_back(filmed(segment));
  }
  for (std::size_t i = 0; i < project.media.size() && i < footage.clips.size(); ++i)
    if (look != LookIn::Raw && project.media[i].role == MediaRole::Edit && footage.clips[i])
      input.duration = footage.clips[i]->duration;
  if (!input.duration)
    for (const auto& said : input.said)
      input.duration = std::max(input.duration.value_or(MediaTime()), said.transcript->end());
  return input;
}

std::string looked_in_words(const Project& project, LookIn look) {
  const auto* edit = edit_of(project);
  const auto name = edit != nullptr ? " (" + edit->file.filename().string() + ")" : std::string{};
  const bool captions = edit_has_captions(project);
  switch (look) {
    case LookIn::Edit:
      return captions ? "Checked on the edit" + name + "."
                      : "Checked on the edit" + name +
                            ", with the captions of the clips and the narration as far as they are in it.";
    case LookIn::Raw:
      return "Checked on the clips and the narration, before the edit.";
    case LookIn::Usual:
      return captions ? "Checked on the captions of the edit" + name + " and every part of a clip."
                      : "Checked on the clips and the narration.";
  }
  return {};
}

void add_raw_findings(CheckReport& edit, const CheckReport& raw) {
  for (std::size_t r = 0; r < edit.requirements.size() && r < raw.requirements.size(); ++r) {
    auto& line = edit.requirements[r];
    const auto& before = raw.requirements[r].said;
    if (line.said.verdict == Verdict::Match || before.verdict != Verdict::Match || before.mentions.empty())
      continue;
    line.said_in_raw = before;
    const auto& mention = before.mentions.front();
    line.why += (line.why.empty() ? "it is said" : "; it is said") +
                (mention.media.empty() ? std::string{} : " in clip " + mention.media) + " at " +
                format_timestamp(mention.when.begin, TimestampStyle::Spoken) + ", which is not in the edit";
  }
}

void add_project_warnings(CheckReport& report, const Project& project, const Footage& footage) {
  const auto add = [&](const Error& error, const char* code, WarningLevel level) {
    report.warnings.push_back({code, level, in_one_line(error), std::nullopt, std::nullopt});
  };
  for (const auto& error : footage.unusable) add(error, "clip-unusable", WarningLevel::Warning);
  for (const auto& error : project.to_decide) add(error, "decide-again", WarningLevel::Warning);
  for (const auto& error : footage.moved) add(error, "clip-moved", WarningLevel::Note);
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
