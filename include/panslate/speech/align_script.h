#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/progress.h"
#include "panslate/base/result.h"
#include "panslate/speech/pronouncing.h"
#include "panslate/speech/recogniser.h"
#include "panslate/speech/script_lines.h"

/// When the lines of a known script are spoken in a long sound: each word, each take, and what else is said.
/// Times are relative to the first sample.
namespace panslate {

struct AlignedWord {
  std::size_t line = 0;  ///< index into the script
  std::size_t word = 0;  ///< index into ScriptLine::words
  std::string text;      ///< as spoken; as written where something else is said in its place
  TimeRange when;
  MediaTime precision;  ///< nine of ten words like this one begin no farther off
};

/// One try at a line. A line broken off and begun again is two takes, the first one not complete; one that
/// goes on after something else was said in between is one take.
struct ScriptTake {
  std::size_t line = 0;
  TimeRange when;
  bool complete = false;       ///< every word that can be said was said
  std::size_t first_word = 0;  ///< index into ScriptAlignment::words
  std::size_t words = 0;       ///< how many of them, one after the other
};

struct ScriptAlignment {
  enum class Status : std::uint8_t { Aligned, Partly, Failed };

  Status status = Status::Failed;
  std::string reason;   ///< in a cook's words; empty when aligned
  double snr_db = 0.0;  ///< power while words are spoken against power in pauses; 0 when nothing was found
  std::vector<AlignedWord> words;       ///< of all takes, by time
  std::vector<ScriptTake> takes;        ///< by time
  std::vector<TimeRange> other_speech;  ///< what is no line of the script
};

/// Lines may be left out, said again, broken off, said in another order; other things may be said before,
/// between, within and after them. `samples` are 16 kHz mono. Sound without speech is no error: the result is
/// Failed and says why. Errors: Malformed (no line with a word that can be said, more than 100,000 words,
/// more than 12 hours), Cancelled, Internal. Memory grows with the samples only: some 100 MB and the samples
/// themselves.
[[nodiscard]] Result<ScriptAlignment> align_script(std::span<const ScriptLine> script,
                                                   std::span<const std::int16_t> samples,
                                                   Recogniser& recogniser, PronouncingDictionary& dictionary,
                                                   Progress& progress);

}  // namespace panslate
