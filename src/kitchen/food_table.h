#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "panslate/kitchen/food.h"

#include "kitchen/food_words.h"

/// The food table with its names ready for finding.
namespace panslate {

inline constexpr std::size_t kNoFood = std::numeric_limits<std::size_t>::max();

/// The longest name of the table that starts at a word.
struct KnownName {
  std::size_t length = 0;     ///< in words; 0: none
  std::size_t row = kNoFood;  ///< kNoFood for a phrase that is no food
  bool split = false;         ///< a one-word name said as two words ("butter milk")
};

/// The row a written name stands for.
struct ResolvedName {
  std::size_t row = kNoFood;
  bool whole = false;  ///< the row names the food but for descriptions; else words are left that tell more
};

class FoodTable {
 public:
  FoodTable();
  [[nodiscard]] const std::vector<Food>& rows() const { return rows_; }
  /// Words may hold boundaries (empty stems), which no name spans.
  [[nodiscard]] KnownName longest_at(std::span<const NameWord> words, std::size_t at) const;
  /// The row whose name is exactly these words.
  [[nodiscard]] std::size_t row_of(std::span<const NameWord> words) const;
  /// The row of a written name, descriptions and parts of the food set aside; else of its longest known
  /// ending.
  [[nodiscard]] ResolvedName resolve(std::span<const NameWord> words) const;
  /// True when some name starts with a word of this stem.
  [[nodiscard]] bool starts_name(std::string_view name_stem) const;
  [[nodiscard]] const std::vector<std::size_t>& narrower(std::size_t row) const { return narrower_[row]; }
  [[nodiscard]] const std::vector<std::size_t>& meant_by(std::size_t row) const { return meant_by_[row]; }
  /// True when `broad` is `row` itself or broader.
  [[nodiscard]] bool is_under(std::size_t row, std::size_t broad) const;

 private:
  using NamedRow = std::pair<std::vector<NameWord>, std::size_t>;
  struct Entry {
    std::vector<std::string> stems;
    std::size_t row = kNoFood;
    bool split = false;
  };
  [[nodiscard]] std::size_t row_of_kind_named(std::span<const NameWord> words) const;
  void add_name(std::span<const NameWord> words, std::size_t row);
  void add_split_names(std::span<const NamedRow> names);
  std::vector<Food> rows_;
  std::vector<std::vector<std::size_t>> narrower_;                // all rows below, at any depth
  std::vector<std::vector<std::size_t>> meant_by_;                // rows whose name may mean this one
  std::unordered_map<std::string, std::vector<Entry>> by_first_;  // longest first
};

[[nodiscard]] const FoodTable& food_table();

}  // namespace panslate
