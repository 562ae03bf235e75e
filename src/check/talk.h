#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "panslate/kitchen/amount_scan.h"
#include "panslate/recipe/recipe.h"

#include "check/spoken_text.h"

/// What one transcript says of foods and amounts, before any verdict: where each food is named, which amounts
/// are spoken, which amount belongs to which food, what was corrected, taken back, said again or only
/// suggested.
namespace panslate {

/// A food to look for: of an ingredient line, or of an amount in the method.
struct FoodTarget {
  std::size_t requirement = 0;  ///< index into CheckReport::requirements
  std::string name;
  std::size_t part = 0;                       ///< which of the line's foods ("salt and pepper": 0, 1)
  bool counted = false;                       ///< written as a bare count: "an onion" is an amount of it
  bool measured = false;                      ///< written with a number
  bool optional = false;                      ///< "if you like" is how an optional one is offered
  std::vector<std::string> deeds = {};        ///< stems of what the method does with it, in order
  std::vector<std::string> words = {};        ///< of the name, folded
  std::vector<Unit> units = {};               ///< of the written amounts
  std::vector<std::string> group_stems = {};  ///< of the part of the dish it is listed for ("For the cream")
};

enum class NameStrength : std::uint8_t { Category, Head, Full };

struct FoodSighting {
  TokenSpan span;
  std::vector<std::size_t>
      targets;  ///< that these words may name; several when the words alone do not settle it
  NameStrength strength = NameStrength::Full;
  bool suggested = false;  ///< "you could also use …", "great with …"
  bool doubtful = false;   ///< read through a mishearing, or by a part of its name, that is not sure enough
};

/// Words that were taken for the name of a food they sound like.
struct Misheard {
  TokenSpan span;
  std::vector<std::string> meant;  ///< the words of the name
};

/// How an amount was tied to its food, strongest last.
enum class Tie : std::uint8_t { None, Distant, Behind, Before };

struct SpokenAmount {
  TokenSpan span;
  ScannedAmount scan;
  std::optional<std::size_t> food;      ///< index into Talk::sightings
  std::vector<std::size_t> also_foods;  ///< "a tablespoon each of A and B": the other foods
  Tie tie = Tie::None;
  bool shared_with_next = false;  ///< "two spoons of oil and vinegar": one amount for two measured foods
  bool taken_back = false;        ///< superseded by a correction, or denied ("not 200")
  bool corrects = false;          ///< replaces everything said before of this food
  bool repeated = false;          ///< in a line spoken again
  bool suggested = false;
  bool portion = false;    ///< per serving, per piece, a ladle of the batter
  bool late = false;       ///< after the farewell
  bool qualified = false;  ///< told as others do it, on a condition, or as not known: "… but I don't"
  bool beside = false;     ///< of another pot: how it is sold, last year's, a sister's, what a diet allows
};

/// An amount of a food the recipe does not have.
struct StrangeAmount {
  std::size_t amount = 0;  ///< index into Talk::amounts
  TokenSpan food;          ///< empty when no food is named
};

struct Talk {
  explicit Talk(SpokenText spoken) : text(std::move(spoken)) {}

  SpokenText text;
  std::vector<FoodSighting> sightings;
  std::vector<SpokenAmount> amounts;
  std::vector<StrangeAmount> strange;
  std::vector<TokenSpan> repeated_lines;
  std::vector<Misheard> misheard;
  std::vector<FoodSighting> other_foods;  ///< foods that no line lists, named as something that goes in
};

/// Reads transcripts for these foods of the recipe.
[[nodiscard]] Talk read_talk(const std::vector<TimedText>& sources, TextKind kind,
                             const std::vector<FoodTarget>& targets, const Recipe& recipe);

/// The stages of read_talk, each testable alone, in this order.
void find_amounts(Talk& talk);
void find_repeated_lines(Talk& talk);
void find_asides(Talk& talk, const Recipe& recipe);
void find_corrections(Talk& talk);
void tie_amounts(Talk& talk, const std::vector<FoodTarget>& targets);
void settle_ties(Talk& talk, const std::vector<FoodTarget>& targets);
void find_strange_foods(Talk& talk);

}  // namespace panslate
