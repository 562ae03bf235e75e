#pragma once

#include <string>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/recipe/recipe.h"

#include "check/talk.h"
#include "check/timing_verdict.h"
#include "check/whereabouts.h"

namespace panslate {

/// Was each step spoken of, and each doneness cue? By requirement; empty channels for other kinds.
struct StepFindings {
  std::vector<ChannelFinding> channels;
  std::vector<std::string> why;
};

[[nodiscard]] StepFindings judge_steps(const Talk& talk, const std::vector<Requirement>& requirements,
                                       const Whereabouts& where, const TimingFindings& timings);

}  // namespace panslate
