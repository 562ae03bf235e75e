#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/check/report.h"

/// The check report in a cook's words: what the terminal and the page both say.
namespace panslate {

/// Where a found line stands with the written recipe.
enum class Standing : std::uint8_t {
  Good,
  Doubtful,
  Wrong,
  Absent,  ///< not found where it need not be: text on the picture repeats what is said
  NotLooked,
};

/// One cell of the table: "said differently" and what was said instead: "200 g".
struct Finding {
  std::string words;
  std::string detail;
  Standing standing = Standing::NotLooked;
};

/// One line of the written recipe and what became of it in the film.
struct CheckLine {
  std::size_t requirement = 0;  ///< index into CheckReport::requirements
  std::string written;          ///< "250 g red lentils, rinsed"
  Finding said, shown, on_picture;
  std::string when;   ///< "0:41", "about 0:41"; empty where nothing tells a time
  std::string heard;  ///< the words that decided, as captioned; empty where there are none
  std::string why;    ///< one sentence
};

struct CheckDigest {
  std::vector<CheckLine> attention;   ///< what needs attention, in the order of the recipe
  std::vector<CheckLine> in_order;    ///< said and written as in the recipe
  std::vector<CheckLine> not_needed;  ///< not found, and need not be: optional lines, yields, cues
  std::string summary;                ///< "3 of 21 lines need attention, 18 are in order."
};

[[nodiscard]] CheckDigest digest_of(const CheckReport& report);

[[nodiscard]] std::string_view said_words(Verdict verdict);        ///< "said without an amount"
[[nodiscard]] std::string_view on_picture_words(Verdict verdict);  ///< "written differently"
[[nodiscard]] std::string_view shown_words(ShownVerdict verdict);  ///< "not shown"

/// "250 g (1¼ cups)": the first amount with the others in brackets; empty without any.
[[nodiscard]] std::string amounts_in_words(const std::vector<Amount>& amounts);

/// "0:41", or "about 0:41" where the time may be off by more than two seconds.
[[nodiscard]] std::string when_in_words(const Mention& mention);

/// "1 line", "3 lines".
[[nodiscard]] std::string count_in_words(std::size_t count, std::string_view one, std::string_view many);

}  // namespace panslate
