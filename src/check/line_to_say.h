#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/check/spoken_index.h"

namespace panslate {

/// A sentence to record again.
struct LineToSay {
  std::string words;    ///< with the amounts as written
  SpokenSpan sentence;  ///< that it replaces; empty where nothing fitting was said
};

/// Writes the sentences to record again: her own with the written amount in the place of the spoken one,
/// where exactly one amount was heard for the line or the food was named without one; else the recipe's
/// sentence, or a plain one. Amounts that add up, or were corrected, are not put into her words: which of
/// them is wrong only she knows.
class LineWriter {
 public:
  LineWriter(const CheckReport& report, const Recipe& recipe, const SpokenIndex& spoken);

  [[nodiscard]] LineToSay line_for(std::size_t requirement) const;

 private:
  /// Bytes of a sentence that become other words.
  struct Edit {
    std::size_t begin = 0;
    std::size_t end = 0;
    std::string text;
  };

  [[nodiscard]] std::optional<Edit> edit_for(std::size_t requirement, SpokenSpan sentence,
                                             const std::string& text) const;
  [[nodiscard]] std::optional<Edit> amount_put_right(const Requirement& requirement, const Heard& heard,
                                                     SpokenSpan sentence, const std::string& text) const;
  [[nodiscard]] std::string line_of_recipe(const Requirement& requirement) const;
  [[nodiscard]] std::string sentence_of_step(const Requirement& requirement) const;

  const CheckReport& report_;
  const Recipe& recipe_;
  const SpokenIndex& spoken_;
  std::vector<std::vector<std::size_t>> heard_of_;  ///< indices into CheckReport::heard, by requirement
  /// The wrong lines by where they are spoken, so that one sentence puts right all that is wrong in it.
  std::map<std::pair<std::string, MediaTime>, std::vector<std::size_t>> wrong_at_;
  std::vector<std::optional<std::size_t>> first_use_;  ///< step that first uses an ingredient
};

}  // namespace panslate
