#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "panslate/kitchen/amount.h"
#include "panslate/kitchen/token.h"

/// The one reader of amounts, written or spoken: "1½ cups", "a hundred and eighty grams", "two and a half
/// tablespoons", "a cup and a half", "half a lime", "1 lb 5 oz", "2 x 400 g tins", "25 to 30 minutes",
/// "180C/160C fan/gas 4", "three fifty" (oven), "a pinch". It reads what stands there; whether the amount
/// belongs to a food is not its business.
namespace panslate {

enum class SpokenOrWritten { Written, Spoken };

/// A number word or figure, as read_number finds it.
struct ScannedNumber {
  Ratio value;
  std::optional<Ratio> to;
  bool about = false;
  std::size_t end = 0;  ///< index after the last token used
};

/// Reads the longest number that starts at `at`: figures, words to millions, fractions, "a couple", "half a
/// dozen", ranges ("two to three", "1–2", "2 or 3"), with "about"/"roughly"/"at least" before it. "a"/"an"
/// alone is 1 only where a unit or container follows (see scan_amount); here it is no number. Empty when no
/// number starts there.
[[nodiscard]] std::optional<ScannedNumber> scan_number(std::span<const Token> tokens, std::size_t at);

/// An amount found at [begin, end) of the tokens, with alternates said or written in the same breath ("200 g
/// (1 cup)", "180C/160C fan/gas 4", "250 grams or one cup").
struct ScannedAmount {
  std::size_t begin = 0;
  std::size_t end = 0;
  Amount amount;
  std::vector<Amount> alternates;
  bool has_unit =
      false;  ///< a unit or container was named; without one the amount is a bare count (Unit::Piece)
  bool is_share = false;   ///< "half the leeks", "two thirds of it": a part of a food, value is the share
  bool is_more = false;    ///< "another 50 g", "a further 10 minutes", "an extra 20 g"
  bool is_total = false;   ///< "450 grams in all", "altogether", "in total"
  bool is_each = false;    ///< "75 grams each", "a serving", "per portion"
  bool is_length = false;  ///< "2 cm piece": a count of pieces whose length was told
  /// Spoken only, scan_amounts only: index after an alternate told past the food ("two hundred grams of
  /// flour, or a cup"); it is among `alternates` and not found again.
  std::optional<std::size_t> retold_end = std::nullopt;
  bool scale_inferred = false;  ///< a temperature without C, F or gas: the unit was taken from the value
};

/// Reads the amount that starts exactly at `at`; empty when none does. Unitless numbers are returned as
/// counts (has_unit false) so the caller can judge; a bare number from 100 to 550 right before "degrees",
/// "fan", "Celsius", an oven word, or in Spoken mode after "oven at/to", gets a temperature unit; a scale
/// left out is inferred from the value (<= 10 gas only with the word gas, 100–260 C, above F).
[[nodiscard]] std::optional<ScannedAmount> scan_amount(std::span<const Token> tokens, std::size_t at,
                                                       SpokenOrWritten how);

/// All amounts of a text from left to right, none overlapping.
[[nodiscard]] std::vector<ScannedAmount> scan_amounts(std::span<const Token> tokens, SpokenOrWritten how);

}  // namespace panslate
