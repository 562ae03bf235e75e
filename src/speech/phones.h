#pragma once

#include <span>
#include <string>
#include <string_view>

#include "panslate/speech/pronunciation.h"

/// Pronunciations as the CMU dictionary writes them without stress: "W IH S K".
namespace panslate {

/// True for phones of the dictionary (or SIL) with one space between them.
[[nodiscard]] bool are_phones(std::string_view text);

/// flite's sounds: its reduced vowel is AH, and with an r after it ER. At most 100 phones.
[[nodiscard]] std::string to_cmu(std::span<const Sound> sounds);

/// As in Britain (Wells, Accents of English, 1982: an r is sounded before a vowel only); the same when there
/// is no such r.
[[nodiscard]] std::string without_final_r(std::string_view phones);

/// With the ending of a plural or of a possessive: IH Z after a hiss, S after other voiceless sounds, Z else.
[[nodiscard]] std::string with_plural(std::string_view phones);

}  // namespace panslate
