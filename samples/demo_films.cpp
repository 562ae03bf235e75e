#include "demo_films.h"

#include <algorithm>
#include <string>
#include <utility>

#include "panslate/base/lasting_key.h"

namespace panslate::samples {

namespace {

constexpr std::string_view kTurnedClip = "plums";
constexpr std::string_view kTimecodeClip = "millet";
constexpr MediaTime kRecorderLead = MediaTime::from_seconds(2);
constexpr MediaTime kAfterLastLine = MediaTime::from_ms(2'400);
constexpr FrameRate kEditRate{25, 1};

std::string room(double level, std::size_t seed) {
  return "anoisesrc=c=brown:r=48000:a=" + std::to_string(level) + ":seed=" + std::to_string(seed + 1);
}

std::string spoken(const Cue& cue) {
  std::string line = cue.text;
  std::replace(line.begin(), line.end(), '\n', ' ');
  return line;
}

// The lines with the silence between them, from `from` on the captions' clock; ends in the label [voice].
std::string voice_graph(const Transcript& captions, MediaTime from) {
  std::string graph =
      "anullsrc=r=16000:cl=mono:d=" + filter_seconds(captions.cues.front().when.begin - from) + "[s];";
  std::string inputs = "[s]";
  for (std::size_t i = 0; i < captions.cues.size(); ++i) {
    const auto& cue = captions.cues[i];
    const auto next =
        i + 1 < captions.cues.size() ? captions.cues[i + 1].when.begin : cue.when.end + kAfterLastLine;
    const auto label = "[s" + std::to_string(i) + ']';
    graph += "flite=voice=slt:text=" + graph_value(spoken(cue)) +
             ",apad=whole_dur=" + filter_seconds(next - cue.when.begin) + label + ';';
    inputs += label;
  }
  return graph + inputs + "concat=n=" + std::to_string(captions.cues.size() + 1) + ":v=0:a=1[voice]";
}

}  // namespace

RenderSpec camera_film(const Scene& scene) {
  RenderSpec spec;
  const auto seed = static_cast<std::size_t>(&scene - demo_scenes().data());
  spec.graph = scene_chain(scene) + "[v];" + room(0.02, seed) + "[a]";
  spec.duration = scene.length;
  spec.rate = scene.rate;
  spec.recorded = scene.recorded;
  if (scene.clip == kTurnedClip) spec.rotation = 90;
  if (scene.clip == kTimecodeClip) spec.timecode = "01:00:00;00";
  return spec;
}

RenderSpec narration(const Transcript& captions) {
  RenderSpec spec;
  spec.graph = voice_graph(captions, -kRecorderLead) + ";[voice]anull[a]";
  return spec;
}

MediaTime narration_length(const Transcript& captions) {
  return kRecorderLead + captions.end() + kAfterLastLine;
}

Result<RenderSpec> edit_film(const Project& project) {
  std::vector<const Segment*> segments;
  for (const auto& segment : project.segments) {
    if (!segment.edit_begin)
      return fail(ErrorCode::Malformed, "segment '" + segment.id + "' has no place in the edit",
                  segment.place);
    segments.push_back(&segment);
  }
  if (segments.empty() || project.captions.empty())
    return fail(ErrorCode::Malformed, "the edit needs segments and captions", Place{project.file});
  std::sort(segments.begin(), segments.end(),
            [](const Segment* a, const Segment* b) { return *a->edit_begin < *b->edit_begin; });

  RenderSpec spec;
  spec.rate = kEditRate;
  std::string inputs;
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const auto& segment = *segments[i];
    const auto* scene = find_scene(project.media[segment.media].id);
    if (scene == nullptr)
      return fail(ErrorCode::Malformed, "segment '" + segment.id + "' is of a clip that is not drawn",
                  segment.place);
    const auto end = i + 1 < segments.size() ? *segments[i + 1]->edit_begin
                                             : *segment.edit_begin + segment.range.duration();
    const auto label = "[v" + std::to_string(i) + ']';
    const TimeRange stretch{segment.range.begin, segment.range.begin + (end - *segment.edit_begin)};
    spec.graph += scene_chain(*scene, stretch) + ",setpts=PTS-STARTPTS,fps=25" + label + ';';
    inputs += label;
    spec.duration = end;
  }
  spec.graph += inputs + "concat=n=" + std::to_string(segments.size()) + ":v=1:a=0";
  for (const auto& entry : project.on_screen_text)
    for (const auto& title : entry.text.cues) spec.graph += "," + title_filter(title.text, title.when);
  spec.graph += "[v];" + voice_graph(project.captions.front().text, MediaTime()) + ";" + room(0.01, 99) +
                "[room];[voice][room]amix=inputs=2:duration=first:normalize=0[a]";
  return spec;
}

std::string key_of(const RenderSpec& spec) {
  return lasting_key({spec.graph, filter_seconds(spec.duration.value_or(MediaTime())),
                      std::to_string(spec.rate.num), std::to_string(spec.rate.den),
                      std::to_string(spec.rotation), spec.timecode.value_or(""), spec.recorded.value_or("")});
}

}  // namespace panslate::samples
