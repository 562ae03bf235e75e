#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "panslate/check/listen.h"
#include "panslate/project/project.h"

namespace panslate::app {

struct ProjectClipToHear {
  std::size_t media = 0;  ///< index into Project::media
  ClipToHear clip;        ///< the script's words as they are written (see script_to_hear)
};

/// The clips of a project whose sound tells when its words are spoken: those with captions; with the
/// project's script the narration, or else the edit, or else the clips of the cameras; and where it has
/// neither captions nor script, the same clips without one: for a draft.
[[nodiscard]] std::vector<ProjectClipToHear> clips_to_hear(const Project& project, const Footage& footage);

/// The same with a script that the project does not name: no captions then.
[[nodiscard]] std::vector<ProjectClipToHear> clips_to_hear(
    const Project& project, const Footage& footage,
    const std::shared_ptr<const std::vector<ScriptLine>>& script);

}  // namespace panslate::app
