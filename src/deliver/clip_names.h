#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "panslate/project/log_footage.h"

namespace panslate {

/// The names of clips, by index into FootageLog::clips; with their folders where two of them have one name.
[[nodiscard]] std::vector<std::string> names_of_clips(const FootageLog& log,
                                                      const std::vector<std::size_t>& clips);

/// "a.mp4, b.mp4, c.mp4 and 3 more"
[[nodiscard]] std::string list_words(std::vector<std::string> names);

}  // namespace panslate
