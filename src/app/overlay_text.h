#pragma once

#include <cstdint>
#include <string>

#include "panslate/deliver/overlay.h"

#include "app/terminal.h"

namespace panslate::app {

enum class Saved : std::uint8_t { No, Yes };

/// The on-screen text as a list with its times, then the notes for the cook, then one line that sums up.
[[nodiscard]] std::string overlay_text(const OverlayTrack& track, Saved saved, const Terminal& terminal);

}  // namespace panslate::app
