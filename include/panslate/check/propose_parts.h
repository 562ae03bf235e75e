#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/media/clip_log.h"
#include "panslate/project/project.h"

/// Proposals for parts of clips: which stretch of a clip films which step of the recipe, by what is said
/// there. A proposal decides nothing; what she marked herself is never proposed over.
namespace panslate {

struct ProposedPart {
  std::size_t media = 0;    ///< index into Project::media
  TimeRange range;          ///< on the clip's clock, in whole milliseconds
  std::size_t step = 0;     ///< index into Recipe::steps
  Mention said;             ///< the words that tell the step best, and the cues they stand in
  bool cut_before = false;  ///< the sentence they are of begins before them
  bool cut_behind = false;  ///< and goes on behind them
  bool draft = false;       ///< the words were written by ear
};

struct PartProposals {
  /// By the order of the clips, then of time; those of one clip do not overlap.
  std::vector<ProposedPart> parts;
  std::size_t untold = 0;         ///< stretches whose words tell no step
  std::size_t between_steps = 0;  ///< where two steps are about as likely
  std::size_t marked = 0;         ///< that lie over a part she has marked
  /// Indices into Project::media, of clips that have neither words nor a part of hers: somebody speaks.
  std::vector<std::size_t> without_words;
  std::vector<std::size_t> without_voice;  ///< the same, and nobody speaks
};

/// Whether a part is one that a project begins with: the whole clip, tied to no step, with nothing else said
/// of it. It gives way to parts that are tied to steps. `length`: the clip's.
[[nodiscard]] bool is_unmarked(const Segment& segment, MediaTime length);

/// Cuts the cameras' clips that have words (the project's captions on their clocks) where the talk goes on to
/// another step: at the start of a shot or in a pause of the voice, never through a word. `logs` by index of
/// Project::media, null where there is none: such clips are passed over. The project must have been measured.
[[nodiscard]] PartProposals propose_parts(const Project& project, std::span<const ClipLog* const> logs);

}  // namespace panslate
