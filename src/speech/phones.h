#pragma once

#include <algorithm>
#include <array>
#include <span>
#include <string>
#include <string_view>

#include "panslate/speech/pronunciation.h"

/// Pronunciations as the CMU dictionary writes them without stress: "W IH S K".
namespace panslate {

inline constexpr std::array<std::string_view, 40> kPhoneNames{
    "AA", "AE", "AH",  "AO", "AW", "AY", "B",  "CH", "D", "DH", "EH", "ER", "EY", "F",
    "G",  "HH", "IH",  "IY", "JH", "K",  "L",  "M",  "N", "NG", "OW", "OY", "P",  "R",
    "S",  "SH", "SIL", "T",  "TH", "UH", "UW", "V",  "W", "Y",  "Z",  "ZH"};

/// True for phones of the dictionary (or SIL) with one space between them.
[[nodiscard]] inline bool are_phones(std::string_view text) {
  if (text.empty()) return false;
  for (std::size_t at = 0; at <= text.size();) {
    const auto end = std::min(text.find(' ', at), text.size());
    if (!std::binary_search(kPhoneNames.begin(), kPhoneNames.end(), text.substr(at, end - at))) return false;
    at = end + 1;
  }
  return true;
}

/// flite's sounds: its reduced vowel is AH, and with an r after it ER. At most 100 phones.
[[nodiscard]] std::string to_cmu(std::span<const Sound> sounds);

/// As in Britain (Wells, Accents of English, 1982: an r is sounded before a vowel only); the same when there
/// is no such r.
[[nodiscard]] std::string without_final_r(std::string_view phones);

/// With the ending of a plural or of a possessive: IH Z after a hiss, S after other voiceless sounds, Z else.
[[nodiscard]] std::string with_plural(std::string_view phones);

}  // namespace panslate
