#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "panslate/base/result.h"

#include "speech/find_lines.h"

namespace panslate {

/// A word of the script where it is spoken.
struct PlacedWord {
  std::size_t word = 0;  ///< of the line
  std::string text;      ///< as spoken: the words of one reading share their place; empty: something else
  SoundSpan when;
  double score = 0.0;  ///< a frame (10 ms), as HeardWord::score
};

/// Words of one line, in order.
struct FoundTake {
  std::size_t line = 0;
  std::vector<PlacedWord> words;
  bool complete = false;

  [[nodiscard]] SoundSpan when() const { return {words.front().when.begin, words.back().when.end}; }
};

struct FoundTakes {
  std::vector<FoundTake> takes;
  std::vector<SoundSpan> other;  ///< other speech, by time
};

/// Whether every word of a line that can be said is among those.
[[nodiscard]] bool says_all(const ScriptLine& line, std::span<const PlacedWord> words,
                            PronouncingDictionary& dictionary);

/// What was heard, word by word, as takes. Bits of a line inside other speech are no takes.
[[nodiscard]] FoundTakes takes_of(std::span<const ScriptLine> script, std::span<const FoundWord> found,
                                  PronouncingDictionary& dictionary);

/// A word that is not there scores this much less than the usual one, or worse.
inline constexpr double kWorseThanUsual = 2.0;

/// The mean score of the words found (see PlacedWord); none without words.
[[nodiscard]] std::optional<double> usual_score(const FoundTakes& found);

/// Takes out of the other speech what now lies in takes.
void part_from_takes(FoundTakes& found);

/// Looks for the rest of lines that were broken off where other speech follows.
[[nodiscard]] Status go_on_after_other_speech(FoundTakes& found, std::span<const ScriptLine> script,
                                              std::span<const std::int16_t> samples, Recogniser& recogniser,
                                              PronouncingDictionary& dictionary, Progress& progress);

}  // namespace panslate
