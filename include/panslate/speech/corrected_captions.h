#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/speech/transcript.h"

namespace panslate {

/// Spoken words that read otherwise: from a byte of the first word's text up to a byte of the last one's.
struct WordChange {
  std::size_t first = 0;  ///< index into Transcript::words
  std::size_t begin = 0;  ///< in that word's text
  std::size_t last = 0;   ///< index of the last word, which may be the first
  std::size_t end = 0;    ///< in that word's text, behind what is changed
  std::string text;  ///< words with single spaces, letters only: nothing that a caption would have to escape
};

struct CorrectedCaptions {
  std::string bytes;
  std::vector<std::size_t> left_out;  ///< indices of changes that could not be made, ascending
};

/// A captions file with some words put right, and everything else byte for byte as it is: times, settings,
/// tags, line ends, encoding. `transcript` was read from these `bytes`. The new words take the places of the
/// old ones from the first on, or up to the last where that keeps a caption or a line from standing empty; of
/// words too many the spaces go too; a capital stays one. What rolling captions show again is put right there
/// as well. Left out is a change whose words are parted by tags inside a word, that would leave a caption or
/// a line without words, that overlaps an earlier one, or that the file's encoding cannot write.
[[nodiscard]] CorrectedCaptions correct_captions(std::string_view bytes, const Transcript& transcript,
                                                 const std::vector<WordChange>& changes);

}  // namespace panslate
