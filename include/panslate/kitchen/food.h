#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Foods as cooks call them. The table (foods.csv) groups names of one food across English-speaking kitchens;
/// everything else here is about words: stems, head nouns, and words that make another food of it.
namespace panslate {

/// Names for one food ("aubergine", "eggplant"), the first is the row's; empty when the food is not in the
/// table. `name` may be plural.
[[nodiscard]] std::vector<std::string_view> synonyms_of(std::string_view name);

/// The English stem of a folded word (libstemmer): "onions" and "onion" agree.
[[nodiscard]] std::string stem(std::string_view folded_word);

/// Words of a food name that carry no meaning on their own for finding it ("fresh", "large", "finely",
/// "organic", "good-quality").
[[nodiscard]] bool is_descriptor(std::string_view folded_word);

/// True when `modifier` before `head` names another food than `head` alone: ("coconut","milk"),
/// ("butter","beans"), ("peanut","butter").
[[nodiscard]] bool makes_another_food(std::string_view modifier, std::string_view head);

/// True for words that are foods on their own somewhere in the table (head nouns and whole names); used to
/// find off-recipe additions.
[[nodiscard]] bool is_food_word(std::string_view folded_word);

/// The longest known food name that starts at words[at] (folded words); number of words, 0 when none does.
[[nodiscard]] std::size_t food_name_length(const std::vector<std::string>& words, std::size_t at);

}  // namespace panslate
