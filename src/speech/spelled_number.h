#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace panslate {

/// The ways to say a number written with ASCII digits ("250", "1,200", "1.5"), each a list of words; digit by
/// digit when it begins with 0 or has more than six. For words of a script that nobody knows as an amount.
[[nodiscard]] std::vector<std::vector<std::string>> spelled_number(std::string_view digits);

}  // namespace panslate
