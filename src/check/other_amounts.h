#pragma once

#include "panslate/kitchen/amount.h"
#include "panslate/speech/listen_again.h"

namespace panslate {

/// What stands between the number and the unit of an amount: "more" in "ten more minutes".
struct AmountWording {
  std::vector<std::string> between;
  bool another = false;  ///< "another" stands before it: the unit alone is one of it
};

/// What a cook might say in the place of `amount`: other numbers, other units of the same kind, with less
/// weight units of other kinds; number and unit agree ("one minute", "two minutes"), and "hundred" takes its
/// rest with "and". The amount itself is not among them in any of its forms. Empty (no arcs) when the amount
/// has no number.
[[nodiscard]] Sayings other_amounts(const Amount& amount, const AmountWording& wording = {});

}  // namespace panslate
