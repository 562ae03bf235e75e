#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "panslate/kitchen/food.h"

namespace panslate {

/// How a spoken stretch names a listed food, weakest first.
enum class NameMatch : std::uint8_t {
  None,
  Category,  ///< "the fish" for cod fillets, "the herbs" for parsley and dill
  Variety,   ///< said more narrowly than written: "cherry tomatoes" for tomatoes, "olive oil" for oil
  Regional,  ///< the same food in one country, another in another: "cornstarch" for cornflour
  Head,  ///< the head noun or a broader name: "peppers" for red romano peppers, "stock" for vegetable stock
  Synonym,  ///< another name of the same food: "eggplant" for aubergine
  Exact,    ///< its own words
};

/// What a stretch of spoken words names.
struct FoodMention {
  std::size_t begin = 0;              ///< first word
  std::size_t length = 0;             ///< in words; 0: no food is named here
  NameMatch match = NameMatch::None;  ///< None with a length: another food than any listed, or a thing named
                                      ///< after a food (egg timer, carrot fritters); skip it
  std::vector<std::size_t> ingredients;  ///< listed foods it names this closely, in the order of the list;
                                         ///< several: the words do not tell which
  std::vector<std::size_t> also;  ///< listed foods it might name less closely ("pepper": the red pepper,
                                  ///< where pepper is listed too)
  bool other_food = false;        ///< with match None: a food of the table that is not listed
  bool perhaps_verb = false;      ///< "butter the dish", "oil it": the word may be something done, not a food
};

/// The foods of one recipe, ready to be found in speech. Built once a recipe; a look-up costs little more
/// than the stem of a word, so a whole transcript is linear in its words.
///
///     FoodNames names({"red romano peppers", "plain flour"});
///     names.find({"the", "peppers"}, 1)  →  length 1, Head, ingredients {0}
class FoodNames {
 public:
  /// Names as the recipe's ingredients have them: without amount and preparation. What stands in brackets or
  /// after a comma is not part of a name; "butter or margarine" is one ingredient with two names.
  explicit FoodNames(const std::vector<std::string>& listed);

  /// What words[at…] names. Words are folded; an inner hyphen is as good as a space. An empty word or one
  /// without letters and digits (a comma) is a boundary that no name spans. The longest name wins, also over
  /// one that starts up to three words earlier: nothing is found at "milk" of "coconut milk".
  [[nodiscard]] FoodMention find(const std::vector<std::string>& words, std::size_t at) const;

  /// All mentions of listed foods, and other foods, from left to right, none overlapping.
  [[nodiscard]] std::vector<FoodMention> scan(const std::vector<std::string>& words) const;

 private:
  struct Index;
  std::shared_ptr<const Index> index_;
};

}  // namespace panslate
