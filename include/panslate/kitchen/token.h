#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/ratio.h"

/// Text cut for reading amounts: the same cut for recipes, captions and scripts.
namespace panslate {

enum class TokenKind : std::uint8_t {
  Word,    ///< letters, with inner apostrophes ("that's") and digits after letters ("b12"); the full stop of
           ///< an abbreviation is a mark of its own. Ordinals ("2nd") and figures too long to mean anything
           ///< are words
  Number,  ///< digits (1, 1,000, 1.5, 1,5 with a comma decimal, 1/2, ½, 1½, 1 ½, 1 1/2): value holds it
  Mark,  ///< one punctuation or symbol character: , . ; : ( ) - × / % ° & + …; "-" also for – — ‒ −, "'" for
         ///< typographic apostrophes
};

struct Token {
  TokenKind kind = TokenKind::Word;
  std::string text;       ///< case and accents folded; the decimal of a Number is not rewritten here
  std::string raw;        ///< as written ("T" and "t" are different spoons)
  Ratio value;            ///< Number only
  std::size_t begin = 0;  ///< byte range in the source
  std::size_t end = 0;
  bool space_before = false;
  bool capital = false;
};

/// Cuts valid UTF-8. "200g" gives Number(200) Word(g); "20-cm" gives Number Mark Word; º and ˚ become °; ℃ ℉
/// become ° and C, F; "x" between numbers becomes the mark ×. Never fails; linear in the text.
[[nodiscard]] std::vector<Token> tokenize(std::string_view text);

}  // namespace panslate
