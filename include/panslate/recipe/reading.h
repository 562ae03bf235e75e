#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/recipe/flow.h"
#include "panslate/recipe/limits.h"
#include "panslate/recipe/recipe.h"
#include "panslate/recipe/scaling.h"

/// The read-through: what is wrong in a written recipe before anyone films it.
namespace panslate {

enum class ReadLevel : std::uint8_t {
  Error,    ///< two things written contradict each other
  Warning,  ///< something is missing or misleads
  Note,     ///< worth knowing; changes no exit status
};
[[nodiscard]] std::string_view spelling_of(ReadLevel level);

/// One thing to tell. Line and column from 1; 0 where the source has no lines.
struct ReadFinding {
  std::string code;  ///< "unused-ingredient": one of the contract's, or of the README's list
  ReadLevel level = ReadLevel::Note;
  int line = 0;
  int column = 0;
  std::string message;  ///< one sentence: what is wrong
  std::string advice;   ///< what to do about it; may be empty
  std::string source;   ///< where the fact it rests on is published; may be empty
};

/// An allergen with the lines it comes from.
struct AllergenFinding {
  std::string id;                        ///< "gluten_cereals"
  std::vector<std::string> lists;        ///< "EU", "US"
  std::vector<std::size_t> certain;      ///< ingredients that hold it
  std::vector<std::size_t> check_label;  ///< ingredients that hold it by some makers
  std::vector<std::size_t> in_method;    ///< indices into Flow::mentioned: foods in no line that hold it
  std::vector<std::size_t> in_method_by_label;  ///< the same, of those that hold it by some makers
};

/// What one serving gets of an ingredient.
struct PerServing {
  std::size_t ingredient = 0;
  Amount amount;
  std::optional<Amount> limit;  ///< her own, for one serving
  std::optional<bool> within;   ///< empty: no limit, or not comparable
  std::string checked;          ///< the date she last checked the limit, as written
};

struct ReadOptions {
  std::optional<Ratio> serves;  ///< scale to so many servings
  const LimitTable* limits = nullptr;
  std::chrono::sys_days today{};  ///< tells which limits are stale
};

struct RecipeReading {
  Flow flow;
  std::vector<ReadFinding> findings;  ///< in the order of the recipe, errors first where a line has several
  std::vector<AllergenFinding> allergens;
  std::vector<PerServing> per_serving;
  std::optional<ScaledRecipe> scaled;

  /// True where a finding of level error or warning stands.
  [[nodiscard]] bool wants_attention() const;
};

/// Reads a recipe through. Never fails: what cannot be judged is said to be not checked.
[[nodiscard]] RecipeReading read_through(const Recipe& recipe, const ReadOptions& options = {});

}  // namespace panslate
