#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/kitchen/amount.h"
#include "panslate/kitchen/say_amount.h"
#include "panslate/speech/listen_again.h"
#include "panslate/speech/script_lines.h"

/// What to listen for in the sound of a spoken line: its amounts as the script has them, and what might be
/// said in their place. A wrong amount must not pass for right: where the sound does not settle it, a person
/// listens.
namespace panslate {

/// An amount of a line of the script.
struct AmountToHear {
  std::size_t begin = 0;  ///< its bytes in the line, without "about" or "another" before it
  std::size_t end = 0;
  Amount amount;
  std::vector<WayToSay> readings;  ///< ways to say it
  Sayings otherwise;               ///< other amounts that might be said there
};

/// The amounts of a line, written ("200 g") or in words; alternates ("200 g or 1 cup") are amounts of their
/// own. Amounts without a number that can be spoken are left out.
[[nodiscard]] std::vector<AmountToHear> amounts_to_hear(std::string_view line);

/// The same without what might be said in their place, which takes long: for a line that was listened to.
[[nodiscard]] std::vector<AmountToHear> amounts_heard_in(std::string_view line);

/// The words of a line for aligning it: each amount is one of them, with its readings.
[[nodiscard]] std::vector<ScriptWord> words_to_hear(std::string_view line,
                                                    std::span<const AmountToHear> amounts);

enum class Heeded : std::uint8_t {
  AsWritten,
  Differs,
  Unsure,  ///< the sound does not settle it: fifteen or fifty, noise, words nobody thought of
};

struct AmountHeard {
  std::size_t begin = 0;  ///< bytes of the line, as in AmountToHear
  std::size_t end = 0;
  Amount script;
  Heeded verdict = Heeded::Unsure;
  std::optional<Amount> heard;  ///< none when nothing was understood there
  std::string heard_text;       ///< "two hundred grams": the likelier of script and others
  std::int64_t from = 0;        ///< samples of the sound given
  std::int64_t to = 0;
  /// Natural logarithm of how much likelier the script's amount is than the best other one; below 0 the other
  /// is.
  double ratio = 0.0;
};

/// The amount that words stand for where the script has another (its unit where they name none: "two hundred"
/// for 180 °C).
[[nodiscard]] std::optional<Amount> amount_in_words(std::string_view words, const Amount& script);

/// Listens for every amount of one spoken line, in its order. `samples` is the line's sound with up to 0.25 s
/// before and after it; `snr_db` how far speech stands above the noise of the clip, when known. Fails as
/// listen_again does.
[[nodiscard]] Result<std::vector<AmountHeard>> listen_for_amounts(
    Recogniser& recogniser, PronouncingDictionary& dictionary, std::span<const std::int16_t> samples,
    std::string_view line, std::span<const AmountToHear> amounts,
    std::optional<double> snr_db = std::nullopt);

}  // namespace panslate
