#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/kitchen/token.h"
#include "panslate/kitchen/unit.h"

/// Words of ingredient lines that are no part of the food's name, and words that share a head ("red or yellow
/// peppers").
namespace panslate {

/// A word of a name: hyphenated words and "70%" are one.
struct LineWord {
  std::string folded;
  std::string raw;
  std::size_t begin = 0;  ///< tokens [begin, end)
  std::size_t end = 0;
};

/// The words of tokens [begin, end); marks other than hyphens, "%" and "&" stand alone.
[[nodiscard]] std::vector<LineWord> line_words(const std::vector<Token>& tokens, std::size_t begin,
                                               std::size_t end);

/// Raw words joined by spaces.
[[nodiscard]] std::string join_words(const std::vector<LineWord>& words, std::size_t begin, std::size_t end);

/// "large", "medium-sized", "fat": tells a size. `next` is the folded word after it ("medium curry powder" is
/// no size).
[[nodiscard]] bool is_size_word(std::string_view word, std::string_view next);

/// "medium" before a word it could grade ("medium sweet sherry", "medium white wine"): a size all the same
/// where things are counted, as in "1 medium sweet potato".
[[nodiscard]] bool is_size_before_quality(std::string_view word, std::string_view next, bool counts_things);

/// "potato", "onions", "eggs": comes in pieces that are sorted by size.
[[nodiscard]] bool is_counted_thing(std::string_view word);

/// "evap", "choc", "pkd": shortened words whose full stop ends nothing.
[[nodiscard]] bool is_shortened(std::string_view word);

/// "chopped", "melted", "peeled": what was done to the food before weighing. `next` is the word after it,
/// which may make another food of it ("crushed tomatoes", "minced beef").
[[nodiscard]] bool is_preparation_word(std::string_view word, std::string_view next);

/// "ripe", "free-range", "boneless", "good-quality": tells of the food, makes no other of it.
[[nodiscard]] bool is_quality_word(std::string_view word, std::string_view next);

/// "organic", "good-quality": a quality word that says nothing of what is done with the food.
[[nodiscard]] bool is_praise(std::string_view word);

/// "a glass of wine", "bottle of honey", "two nests of noodles": what the food comes in, where no unit says
/// it.
[[nodiscard]] bool is_vessel(std::string_view word);

/// A vessel that needs no "of": "a shot espresso", "1 quantity shortcrust pastry".
[[nodiscard]] bool is_bare_vessel(std::string_view word);

/// How many of the folded words, from the first, name a food (in an ingredient line, where "salt" is always
/// one); an adjective before it counts along ("some red onions" excepted: no articles).
[[nodiscard]] std::size_t food_words_at_start(const std::vector<std::string>& folded_words);

/// "finely", "roughly", "freshly", "very".
[[nodiscard]] bool is_manner_word(std::string_view word);

/// The unit that stands after the food it counts: "garlic cloves", "celery sticks", "thyme sprigs"; `food` is
/// the word before it.
[[nodiscard]] std::optional<Unit> trailing_unit(std::string_view word, std::string_view food);

/// Words before "or"/"and" that borrow the head of the words after: "red" of "red or yellow peppers",
/// "chicken" of "chicken or vegetable stock", "cumin" of "cumin and coriander seeds". Words are folded.
[[nodiscard]] bool shares_head(std::string_view first, std::string_view head);

/// A word that names no food when it stands alone: "red", "plain", "dark".
[[nodiscard]] bool is_adjective_only(std::string_view word);

}  // namespace panslate
