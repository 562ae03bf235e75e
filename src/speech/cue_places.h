#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "panslate/speech/transcript.h"

namespace panslate {

/// Where the bytes of a cue's plain text stand in the text of its file.
struct CuePlaces {
  std::vector<std::size_t> begin;  ///< by byte of Cue::text
  std::vector<std::size_t> end;

  /// The stretch of the file's text that holds a stretch of the cue's; empty when something else (a tag) lies
  /// between its bytes.
  struct Stretch {
    std::size_t begin = 0;
    std::size_t end = 0;
  };
  [[nodiscard]] std::optional<Stretch> find(std::size_t first, std::size_t last) const;
};

/// Lays a cue's text over the file's from Cue::text_at on, past tags, codes, escapes and line ends. Empty
/// where they do not agree (ruby text, for one, is no part of a cue's words).
[[nodiscard]] std::optional<CuePlaces> find_cue_places(std::string_view text, const Cue& cue);

}  // namespace panslate
