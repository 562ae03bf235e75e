#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "panslate/recipe/recipe.h"

/// How the dish comes together, as the method tells it: which step uses what, what is made on the way ("the
/// dough") and taken up later, which step needs which others done, and where the cook waits.
///
///     1. Rub the butter into the flour; chill for 30 minutes.     pastry ─┐
///     2. Meanwhile, simmer the plums for 20 minutes.              plums ──┴─▶ 3. Line the tin with the
///     pastry …
namespace panslate {

/// How a step comes to use an ingredient line.
enum class UseKind : std::uint8_t {
  Named,    ///< by its name, a synonym or its head noun
  Group,    ///< among others: "the spices", "the dry ingredients", "the dressing" of a group of the list
  Rest,     ///< "everything", "the remaining ingredients"
  Implied,  ///< by what is done: frying needs the oil, greasing the butter
};

struct FlowUse {
  std::size_t ingredient = 0;  ///< index into Recipe::ingredients
  UseKind kind = UseKind::Named;
  std::size_t offset = 0;  ///< byte of the step's text where it is named
};

/// A food that a step uses and no line lists.
struct UnlistedFood {
  std::size_t step = 0;
  std::size_t offset = 0;  ///< byte of the step's text
  std::string name;        ///< as written
  bool measured = false;   ///< an amount stands before it
};

/// What waits for what while nobody need stand by.
enum class WaitPlace : std::uint8_t { Oven, Hob, Cold, Room };

struct FlowWait {
  std::size_t step = 0;
  std::size_t offset = 0;             ///< byte of the step's text
  std::optional<std::size_t> time;    ///< index into Step::times; empty: no length is told
  std::string action;                 ///< "bake", "chill"
  std::string what;                   ///< what waits, in the step's words: "the pastry"; may be empty
  WaitPlace place = WaitPlace::Room;  ///< where
  std::int64_t least = 0, most = 0;   ///< seconds; overnight is 8 hours
  bool overnight = false;
  bool has_end = true;       ///< a length, a time of day or a sign ("until cold") is told
  bool beside_next = false;  ///< the next words of the method go on beside it: "Meanwhile, …"
};

/// Something that is made on the way and has a name: "dough", "sauce".
struct FlowResult {
  std::string name;
  std::size_t made_in = 0;           ///< index into Recipe::steps
  std::vector<std::size_t> used_in;  ///< later steps that take it up
};

struct FlowStep {
  std::vector<FlowUse> uses;       ///< each ingredient once, in the order of the list
  std::vector<std::size_t> after;  ///< steps that must be done before, ascending
  std::vector<bool> hands_on;      ///< of each of Step::times: somebody must stand by
  bool beside = false;             ///< begins with "Meanwhile", "While the dough rests"
};

struct Flow {
  std::vector<FlowStep> steps;  ///< as Recipe::steps
  std::vector<FlowResult> results;
  std::vector<FlowWait> waits;  ///< in the order of the method
  std::vector<UnlistedFood> unlisted;
  /// All foods of the method that no line covers: the unlisted, and those that are no fault of the list, as
  /// "serve with garlic bread", "grease the tin with butter". What they hold is eaten all the same.
  std::vector<UnlistedFood> mentioned;
  std::vector<std::vector<std::size_t>> used_in;  ///< by ingredient: the steps that use it, ascending
};

/// Reads the flow of a recipe. Never fails; a method that tells nothing gives steps without uses.
[[nodiscard]] Flow flow_of(const Recipe& recipe);

}  // namespace panslate
