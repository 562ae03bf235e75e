#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "panslate/check/report.h"

#include "check/step_alignment.h"
#include "check/talk.h"

namespace panslate {

/// What a talk says of one requirement that is a food: the verdict, its mentions (deciding first) and one
/// sentence why.
struct FoodFinding {
  ChannelFinding channel;
  std::string why;
  std::vector<std::size_t> amounts;        ///< indices into Talk::amounts that were taken as this food's
  std::vector<std::size_t> extra_amounts;  ///< said to be more than the recipe's
  std::vector<CheckWarning> warnings;
};

/// Which ingredient line each sighting speaks of, where words, group and step settle it.
struct LineChoice {
  std::vector<std::vector<std::size_t>>
      targets_of;  ///< by sighting: the targets it may mean after all evidence
};

/// Settles sightings that several lines could mean: by a fuller name just before, by the group named in the
/// sentence ("for the pastry"), by the step that is spoken; what remains open keeps several targets.
[[nodiscard]] LineChoice choose_lines(const Talk& talk, const std::vector<FoodTarget>& targets,
                                      const Recipe& recipe, const std::vector<Requirement>& requirements,
                                      const StepAlignment& steps);

/// Judges every food requirement of `requirements` (others are left empty), by index.
[[nodiscard]] std::vector<FoodFinding> judge_foods(const Talk& talk, const std::vector<FoodTarget>& targets,
                                                   const Recipe& recipe,
                                                   const std::vector<Requirement>& requirements,
                                                   const LineChoice& lines);

}  // namespace panslate
