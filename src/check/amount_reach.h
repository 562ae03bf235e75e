#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "check/talk.h"

namespace panslate {

inline constexpr std::size_t kDistantReach =
    18;  ///< tokens from a food to an amount told in the next sentence

/// True of weights, volumes, counts and "a pinch"; not of times and temperatures.
[[nodiscard]] bool is_food_amount(const ScannedAmount& scan);

/// Ties an amount to a food of the talk, by its index.
void tie_to(const Talk& talk, SpokenAmount& amount, std::size_t food, Tie tie);

/// How far the words of an amount reach: to the food told after it, to the one told before it, or to what it
/// points back at ("of it", "of the chopped ones").
class AmountReach {
 public:
  AmountReach(const Talk& talk, const std::vector<FoodTarget>& targets)
      : talk_(talk), text_(talk.text), targets_(targets) {}

  /// The first food at or after a token, by index.
  [[nodiscard]] std::optional<std::size_t> next_sighting(std::size_t at) const;
  /// The last food that ends at or before a token, by index.
  [[nodiscard]] std::optional<std::size_t> sighting_before(std::size_t at) const;
  /// 0: it does not reach the food, 1: with some words between, 2: directly or through "of".
  [[nodiscard]] int reaches_forward(const SpokenAmount& amount, const FoodSighting& food) const;
  /// Only words that tell nothing else stand between the food and the amount.
  [[nodiscard]] bool reaches_backward(const SpokenAmount& amount, const FoodSighting& food) const;
  /// "Tomatoes next, in with the mushrooms. Two tins of the chopped ones."
  [[nodiscard]] std::optional<std::size_t> pointed_at_by_kind(const SpokenAmount& amount) const;
  /// "180 grams of it", "two of them".
  [[nodiscard]] bool points_back(const SpokenAmount& amount) const;
  /// "Smoked ham, tiny little cubes, 120 grams.": the amount sums up a sentence that names this food alone.
  [[nodiscard]] bool sums_up(const SpokenAmount& amount, std::size_t food) const;
  /// "Now butter for the onions, fifty grams": the food that is for the one told last; none when it is for
  /// none.
  [[nodiscard]] std::optional<std::size_t> meant_for(const SpokenAmount& amount, std::size_t last) const;
  /// Nothing else is told in the sentence before the amount: "You need 180 grams."
  [[nodiscard]] bool only_tells(const SpokenAmount& amount) const;
  /// Sentences of a word or two between a food and its amount, and nothing else: "The flour. Self-raising.
  /// Eight ounces."
  [[nodiscard]] bool only_fragments_between(std::size_t food_end, std::size_t amount_begin) const;
  /// "milk, I've got a pint of semi-skimmed": what follows describes the food told before.
  [[nodiscard]] bool is_of_its_kind(const SpokenAmount& amount, std::size_t food) const;
  /// The food is written with an amount of this kind: a weight, a volume, a count.
  [[nodiscard]] bool is_written_in_kind(const FoodSighting& food, const SpokenAmount& amount) const;
  /// "I got it out of two lemons": where it comes from.
  [[nodiscard]] bool comes_out_of(const SpokenAmount& amount) const;
  /// "ginger must be the old one, this is two hundred fifty grams": what is held up is what was spoken of
  /// last.
  [[nodiscard]] bool presents(const SpokenAmount& amount, std::size_t food) const;
  /// "Oats next. Seventy-five grams, plain porridge oats.": one food named on either side of its amount.
  [[nodiscard]] bool is_flanked(const SpokenAmount& amount, std::size_t behind, std::size_t ahead) const;
  /// "That's a four hundred mil tin.": of what was named last.
  [[nodiscard]] bool points_at_last(const SpokenAmount& amount, TokenSpan sentence) const;
  /// "in a bowl of hot water" measures nothing; "six is what I put in" begins another matter.
  [[nodiscard]] bool is_vessel_or_subject(const SpokenAmount& amount) const;
  /// "a whole tin of the size I buy": the words tell how big, not of what.
  [[nodiscard]] bool tells_its_size(std::size_t of) const;
  /// The word is one of the food's written name.
  [[nodiscard]] bool is_written_with(const FoodSighting& food, const std::string& word) const;

 private:
  [[nodiscard]] bool counts_another_noun(std::size_t begin, std::size_t end) const;
  [[nodiscard]] bool counts_what_follows(const SpokenAmount& amount) const;
  [[nodiscard]] std::size_t share_of_flour_end(std::size_t at) const;
  [[nodiscard]] std::size_t likened_end(std::size_t at) const;
  [[nodiscard]] std::size_t place_end(std::size_t at) const;
  [[nodiscard]] std::size_t aside_end(const FoodSighting& food, std::size_t at) const;
  [[nodiscard]] bool begins_amount(std::size_t at) const;
  [[nodiscard]] bool same_sentence(std::size_t a, std::size_t b) const {
    return text_.sentence(a) == text_.sentence(b);
  }

  const Talk& talk_;
  const SpokenText& text_;
  const std::vector<FoodTarget>& targets_;
};

}  // namespace panslate
