#pragma once

#include <optional>
#include <string>

#include "panslate/check/report.h"
#include "panslate/project/project.h"

/// When an on-screen text belongs: at the words that name its food or heat or time, or at the part of a clip
/// that shows it, on one clock.
namespace panslate {

struct OverlayMoment {
  MediaTime begin;  ///< of the words, or of the picture
  MediaTime end;    ///< of the words; begin where nothing is said
  bool coarse = false;
  MediaTime precision;
};

/// The clock the on-screen text runs on: the edit's where anything reaches it, else that of the most lines
/// said. Empty without a project.
[[nodiscard]] std::string overlay_clock(const CheckReport& report, const Project* project);

/// Empty where nothing tells a moment on this clock.
[[nodiscard]] std::optional<OverlayMoment> overlay_moment(const Requirement& requirement,
                                                          const Recipe& recipe, const Project* project,
                                                          const std::string& clock);

/// Where it is said or filmed on another clock, for the cook: "said at 0:12 in voice"; empty where nowhere.
[[nodiscard]] std::string moment_elsewhere(const Requirement& requirement, const Recipe& recipe,
                                           const Project* project);

}  // namespace panslate
