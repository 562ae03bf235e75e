#pragma once

#include <cstddef>
#include <span>

#include "panslate/kitchen/token.h"

namespace panslate {

/// False only where no amount and no number that counts nothing can start: most words of speech are passed
/// over without reading further. A test holds it against scan_amount.
[[nodiscard]] bool may_start_amount(std::span<const Token> tokens, std::size_t at);

}  // namespace panslate
