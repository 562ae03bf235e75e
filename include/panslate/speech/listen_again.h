#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/speech/pronouncing.h"
#include "panslate/speech/recogniser.h"

/// Listening again to a line whose place in the sound is known: which of several things was said at one place
/// of it? Numbers are words like any other here; what may be said there is handed in. All scores are natural
/// logarithms over the same sound, so that they compare.
namespace panslate {

/// An arc without a word takes no time. Weights as in GraphArc.
struct SayingArc {
  std::uint32_t from = 0;
  std::uint32_t to = 0;
  std::string word;
  double weight = 1.0;
};

/// Everything that may be said at one place, as a graph of words without circles from node 0 to node 1.
class Sayings {
 public:
  static constexpr std::uint32_t kStart = 0;
  static constexpr std::uint32_t kEnd = 1;

  [[nodiscard]] std::uint32_t add_node() { return nodes_++; }
  void add_arc(std::uint32_t from, std::uint32_t to, std::string word, double weight = 1.0);
  /// A phrase between two nodes; what it begins with is shared with the phrases already there. A phrase
  /// without words is an arc without one. The weight counts once.
  void add_phrase(std::uint32_t from, std::uint32_t to, std::span<const std::string> words,
                  double weight = 1.0);

  /// Nothing that has this word in it may be said any more.
  void leave_out(std::string_view word);

  [[nodiscard]] std::uint32_t nodes() const { return nodes_; }
  [[nodiscard]] const std::vector<SayingArc>& arcs() const { return arcs_; }

 private:
  struct Branch {
    std::uint32_t from, to, goal;  // goal: the node phrases through it lead to
    std::string word;
    double weight;
  };
  std::uint32_t nodes_ = 2;
  std::vector<SayingArc> arcs_;
  std::vector<Branch> branches_;
};

/// One of several phrases, from start to end.
[[nodiscard]] Sayings sayings_of(std::span<const std::vector<std::string>> phrases);

/// A line in pieces one after another.
struct SaidWord {
  std::string word;
  std::int64_t begin = 0;  ///< in samples of the sound given
  std::int64_t end = 0;
  std::size_t phones = 0;
  double score = 0.0;  ///< of its sound against the best phones for it: 0 is perfect
};
struct HeardPiece {
  std::vector<SaidWord> words;
};
/// Its words with spaces between.
[[nodiscard]] std::string text_of(const HeardPiece& piece);
struct HeardLine {
  std::vector<HeardPiece> pieces;
  bool complete = false;  ///< the whole line was heard; else this is as far as it went
  double score = 0.0;     ///< of the whole sound, weights included
};

/// The likeliest way through a line. Words that nothing knows how to pronounce fail (Malformed), as does what
/// Recogniser::recognise refuses.
[[nodiscard]] Result<HeardLine> hear_line(Recogniser& recogniser, PronouncingDictionary& dictionary,
                                          std::span<const std::int16_t> samples,
                                          std::span<const Sayings> line, Beam beam = {});

/// What was said at one place of a line: what its script has there, or something else.
struct HeardAgain {
  HeardLine script;
  HeardLine otherwise;
  /// False when only words that the sound cannot hold were found in its place: stretched beyond what a voice
  /// does, or silent where someone speaks.
  bool plausible = false;
  /// How badly the words around fit the model, as natural logarithms a frame (10 ms), above 0: voices differ,
  /// and ratios with them.
  double misfit = 0.0;
  /// How much likelier the sound is with the script's words than with the best of the others; below 0 the
  /// others are likelier. Only worth something where both are complete.
  double ratio = 0.0;
  /// The same against the likeliest that was found, though it was passed over: never above `ratio`.
  double least_ratio = std::numeric_limits<double>::infinity();
};

/// Listens to the sound of a line (from 0.25 s before to 0.25 s after it) again, with `otherwise` for the
/// piece at `place`; it must not hold what the script has there. `script` is what hear_line made of the line
/// as it is. Words that stand where the sound cannot hold them are passed over and the next likeliest taken.
[[nodiscard]] Result<HeardAgain> listen_again(Recogniser& recogniser, PronouncingDictionary& dictionary,
                                              std::span<const std::int16_t> samples,
                                              std::span<const Sayings> line, std::size_t place,
                                              const Sayings& otherwise, const HeardLine& script,
                                              Beam beam = {});

}  // namespace panslate
