#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/recipe/recipe.h"

#include "check/talk.h"
#include "check/whereabouts.h"

namespace panslate {

/// What a talk says of temperatures, times and yields.
struct TimingFindings {
  std::vector<ChannelFinding> channels;  ///< by requirement; empty for other kinds
  std::vector<std::string> why;          ///< by requirement
  std::vector<std::optional<std::size_t>>
      requirement_of;  ///< by Talk::amounts: what the amount was taken for
};

/// Lays every spoken duration and temperature on the action it is most likely said for (the step spoken, the
/// verb beside it, the foods), then compares. A value alone never decides where it belongs against step and
/// verb.
[[nodiscard]] TimingFindings judge_timings(const Talk& talk, const Recipe& recipe,
                                           const std::vector<Requirement>& requirements,
                                           const Whereabouts& where);

/// Yields: "serves four", "enough for six people", "makes 24".
void judge_yields(const Talk& talk, const Recipe& recipe, const std::vector<Requirement>& requirements,
                  TimingFindings& findings);

}  // namespace panslate
