#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// How words sound, and how alike two stretches of sound are. The sounds of a word come from the
/// letter-to-sound rules and the lexicon of flite (American English); tables may hand in others. All
/// functions are thread-safe.
namespace panslate {

/// The sounds of English, by the names that flite and the CMU dictionary use. `er` is written as ax and r.
enum class Phone : std::uint8_t {
  Aa,
  Ae,
  Ah,
  Ao,
  Aw,
  Ax,
  Ay,
  Eh,
  Ey,
  Ih,
  Iy,
  Ow,
  Oy,
  Uh,
  Uw,
  B,
  Ch,
  D,
  Dh,
  F,
  G,
  Hh,
  Jh,
  K,
  L,
  M,
  N,
  Ng,
  P,
  R,
  S,
  Sh,
  T,
  Th,
  V,
  W,
  Y,
  Z,
  Zh,
};
inline constexpr std::size_t kPhones = 39;

[[nodiscard]] constexpr bool is_vowel(Phone phone) {
  return phone <= Phone::Uw;
}

struct Sound {
  Phone phone = Phone::Ax;
  bool stressed = false;  ///< vowels only

  friend constexpr bool operator==(Sound, Sound) = default;
};
using Sounds = std::vector<Sound>;

/// The sounds of one word in lower case without accents (fold_accents); apostrophes are passed over. Empty
/// when it holds no letters. A word of more than 40 letters is cut.
[[nodiscard]] Sounds pronounce(std::string_view folded_word);

/// "k iy1 n w aa" as sounds (a 1 or 2 marks stress); empty when a name is no phone's.
[[nodiscard]] std::optional<Sounds> sounds_from_text(std::string_view text);
[[nodiscard]] std::string to_text(std::span<const Sound> sounds);

/// How far `heard` is from `meant`, as the dearest changes needed for each sound: 0 the same, about 0.1 a
/// reduced vowel or two, 0.3 another word. Changes cost by what the mouth does: voice least, then place, then
/// manner; reduced vowels, r at the end of a syllable and h cost little. Word boundaries count nothing.
/// Anything beyond `limit` is given as 1. Either may hold at most 64 sounds; longer ones are 1 apart.
[[nodiscard]] double sound_distance(std::span<const Sound> heard, std::span<const Sound> meant,
                                    double limit = 1.0);

/// True for an English word of either spelling, in lower case without accents: one that a recogniser or a
/// careful typist may well have meant, names among them. From Debian's lists wbritish-small and
/// wamerican-small.
[[nodiscard]] bool is_english_word(std::string_view folded_word);

}  // namespace panslate
