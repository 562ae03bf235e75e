#pragma once

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "speech/narration.h"

/// How well amounts said otherwise are heard: narration of a script as it is written and with slips of the
/// tongue, one a line, each listened to as a line whose place in the sound is known. The voices are synthetic
/// (narration.h).
namespace panslate::testing {

struct ListeningCase {
  std::string script;  ///< in tests/data/speech
  Voice voice;
  std::optional<Noise> noise = std::nullopt;
  double snr_db = 20;
  bool room = false;
  std::size_t first_line = 0;
  std::size_t lines = 1000;
  std::size_t slips = 1;  ///< of each amount
  std::ostream* told =
      nullptr;  ///< a line for each amount: slip, ratio, script, said, heard, the likeliest other amount
};

struct ListeningFigures {
  std::size_t untouched = 0, untouched_differs = 0, untouched_unsure = 0;
  std::size_t altered = 0, altered_differs = 0, altered_unsure = 0;
  std::size_t altered_lost = 0, untouched_lost = 0;  ///< their line was not found in the sound
  std::size_t heard_exactly =
      0;  ///< of altered_differs: the words that were said, or the same amount in others
  double sound_seconds = 0;
  double processor_seconds = 0;

  ListeningFigures& operator+=(const ListeningFigures& other);
  [[nodiscard]] double recall() const;
  [[nodiscard]] double false_differs() const;
  [[nodiscard]] double false_unsure() const;
};
std::ostream& operator<<(std::ostream& out, const ListeningFigures& figures);

/// Throws std::runtime_error when the recogniser is missing or an amount of the script is not found in its
/// lines.
[[nodiscard]] ListeningFigures listen_to(const ListeningCase& listening);

/// The same as a cook has it: the script is read out once, from start to end, with a slip of the tongue in
/// each line that has amounts, and `listen` has to find the lines too. ListeningCase::slips chooses other
/// slips.
[[nodiscard]] ListeningFigures listen_through(const ListeningCase& listening);

}  // namespace panslate::testing
