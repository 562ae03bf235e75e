#pragma once

#include <cstddef>

#include "check/talk.h"

namespace panslate {

/// Whether an amount was broken off and begun again: "a hundred and, what is it, a hundred and twenty-five".
[[nodiscard]] bool is_begun_again(const Talk& talk, std::size_t index);

/// Whether an amount is one of those that she counts aloud before the number that holds: "I have one, two,
/// three, four. Four cucumbers."
[[nodiscard]] bool is_counted_aloud(const Talk& talk, std::size_t index);

}  // namespace panslate
