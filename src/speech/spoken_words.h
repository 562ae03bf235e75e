#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Which parts of a caption are spoken words.
namespace panslate {

struct SpokenWord {
  std::size_t begin = 0;  ///< byte range in the cue's text
  std::size_t end = 0;
  bool starts_line = false;  ///< first word of its line
};

struct FoundWords {
  std::vector<SpokenWord> words;
  std::string speaker;  ///< from a name in capitals before a colon; empty when there is none
};

/// Words are what white space separates, with their punctuation. No words are: sound notes in square brackets
/// without a digit ("[music]"); round brackets that name a sound ("(laughs)"; other round brackets are
/// said or shown: "(240 ml)"); what is sung between ♪ and ♪, or after a ♪ at the start of a line; dashes and
/// ">>" before a change of speaker; a name in capitals, with a colon, before a sentence ("ANNA: Now"); bare
/// punctuation.
[[nodiscard]] FoundWords find_spoken_words(std::string_view text);

}  // namespace panslate
