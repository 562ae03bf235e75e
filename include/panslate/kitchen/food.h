#pragma once

#include <bitset>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Foods as cooks call them. The table (foods.csv) groups names of one food across English-speaking kitchens;
/// everything else here is about words: stems, head nouns, and words that make another food of it. Folded
/// words are in lower case without accents (fold_accents). All functions are thread-safe.
namespace panslate {

/// What sort of food a name is; the order and spelling are those of foods.csv ("plant milk").
enum class FoodKind : std::uint8_t {
  Vegetable,
  Leaf,
  Squash,
  Pepper,
  Mushroom,
  Chilli,
  Tinned,
  Fruit,
  Citrus,
  Berry,
  DriedFruit,
  Juice,
  Zest,
  Herb,
  Spice,
  Rice,
  Grain,
  Flour,
  Starch,
  Pasta,
  Bread,
  Pastry,
  Pulse,
  Soy,
  Nut,
  Seed,
  Dairy,
  PlantMilk,
  Cheese,
  Egg,
  Fat,
  Oil,
  Meat,
  Poultry,
  Fish,
  Seafood,
  Seaweed,
  Sugar,
  Syrup,
  Sweetener,
  Chocolate,
  Baking,
  Vinegar,
  Sauce,
  Condiment,
  Spread,
  Pickle,
  Stock,
  Liquid,
  Drink,
  Alcohol,
  Snack,
};
using FoodKinds = std::bitset<64>;  ///< indexed by FoodKind

[[nodiscard]] std::string_view spelling_of(FoodKind kind);
[[nodiscard]] std::optional<FoodKind> food_kind_from_spelling(std::string_view spelling);

/// A row of the table.
struct Food {
  std::string_view name;
  std::vector<std::string_view> other_names;  ///< of the same food anywhere in the English-speaking world
  FoodKind kind = FoodKind::Vegetable;        ///< the first of its kinds
  FoodKinds kinds;
  std::optional<std::size_t>
      broader;  ///< row of the food this is a variety or a part of (cherry tomato: tomato)
  std::vector<std::size_t> may_mean;  ///< rows of what the name means in one country or another (cornflour)
  std::string_view source;
  std::string_view note;
};

/// The whole table, in the order of the file.
[[nodiscard]] const std::vector<Food>& all_foods();

/// The row of a food called exactly so, but for case, accents, hyphens, plural and words that only describe
/// ("fresh", "finely chopped"); null when there is none.
[[nodiscard]] const Food* find_food(std::string_view name);

/// Names for one food ("aubergine", "eggplant"), the first is the row's; empty when the food is not in the
/// table. `name` may be plural.
[[nodiscard]] std::vector<std::string_view> synonyms_of(std::string_view name);

/// The English stem of a folded word (libstemmer): "onions" and "onion" agree.
[[nodiscard]] std::string stem(std::string_view folded_word);

/// As stem, but only plurals and singulars agree: "leaves" and "leaf" do, "salted" and "salt", "paste" and
/// "past" do not; possessives and apostrophes are dropped.
[[nodiscard]] std::string name_stem(std::string_view folded_word);

/// Words of a food name that carry no meaning on their own for finding it ("fresh", "large", "finely",
/// "organic", "good-quality"), words for a form among them.
[[nodiscard]] bool is_descriptor(std::string_view folded_word);

/// True when `modifier` before `head` names another food than `head` alone: ("coconut","milk"),
/// ("butter","beans"), ("peanut","butter").
[[nodiscard]] bool makes_another_food(std::string_view modifier, std::string_view head);

/// True for words that are foods on their own somewhere in the table (head nouns and whole names), words for
/// dishes ("soup", "fritters") left out; used to find off-recipe additions.
[[nodiscard]] bool is_food_word(std::string_view folded_word);

/// True for food words that are ordinary words as well ("date", "turkey", "cream", "season"): a mention needs
/// an amount or an article before it to be believed.
[[nodiscard]] bool is_ambiguous_word(std::string_view folded_word);

/// The longest known food name that starts at words[at] (folded words); number of words, 0 when none does or
/// the words are a phrase that only looks like one ("mint condition", "egg timer").
[[nodiscard]] std::size_t food_name_length(const std::vector<std::string>& words, std::size_t at);

/// What was done to a food before it came to the kitchen or the pan.
enum class FoodForm : std::uint8_t {
  Dried,
  Tinned,
  Pickled,
  Cooked,
  Ground,
  Powdered,
  Frozen,
  Fresh,
  Smoked,
  Toasted,
  Salted,
  Candied,
};

/// The form a folded word tells ("canned": Tinned); empty for other words.
[[nodiscard]] std::optional<FoodForm> form_of(std::string_view folded_word);

/// True where a food in this form is another food in the shops, so that leaving the word out misleads: dried
/// apricots, tinned tomatoes, ground almonds; not frozen peas, toasted seeds, dried pasta, ground cumin.
/// `food` is the name with or without the form word.
[[nodiscard]] bool form_makes_another_food(FoodForm form, std::string_view food);

}  // namespace panslate
