#pragma once

#include <cstddef>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "panslate/kitchen/food_names.h"

#include "kitchen/food_table.h"

/// The listed foods of one recipe by the words that may name them.
namespace panslate {

/// How close a name comes; finer than NameMatch, weakest first. A broader name tells a true kind of the food
/// ("onion": red onion); loose head: the last word alone, of which the food is no kind ("milk": coconut
/// milk).
enum class Closeness : std::uint8_t { Category, Variety, Regional, LooseHead, Head, Synonym, Exact };

using Candidates = std::map<std::size_t, Closeness>;  // by ingredient

class FoodListing {
 public:
  explicit FoodListing(const std::vector<std::string>& names);

  struct KeyMatch {
    std::size_t end = 0;    ///< 0: none
    std::size_t words = 0;  ///< of the name, without descriptions between
    const Candidates* candidates = nullptr;
  };
  /// The longest words of a listed name at `at`; descriptions may stand between them.
  [[nodiscard]] KeyMatch longest_at(std::span<const NameWord> words, std::size_t at) const;
  [[nodiscard]] bool may_start(std::string_view name_stem) const;
  /// Adds listed foods that are the row's food, broader or narrower than it. `spoken` are the words
  /// themselves.
  void add_related(std::size_t row, std::span<const NameWord> spoken, Candidates& found) const;
  [[nodiscard]] bool is_related(std::size_t row) const { return related_.contains(row); }
  void add_category(std::string_view name_stem, Candidates& found) const;
  [[nodiscard]] bool is_contrasted(std::string_view name_stem) const;
  /// True when the ingredient's own words hold a contrast to `modifier` that the spoken ones do not settle.
  [[nodiscard]] bool contradicts(std::size_t ingredient, std::string_view modifier,
                                 std::span<const NameWord> spoken) const;
  /// "peppers" and "a pepper" are no spice, "a pinch of pepper" and "salt and pepper" no vegetable.
  void settle_pepper(std::span<const NameWord> words, std::size_t at, Candidates& found) const;
  void rank(const Candidates& found, FoodMention& mention) const;

 private:
  struct Key {
    std::vector<std::string> stems;
    Candidates candidates;
  };
  struct Listed {
    std::vector<std::string> stems;  // of all its words
    std::size_t row = kNoFood;
    FoodKinds kinds;
  };
  void add_name(std::string_view name, std::size_t ingredient);
  void add_key(std::span<const NameWord> words, std::size_t ingredient, Closeness closeness);
  void add_parts(std::span<const NameWord> core, std::size_t ingredient, std::size_t row, bool part_dropped);
  [[nodiscard]] bool is_bare_ending(std::size_t ingredient, std::span<const NameWord> spoken) const;
  void relate(const ResolvedName& resolved, std::size_t ingredient);

  std::vector<Listed> listed_;
  std::unordered_map<std::string, std::vector<Key>> keys_;  // by first stem
  std::unordered_map<std::size_t, Candidates> related_;     // by spoken row
};

}  // namespace panslate
