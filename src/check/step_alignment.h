#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "panslate/recipe/recipe.h"

#include "check/spoken_text.h"

/// Which step the speaker is in. Every utterance is laid on a step so that shared words count and jumps cost:
/// the next step of a part is near, another part a little further, going back within a part furthest. Amounts
/// take no part in it: a wrong amount must not pull an utterance to the step where it would be right.
namespace panslate {

class StepAlignment {
 public:
  StepAlignment(const Recipe& recipe, const SpokenText& text);

  /// Step spoken at a token; empty where the recipe has no steps.
  [[nodiscard]] std::optional<std::size_t> step_at(std::size_t token) const;
  /// How much of an utterance speaks of a step: the weight of the words they share, 0 when none.
  [[nodiscard]] double support(std::size_t utterance, std::size_t step) const;
  /// The same for the step that it speaks of most.
  [[nodiscard]] double most_support(std::size_t utterance) const;
  /// A step, and how much a stretch of the talk tells of it: the weight of the words they share.
  struct Told {
    std::size_t step = 0;
    double weight = 0;
  };
  /// All steps that a stretch shares telling words with, most first; a word said several times counts once.
  [[nodiscard]] std::vector<Told> told_in(TokenSpan span) const;
  /// How much one spoken word tells of a step; 0 where the step does not have it.
  [[nodiscard]] double word_weight(std::size_t token, std::size_t step) const;
  /// True when the utterance, or one beside it, shares telling words with the step it was laid on.
  [[nodiscard]] bool is_grounded(std::size_t utterance) const;
  /// Share of the step's telling words (by weight) that are spoken in the utterances laid on it, 0 to 1.
  [[nodiscard]] double coverage(std::size_t step) const { return coverage_[step]; }
  /// The stretch of utterances laid on the step that share most with it; empty span when there is none.
  [[nodiscard]] TokenSpan best_span(std::size_t step) const { return best_span_[step]; }

 private:
  struct Shared {
    std::size_t step;
    double weight;
  };
  void weigh(const Recipe& recipe, const SpokenText& text);
  void align(const Recipe& recipe);
  void measure(const SpokenText& text);

  const SpokenText& text_;
  std::vector<std::vector<Shared>> shared_;  ///< by utterance: the steps it shares words with
  std::vector<std::unordered_map<std::string, double>> step_words_;
  std::unordered_map<std::string, std::vector<std::size_t>> steps_with_;  ///< by word: the steps that have it
  std::vector<std::size_t> step_of_;                                      ///< by utterance
  std::vector<double> coverage_;
  std::vector<TokenSpan> best_span_;
};

}  // namespace panslate
