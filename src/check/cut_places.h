#pragma once

#include <cstddef>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/media/clip_log.h"
#include "panslate/speech/transcript.h"

/// Where a clip can be cut between two spoken words: where a shot starts, else in the pause of the voice, and
/// never through a word.
namespace panslate {

class CutPlaces {
 public:
  /// The words of the clip, on its clock, and its log.
  CutPlaces(const std::vector<Word>& words, const ClipLog& log);

  /// What is before and what is behind: the same moment, but where shots start between the two words.
  struct Cut {
    MediaTime end;    ///< of what is before
    MediaTime begin;  ///< of what is behind
  };
  /// Between the word `after` - 1 and the word `after`, both counted as in the transcript; 0 for the place
  /// before all words, their number for the one behind all of them. A pause belongs to what was said before
  /// it, up to the next shot, but not for longer than kLongestSilence. Where captions tell word times only
  /// roughly, the pause nearest to them is taken, within kReach.
  [[nodiscard]] Cut between(std::size_t after) const;

  /// Whether a shot starts in a pause before this word that is long enough to be one of the film.
  [[nodiscard]] bool shot_starts_before(std::size_t word) const;

  /// How far a cut is moved to stand at a natural place.
  static constexpr MediaTime kReach = MediaTime::from_seconds(3);
  static constexpr MediaTime kLongestSilence = MediaTime::from_seconds(20);

 private:
  [[nodiscard]] TimeRange gap(std::size_t after) const;
  [[nodiscard]] MediaTime in_pause(const TimeRange& gap) const;
  [[nodiscard]] MediaTime without_gap(std::size_t after, const TimeRange& gap) const;
  [[nodiscard]] MediaTime beside_words(MediaTime time) const;

  const std::vector<Word>& words_;
  MediaTime length_;
  std::vector<MediaTime> last_end_;     ///< by word: the latest end of it and all before
  std::vector<MediaTime> first_begin_;  ///< by word: the earliest begin of it and all behind
  std::vector<MediaTime> shots_;        ///< where shots start, without the first
  std::vector<TimeRange> pauses_;       ///< of the voice, as the sound has them
  std::vector<TimeRange> spoken_;       ///< stretches in which words lie over each other, or one word
};

}  // namespace panslate
