#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "panslate/speech/align_script.h"

#include "speech/narration.h"

/// How well words are found again where their times are known.
namespace panslate::testing {

struct WordErrors {
  std::vector<double> ms;       ///< of each word found: how far off it begins
  std::size_t missed = 0;       ///< words of the script that were spoken and not found within a second
  std::size_t false_words = 0;  ///< words found where none of the script is spoken
  std::size_t false_takes = 0;  ///< takes that hold none but such words

  void add(const WordErrors& other);
  /// Of a share of the words: 0.5 the median.
  [[nodiscard]] double quantile(double share) const;
  [[nodiscard]] std::string print(const std::string& what) const;
};

[[nodiscard]] WordErrors compare(const Narration& truth, const ScriptAlignment& found);

/// The first lines of a script in tests/data/speech, spoken.
[[nodiscard]] std::vector<std::string> spoken_lines(const std::string& file, std::size_t count);
[[nodiscard]] std::vector<panslate::ScriptLine> script_of(const std::vector<std::string>& lines);

/// As a cook alone in front of a camera: lines again, broken off, left out, out of order; talk between,
/// within and after lines. At least 18 lines.
struct Session {
  std::vector<Said> said;
  std::size_t takes = 0;   ///< whole ones
  std::size_t broken = 0;  ///< broken off
};
[[nodiscard]] Session session_of(std::span<const std::string> lines);

}  // namespace panslate::testing
