#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/check/check.h"

namespace panslate {

/// A half-open stretch of the words of one transcript.
struct SpokenSpan {
  const Transcript* transcript = nullptr;
  std::size_t begin = 0;  ///< index into Transcript::words
  std::size_t end = 0;

  [[nodiscard]] bool empty() const { return transcript == nullptr || end <= begin; }
  /// From the first word to the end of the last; empty for an empty span.
  [[nodiscard]] TimeRange when() const;
  /// The words as captioned, with single spaces.
  [[nodiscard]] std::string text() const;
};

/// Finds in captions the words that a report speaks of, and the sentence they stand in. The transcripts must
/// outlive it.
class SpokenIndex {
 public:
  explicit SpokenIndex(const std::vector<TimedText>& said);

  /// The words that fill exactly this time of a clip's clock, as a Mention or a Heard gives it; empty where
  /// no captions of that clip have words there. Cost grows with the logarithm of the words.
  [[nodiscard]] SpokenSpan find(std::string_view media, TimeRange when) const;

  /// The sentence around a span: to its full stops, to a pause or another speaker; captions without full
  /// stops are cut at shorter pauses. At most 30 words on either side.
  [[nodiscard]] SpokenSpan sentence_around(SpokenSpan span) const;

  /// The longest stretch without a word inside a window of a clip's clock; empty where nobody pauses.
  [[nodiscard]] TimeRange longest_pause(std::string_view media, TimeRange window) const;

  /// Words a second while she speaks, numbers counted as they are spoken; a calm cook's 2.5 (150 words a
  /// minute: common practice, no source) where the captions hold too few words to tell.
  [[nodiscard]] double words_a_second() const { return words_a_second_; }

 private:
  struct Source {
    const Transcript* transcript;
    std::string media;
    std::vector<std::size_t> by_time;  ///< indices of words, by their begin
    bool punctuated;
  };

  [[nodiscard]] bool breaks_before(const Source& source, std::size_t word) const;
  void measure_pace();

  std::vector<Source> sources_;
  double words_a_second_ = 0;
};

/// How many words it takes to say a text: "250 g" is five ("two hundred and fifty grams").
[[nodiscard]] std::size_t spoken_word_count(std::string_view text);

/// True where a word ends its sentence: with . ! ? … or a semicolon, perhaps behind a quote or bracket.
[[nodiscard]] bool closes_sentence(std::string_view word);

}  // namespace panslate
