#pragma once

#include <string>
#include <vector>

#include "panslate/recipe/reading.h"

#include "recipe/step_words.h"

/// The finders of the read-through, one a file, and what they look at.
namespace panslate {

/// A recipe with all that is known of it.
struct ReadContext {
  const Recipe& recipe;
  const std::vector<StepWords>& words;  // as recipe.steps
  const ReadOptions& options;
  RecipeReading& reading;  // its flow is read before the first finder runs

  [[nodiscard]] const Flow& flow() const { return reading.flow; }
  /// A finding at an ingredient line.
  ReadFinding& at_ingredient(std::size_t ingredient, std::string code, ReadLevel level,
                             std::string message) const;
  /// A finding at a byte of a step's text.
  ReadFinding& in_step(std::size_t step, std::size_t offset, std::string code, ReadLevel level,
                       std::string message) const;
  /// A finding at a line of its own.
  ReadFinding& at_line(int line, std::string code, ReadLevel level, std::string message) const;
};

/// unused-ingredient, unlisted-ingredient
void find_use_faults(const ReadContext& context);
/// parts-do-not-add-up, never-divided
void find_part_faults(const ReadContext& context);
/// pair-disagrees, pair-loose
void find_pair_faults(const ReadContext& context);
/// yield-disagrees; and what one serving gets
void find_yield_faults(const ReadContext& context);
/// oven-without-temperature, same-length-waits, total-time-disagrees, told-late, wait-without-end
void find_time_faults(const ReadContext& context);
/// the allergens; claim-contradicted, claim-needs-label, claim-not-checked
void find_claim_faults(const ReadContext& context);
/// over-limit, limit-stale, limit-not-compared, limits-not-compared
void find_limit_faults(const ReadContext& context);
/// caution
void find_cautions(const ReadContext& context);
/// hidden-action, unlisted-amount, order-of-use, hard-to-follow-unit, pan-without-size, cue-missing
void find_wording_notes(const ReadContext& context);

/// "line 9" for a message; empty where there are no lines.
[[nodiscard]] std::string line_name(int line);

}  // namespace panslate
