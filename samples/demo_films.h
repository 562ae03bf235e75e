#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/media/render.h"
#include "panslate/project/project.h"

#include "demo_scenes.h"

namespace panslate::samples {

/// A clip as it leaves the camera: the whole scene with the sound of a room. One camera hung turned by a
/// quarter, one ran at 30000/1001 with timecode.
[[nodiscard]] RenderSpec camera_film(const Scene& scene);

/// The narration, recorded apart: each line of the captions spoken from the start of its cue, after the time
/// the recorder ran before she spoke.
[[nodiscard]] RenderSpec narration(const Transcript& captions);

/// How long `narration` must become. Longer means that a line does not fit before the next cue.
[[nodiscard]] MediaTime narration_length(const Transcript& captions);

/// The edit: the segments of the project in their places, her text on the picture, the narration under it.
/// Malformed: a segment of a clip that is no scene, or without its place in the edit.
[[nodiscard]] Result<RenderSpec> edit_film(const Project& project);

/// What a film is made from, as a short key: equal keys give equal films.
[[nodiscard]] std::string key_of(const RenderSpec& spec);

}  // namespace panslate::samples
