#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/kitchen/compare.h"

/// Amounts said for one food against the amounts written for it: is there a reading of what was said that
/// gives what is written?
namespace panslate {

/// One amount said for the food, in order of time.
struct SaidAmount {
  const Amount* amount = nullptr;
  const std::vector<Amount>* alternates = nullptr;
  bool is_share = false;   ///< "half the leeks"
  bool is_more = false;    ///< "another 50 g"
  bool is_total = false;   ///< "450 grams in all"
  bool repeated = false;   ///< in a line spoken again
  bool loose_tie = false;  ///< tied to the food over a sentence's edge
  bool corrects = false;   ///< replaces what stands before
  bool partitive = false;  ///< "50 g of the butter": a part of what was told before
};

struct Reading {
  Verdict verdict = Verdict::NoAmount;
  std::size_t deciding = 0;        ///< index into the amounts given
  std::vector<std::size_t> extra;  ///< said to be more than the recipe's
  std::string how;                 ///< a clause for the cook: a conversion, a sum, a doubt
  bool loose_pair = false;         ///< equal only loosely, through a density
  bool size_differs = false;       ///< heaped said, level written
};

/// Compares one amount said (and its alternates: each must be equal) with the amounts written (any of them).
[[nodiscard]] Comparison compare_with_written(const Amount& said, const std::vector<Amount>& alternates,
                                              const std::vector<Amount>& written, Measures measures,
                                              std::string_view food);

/// The verdict for a food that was named. `written` as in the recipe line, leading amount first; may be
/// empty.
[[nodiscard]] Reading read_amounts(const std::vector<SaidAmount>& said, const std::vector<Amount>& written,
                                   Measures measures, std::string_view food);

}  // namespace panslate
