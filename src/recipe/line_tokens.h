#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/token.h"

namespace panslate {

/// The tokens of an ingredient line, and how its reader looks at them. Indices are into the tokens; what lies
/// outside [begin_, end_) reads as nothing.
class LineTokens {
 public:
  explicit LineTokens(std::string text);

 protected:
  [[nodiscard]] std::string_view word(std::size_t at) const;  ///< folded
  [[nodiscard]] std::string_view mark(std::size_t at) const;  ///< empty for words and numbers
  /// The text of tokens [from, to) as written, without marks at its ends.
  [[nodiscard]] std::string words(std::size_t from, std::size_t to) const;
  /// The amount of a food that starts at `at`; no times, temperatures, strengths ("70%") or names ("00
  /// flour").
  [[nodiscard]] std::optional<ScannedAmount> scan(std::size_t at) const;
  /// Index of the mark that closes the bracket at `open`; end_ when none does.
  [[nodiscard]] std::size_t bracket_end(std::size_t open) const;

  /// "half a 400 g tin of lentils": the package that `part`, told before it, is a part of.
  [[nodiscard]] std::optional<ScannedAmount> part_of_package(const ScannedAmount& part) const;
  /// "1 (2-inch) piece ginger": the bracket that opens there holds a length alone.
  [[nodiscard]] bool is_length_bracket(std::size_t open) const;
  /// Tokens [from, to) are one measured amount and nothing else.
  [[nodiscard]] bool is_whole_amount(std::size_t from, std::size_t to) const;
  /// "2 flax eggs (2 tbsp ground flaxseed + 5 tbsp water)": tokens [from, to) tell what it is made of, not
  /// how much of it is wanted.
  [[nodiscard]] bool lists_foods(std::size_t from, std::size_t to) const;
  /// "if liked", "if you have it", "if using".
  [[nodiscard]] bool leaves_it_to_the_cook(std::size_t from, std::size_t to) const;

  /// Takes list marks and closing marks off both ends.
  void drop_end_marks();
  /// Takes size words out of the part before the first comma or bracket; what stands in brackets is told as
  /// it is.
  void drop_sizes(std::size_t from);

  std::string text_;
  std::vector<Token> tokens_;
  std::size_t begin_ = 0, end_ = 0;
};

}  // namespace panslate
