#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace panslate {

/// Escapes as HTML has them: `&amp;`, `&#38;`, `&#x26;`.
struct CharacterReference {
  std::string text;        ///< what it stands for
  std::size_t length = 0;  ///< bytes of the reference, from its `&` on
};

/// A byte of Windows-1252 as a code point; bytes it leaves open stand for themselves.
[[nodiscard]] char32_t windows_1252(unsigned char byte);

/// The character reference that begins at `offset` (an `&`) of `text`, by the rules of HTML outside of
/// attributes: the longest name counts, old names need no semicolon. Empty when there is none.
[[nodiscard]] std::optional<CharacterReference> character_reference_at(std::string_view text,
                                                                       std::size_t offset);

}  // namespace panslate
