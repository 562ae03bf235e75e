#pragma once

#include <cstddef>
#include <string>

#include "panslate/project/log_footage.h"

namespace panslate {

/// The name of a shot's still in the folder of results: "pan-1-shot-2.jpg"; with the clip's number where two
/// clips have one name.
[[nodiscard]] std::string still_name(const FootageLog& log, std::size_t clip, std::size_t shot);

}  // namespace panslate
