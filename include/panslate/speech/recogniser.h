#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/media/speech_sound.h"

/// What a speech recogniser must be able to do here: follow sound through a graph of words that may be
/// spoken. Sound is 16 kHz, one channel, 16 bits throughout.
namespace panslate {

/// One way to say one word at one place. Two places, or two ways at one place, are two of these.
struct GraphWord {
  std::string label;          ///< for people and messages; need not be unique
  std::string pronunciation;  ///< phones of the CMU dictionary without stress: "W IH S K"; "SIL" is silence
};

/// An arc is spoken when it has a word; else it costs no time. Weights are factors on the probability of the
/// sound, above 0 and at most 1, and need not add up to 1: 1e-10 asks for clear evidence.
struct GraphArc {
  std::uint32_t from = 0;
  std::uint32_t to = 0;
  double weight = 1.0;
  std::optional<std::uint32_t> word = std::nullopt;  ///< index into WordGraph::words
};

/// Silence and breath may come at every node by themselves. Arcs without a word may follow one another (each
/// chain of them becomes an arc: keep chains short), and must not form a circle.
struct WordGraph {
  std::uint32_t nodes = 0;
  std::uint32_t start = 0;
  std::uint32_t final = 0;
  std::vector<GraphWord> words = {};
  std::vector<GraphArc> arcs = {};
  /// Weight of each silence, PocketSphinx's own if not said. Smaller where silence must not stand for words
  /// that nobody wrote down.
  double pause = 0.005;
};

/// How far behind the best a path may fall before it is given up: smaller finds more and takes longer.
struct Beam {
  double width = 1e-80;  ///< above 0, below 1
  /// The same where a word ends. Ends are what takes the time where many words may follow.
  double word_end = width;
};

/// A word that was heard, in samples of the sound given. Boundaries are those of 10 ms frames, shifted to
/// where, on average, the sound changes.
struct HeardWord {
  std::uint32_t word = 0;  ///< index into WordGraph::words
  std::int64_t begin = 0;
  std::int64_t end = 0;
  /// Natural logarithm of how likely its sound is, against the best phone of each frame on its own: 0 is
  /// perfect, -1 a frame (10 ms) is good speech.
  double score = 0.0;
};

struct Recognition {
  std::vector<HeardWord> words;  ///< in order; silence is left out
  bool complete = false;         ///< the final node was reached; else this is the best path up to the end
  /// Natural logarithms for the whole path, silence included: comparable between graphs over the same sound.
  double acoustic = 0.0;  ///< the sound alone
  double weighted = 0.0;  ///< with the weights of the arcs
};

/// For one thread at a time; several may exist.
class Recogniser {
 public:
  virtual ~Recogniser() = default;
  /// Fails (Internal) when the graph is broken (no such node, phone or word, weights outside (0, 1]) or out
  /// of bounds: 20 minutes of sound, 1,000,000 nodes, words or arcs. Less than 0.1 s of sound gives nothing.
  [[nodiscard]] virtual Result<Recognition> recognise(std::span<const std::int16_t> samples,
                                                      const WordGraph& graph, Beam beam) = 0;
};

/// Where Debian's package pocketsphinx-en-us puts its model and dictionary (set when panslate is built).
[[nodiscard]] std::filesystem::path default_speech_model();

/// The en-us model for speech of PocketSphinx from `model`, a folder that holds `en-us/mdef`; Fails
/// (NotFound) when it is not there.
[[nodiscard]] Result<std::unique_ptr<Recogniser>> open_recogniser(
    const std::filesystem::path& model = default_speech_model());

}  // namespace panslate
