#pragma once

#include <filesystem>

#include "panslate/base/progress.h"
#include "panslate/base/result.h"

namespace panslate {

/// Longest side of a proxy, in pixels: sharp enough to judge what is seen, small enough to be made at once.
inline constexpr int kProxySide = 960;

/// Writes a small copy of a clip that every browser plays (H.264 and AAC in an .mp4): upright, in square
/// pixels, no longer interlaced, high dynamic range pressed together, on the clip's own clock. Every picture
/// keeps its time, so that a moment of the copy is the moment of the clip. `out` appears whole or not at all.
///
/// Errors as probe_clip, and Malformed, WriteFailed, Cancelled as render_film. `progress` is told of the
/// clip's milliseconds.
[[nodiscard]] Status make_proxy(const std::filesystem::path& clip, const std::filesystem::path& out,
                                Progress& progress);

/// Removes from this folder what makers of proxies that no longer live left half: "NAME.PID.part". What
/// cannot be removed stays.
void remove_half_copies(const std::filesystem::path& folder);

}  // namespace panslate
