#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "panslate/base/ratio.h"
#include "panslate/kitchen/token.h"
#include "panslate/kitchen/unit.h"

/// The words and abbreviations cooks use for units: written ("tbsp.", "T", "fl oz") and spoken ("mils").
namespace panslate {

/// How surely a word is a unit.
enum class UnitWordKind : std::uint8_t {
  Measure,    ///< grams, cups, minutes: a unit wherever a number stands before it
  Container,  ///< tin, clove, handful: a unit also after "a"
  Vessel,     ///< pot, bottle, spoon: only with the size of a package before it, or a number before and "of"
              ///< after
};

struct UnitWord {
  Unit unit = Unit::Piece;
  Ratio factor = 1;  ///< decilitres are 100 ml: what one of the word is in `unit`
  std::size_t end = 0;
  UnitWordKind kind = UnitWordKind::Measure;
  bool plural = false;  ///< "cups", "tins"; false for abbreviations
};

/// The unit word that starts at tokens[at], two tokens for "fl oz". A full stop of an abbreviation belongs to
/// it unless it ends the text. `written` admits the single letters of written recipes (t, T, c, s).
[[nodiscard]] std::optional<UnitWord> unit_word_at(std::span<const Token> tokens, std::size_t at,
                                                   bool written);

/// The usual word for a unit: "gram", "grams"; empty for those without one.
[[nodiscard]] std::string_view usual_word_for(Unit unit, bool plural);

}  // namespace panslate
