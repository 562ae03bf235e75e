#include "kitchen/unit_scan.h"

#include "kitchen/number_words.h"

namespace panslate {

using Tokens = std::span<const Token>;

std::optional<UnitWord> unit_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  if (auto unit = unit_word_at(tokens, at, how == SpokenOrWritten::Written)) return unit;
  if (at == 0 || at >= tokens.size() || tokens[at].space_before) return std::nullopt;
  // "5# onions": pounds, as shops write them.
  if (how == SpokenOrWritten::Written && is_text(tokens, at, "#") && tokens[at - 1].kind == TokenKind::Number)
    return UnitWord{Unit::Pound, 1, at + 1, UnitWordKind::Measure, true};
  const bool grown = tokens[at - 1].kind == TokenKind::Number || is_text(tokens, at - 1, "-");
  const bool word = is_text(tokens, at, "in");
  const bool mark = is_text(tokens, at, "\"") &&
                    is_any(tokens, at + 1, "piece|pieces|thick|knob|cube|cubes|chunk|chunks|long|stick");
  if (!grown || (!word && !mark)) return std::nullopt;
  return UnitWord{Unit::Inch, 1, at + 1, UnitWordKind::Measure, false};
}

bool is_word(Tokens tokens, std::size_t at) {
  return at < tokens.size() && tokens[at].kind == TokenKind::Word;
}

std::size_t skip_unit_hyphen(Tokens tokens, std::size_t at) {
  const bool hyphen = is_text(tokens, at, "-") && at + 1 < tokens.size() &&
                      (!tokens[at + 1].space_before || is_any(tokens, at + 1, "inch|inches|cm"));
  return hyphen ? at + 1 : at;
}

bool is_mass_or_volume(Unit unit) {
  const auto dimension = dimension_of(unit);
  return dimension == Dimension::Mass || dimension == Dimension::Volume;
}

bool is_length(Unit unit) {
  return dimension_of(unit) == Dimension::Length;
}

bool is_countable(const UnitWord& word) {
  return word.kind != UnitWordKind::Measure && dimension_of(word.unit) == Dimension::Count;
}

}  // namespace panslate
