#pragma once

#include <cstddef>

#include "check/amount_reach.h"
#include "check/talk.h"

namespace panslate {

/// How an unpunctuated list runs ("flour 200 grams sugar 100 grams"): the longest chain of amount, food,
/// amount, food … around this amount; true when it begins with an amount. Amounts before this one must be
/// tied.
[[nodiscard]] bool amounts_come_first(const Talk& talk, const AmountReach& reach, std::size_t index);

}  // namespace panslate
