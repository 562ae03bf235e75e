#pragma once

#include <string>
#include <vector>

#include "check/spoken_text.h"

namespace panslate {

/// Stretches that say the dish's own name: runs of the title's words with the word for the dish in it
/// ("carrot fritters"). Runs within the name of a listed food (`foods`) that is said there are none.
[[nodiscard]] std::vector<TokenSpan> dish_names(const SpokenText& text, const std::string& title,
                                                const std::vector<std::string>& foods);

}  // namespace panslate
