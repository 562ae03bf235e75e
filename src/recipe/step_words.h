#pragma once

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/kitchen/food_names.h"
#include "panslate/kitchen/token.h"
#include "panslate/recipe/recipe.h"

#include "recipe/actions.h"

/// The method cut into words once, with the foods found in it, for all who look at it.
namespace panslate {

/// A food named in a step.
struct StepFood {
  std::size_t begin = 0, end = 0;        ///< tokens
  std::vector<std::size_t> ingredients;  ///< lines it may mean; several: the words do not tell which
  NameMatch match = NameMatch::None;
  bool other_food = false;  ///< a food that no line lists
  bool perhaps_verb = false;
};

class StepWords {
 public:
  explicit StepWords(const Step& step);

  [[nodiscard]] std::size_t size() const { return tokens.size(); }
  /// The folded word or mark at `at`; empty beyond the end.
  [[nodiscard]] std::string_view word(std::size_t at) const {
    return at < tokens.size() ? std::string_view(tokens[at].text) : std::string_view{};
  }
  [[nodiscard]] bool is(std::size_t at, std::initializer_list<std::string_view> words) const;
  [[nodiscard]] bool same_sentence(std::size_t a, std::size_t b) const { return sentence[a] == sentence[b]; }
  /// First token of the sentence that holds `at`.
  [[nodiscard]] std::size_t sentence_begin(std::size_t at) const;
  /// One past the last token of the sentence that holds `at`.
  [[nodiscard]] std::size_t sentence_end(std::size_t at) const;
  /// First token of the clause: after a comma, "and", "then", "or", a colon, or the sentence's start.
  [[nodiscard]] std::size_t clause_begin(std::size_t at) const;
  /// The token that holds this byte of the step, or the next one.
  [[nodiscard]] std::size_t token_at(std::size_t offset) const;
  /// The text of tokens [begin, end).
  [[nodiscard]] std::string text(std::size_t begin, std::size_t end) const;

  std::vector<Token> tokens;
  std::vector<std::string> names;  ///< as FoodNames reads them: marks that no name spans are empty
  std::vector<std::size_t> sentence;
  std::vector<std::string> stems;  ///< of words: only plurals and singulars agree (name_stem)
  std::vector<Action> actions;     ///< that the words tell
  std::vector<StepFood> foods;     ///< from left to right

 private:
  std::string_view text_;
};

/// A token as FoodNames reads it: marks that no name spans are empty.
[[nodiscard]] std::string as_name_word(const Token& token);

/// All steps of a recipe, with the foods that are named in them. A name that several lines share means the
/// line of the step's own part first.
[[nodiscard]] std::vector<StepWords> words_of_method(const Recipe& recipe);

/// The kinds of the food that a line's name tells: of the whole name, else of its first or last words that
/// the table knows ("penne rigate": pasta). None where it knows none.
[[nodiscard]] FoodKinds kinds_of_name(std::string_view name);

/// "sauce" of "For the sauce", folded; empty where the recipe has no such group.
[[nodiscard]] std::string group_of(const Recipe& recipe, std::size_t ingredient);

}  // namespace panslate
