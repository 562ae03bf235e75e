#pragma once

#include <string>

namespace panslate {

/// How near two verbs of the kitchen are: 2 the same verb, 1 verbs for the same kind of doing (roast, bake,
/// "in the oven"), 0 neither.
[[nodiscard]] int action_likeness(const std::string& folded_a, const std::string& folded_b);

/// True for words that name a kind of doing at all.
[[nodiscard]] bool is_action_word(const std::string& folded);

}  // namespace panslate
