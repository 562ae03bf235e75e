#pragma once

#include <string>

#include "panslate/check/report.h"

#include "check/talk.h"
#include "check/whereabouts.h"

namespace panslate {

/// Is a doneness cue ("until golden") told where its step is, in the recipe's words or others that say the
/// same? Fills the channel and why.
void judge_cue(const Talk& talk, const Whereabouts& where, const Requirement& requirement,
               ChannelFinding& channel, std::string& why);

/// The first words of a stretch, as much as a report shows.
[[nodiscard]] Mention beginning_of(const SpokenText& text, TokenSpan span);

}  // namespace panslate
