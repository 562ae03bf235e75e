#include "app/clips_to_hear.h"

#include <algorithm>
#include <utility>

namespace panslate::app {

namespace {

using Script = std::shared_ptr<const std::vector<ScriptLine>>;

// What is spoken once is spoken in the narration; else in the edit; else on camera.
std::vector<std::size_t> spoken_media(const Project& project, const Footage& footage) {
  for (const auto role : {MediaRole::Narration, MediaRole::Edit, MediaRole::Camera}) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < project.media.size(); ++i)
      if (project.media[i].role == role && footage.clips[i] && !footage.clips[i]->sound.empty())
        found.push_back(i);
    if (!found.empty()) return found;
  }
  return {};
}

ProjectClipToHear clip_of(const Project& project, const Footage& footage, std::size_t media, Script script) {
  ProjectClipToHear found;
  found.media = media;
  const auto& facts = *footage.clips[media];
  found.clip = {project.media[media].file, facts.duration, !facts.sound.empty(), facts.picture.has_value(),
                std::move(script)};
  return found;
}

}  // namespace

std::vector<ProjectClipToHear> clips_to_hear(const Project& project, const Footage& footage,
                                             const Script& script) {
  std::vector<ProjectClipToHear> out;
  for (const auto media : spoken_media(project, footage))
    out.push_back(clip_of(project, footage, media, script));
  return out;
}

std::vector<ProjectClipToHear> clips_to_hear(const Project& project, const Footage& footage) {
  std::vector<ProjectClipToHear> out;
  for (const auto& captions : project.captions)
    for (std::size_t i = 0; i < project.media.size(); ++i) {
      if (project.media[i].id != captions.clock || !footage.clips[i]) continue;
      out.push_back(clip_of(project, footage, i,
                            std::make_shared<const std::vector<ScriptLine>>(script_of(captions.text))));
      out.back().clip.script_is_captions = true;
      out.back().clip.script_is_draft = captions.text.draft;
    }
  if (!project.captions.empty() && project.script.empty()) return out;
  const auto script =
      project.script.empty() ? Script{} : std::make_shared<const std::vector<ScriptLine>>(project.script);
  for (auto& one : clips_to_hear(project, footage, script)) {
    const bool captioned = std::any_of(
        out.begin(), out.end(), [&](const ProjectClipToHear& other) { return other.media == one.media; });
    if (!captioned) out.push_back(std::move(one));
  }
  return out;
}

}  // namespace panslate::app
