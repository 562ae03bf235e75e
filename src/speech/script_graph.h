#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "panslate/speech/pronouncing.h"
#include "panslate/speech/recogniser.h"
#include "panslate/speech/script_lines.h"

/// Graphs of what may be spoken where a script is read: its lines in any order, broken off, with other speech
/// around, and other amounts. Other speech is a loop of phones that costs more than a word that fits.
namespace panslate {

/// A word of a script.
struct ScriptPlace {
  std::size_t line = 0;
  std::size_t word = 0;

  friend bool operator==(const ScriptPlace&, const ScriptPlace&) = default;
};

/// A stretch of a line that is entered at its beginning: the whole line, unless that is long.
struct LinePart {
  std::size_t line = 0;
  std::size_t first = 0;  ///< words of the line
  std::size_t last = 0;   ///< behind the last
};

[[nodiscard]] std::vector<LinePart> parts_of(std::span<const ScriptLine> script);

struct ScriptGraph {
  WordGraph graph;
  /// Of each word of the graph; none: a phone of other speech.
  std::vector<std::optional<ScriptPlace>> places;
};

/// Factors for what is spoken otherwise than as one line after the other.
struct JumpWeights {
  double leave = 1e-3;      ///< a line is over: something else than the next one comes
  double break_off = 1e-6;  ///< within a line
  double enter = 1e-3;      ///< a line begins after something else
  double enter_far = 1e-5;  ///< a line that is not near the last one spoken
  double other = 1e-3;      ///< each phone of other speech
  // Something else in the place of an amount (ScriptWord::slips); 0: it is not listened for.
  double slip = 0.0;
  double slip_word = 1e-2;   ///< each word of that
  double slip_phone = 1e-3;  ///< each phone of it, where it is none of the words thought of
};

/// What a phone of other speech costs, by how well the words of this voice fit on the whole (a score a
/// frame): the loop of phones fits any sound at about -4.5, so words of a voice that fit at -6 would be taken
/// for other speech unless that costs much more. Measured on voices from -3.4 (flite) to -6.4 (espeak-ng).
[[nodiscard]] double other_weight(double usual);

/// The weights with those of slips, by how well the words of the voice fit.
[[nodiscard]] JumpWeights with_slips(JumpWeights weights, double usual);

/// Lines in any order. `near`: entered more easily (a range of indices into `parts`).
[[nodiscard]] ScriptGraph any_order(std::span<const ScriptLine> script, std::span<const LinePart> parts,
                                    std::size_t near_first, std::size_t near_last,
                                    PronouncingDictionary& dictionary, const JumpWeights& weights);

/// Some words of one line in order, other speech before, between and after.
[[nodiscard]] ScriptGraph in_order(const ScriptLine& line, const LinePart& part,
                                   PronouncingDictionary& dictionary, const JumpWeights& weights);

}  // namespace panslate
