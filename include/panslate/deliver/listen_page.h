#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "panslate/check/listening.h"

namespace panslate {

struct ListenPageInput {
  const std::vector<Listening>& clips;
  std::filesystem::path folder;  ///< where the page will lie: clips are played from there
};

/// What was heard as one page that needs nothing else: of each clip first the amounts to listen to, its sound
/// drawn with the lines and takes in it, then every line with its words. A word, a take, a doubt plays when
/// it is clicked, where the clip lies where it did. Whatever the script holds is text, never markup.
[[nodiscard]] std::string listen_page(const ListenPageInput& input);

}  // namespace panslate
