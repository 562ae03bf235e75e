#pragma once

#include <string>

#include "panslate/check/listening.h"

/// What was heard, in a cook's words: the same in tables and on pages.
namespace panslate {

/// "heard “seven hundred millilitres”, the script has 600 ml": for amounts that are not as written, with why.
[[nodiscard]] std::string listened_amount_words(const Listening& clip, const ListenedAmount& amount);

/// "used: the last whole take", "broken off", "whole"
[[nodiscard]] std::string take_words(const SpokenTake& take);

/// "33 of 34 lines were spoken. 1 amount is said otherwise, 2 must be listened to." or why nothing was found.
[[nodiscard]] std::string listening_summary(const Listening& clip);

}  // namespace panslate
