#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/project/project.h"

/// Steps and ingredients named by words that last: what inserting a line above them does not change.
namespace panslate {

class ReferenceFinder {
 public:
  /// `recipe` must outlive the finder.
  explicit ReferenceFinder(const Recipe& recipe);

  /// Finds the step with this key, else the one step that begins with the words, else the one that holds them
  /// in this order (case, accents and punctuation aside; the last word may be cut short). Sets the index, or
  /// returns what is to be decided again, beginning with `name`: nothing fits, or several do.
  [[nodiscard]] std::optional<Error> resolve_step(LastingReference& reference, std::string_view name) const;

  /// Finds the ingredient with this key or whole line, else by its name, else by words of its name or line
  /// (plural and singular alike), else by another name of the same food.
  [[nodiscard]] std::optional<Error> resolve_ingredient(LastingReference& reference,
                                                        std::string_view name) const;

 private:
  using Words = std::vector<std::string>;
  // A line of the recipe, taken apart once.
  struct Line {
    std::string key;
    std::string folded;
    Words words;
    Words stems;
    std::vector<Words> names;  // of an ingredient, as stems
  };

  const Recipe& recipe_;
  std::vector<Line> steps_;
  std::vector<Line> ingredients_;
};

}  // namespace panslate
