#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/kitchen/food.h"

/// Words around foods (food_words.csv): what they do to a name they stand beside.
namespace panslate {

enum class WordClass : std::uint8_t {
  Descriptor,   ///< "fresh", "finely": says nothing about which food
  Part,         ///< "leaf", "fillet", "juice": a part of the food before it
  Maker,        ///< "powder", "oil", "stock": makes another food of the one before it
  Dish,         ///< "fritters", "salad": a dish of the food before it
  Tool,         ///< "press", "grinder": a thing named after a food
  Distinctive,  ///< "romano", "caster": names its food without the head noun
  Ambiguous,    ///< "date", "cream": an ordinary word as well
  Verb,         ///< "butter", "oil": something a cook does as well
};

/// `name_stem` is that of the word.
[[nodiscard]] bool is_of_class(WordClass word_class, std::string_view name_stem);

/// Kinds of food that a category word stands for ("herbs"); none for other words.
[[nodiscard]] FoodKinds kinds_of_category(std::string_view name_stem);

/// Words by which pieces of a food (a row's name) are counted that name another food as well: cloves of
/// garlic.
[[nodiscard]] std::vector<std::string_view> counts_of(std::string_view food);

/// True when both words belong to one set of which a food has only one (red and green, rice and wine
/// vinegar).
[[nodiscard]] bool words_contrast(std::string_view name_stem, std::string_view other_name_stem);

/// True when the word belongs to such a set.
[[nodiscard]] bool has_contrasts(std::string_view name_stem);

/// True for a word before an ambiguous one that makes it a food: an article, "of", a figure, a description.
[[nodiscard]] bool lets_believe_food(std::string_view folded_word);

/// Fixed phrases with a food's name that are no food ("mint condition").
[[nodiscard]] const std::vector<std::string_view>& phrases_without_food();

/// A word of a name, cut and reduced for comparing.
struct NameWord {
  std::string text;  ///< folded, without apostrophes
  std::string stem;  ///< name_stem
};

/// Cuts a name into words at white space and hyphens, folding it.
[[nodiscard]] std::vector<NameWord> name_words(std::string_view name);

/// As name_words for one word that is folded already; a word without letters and digits gives none.
void append_name_words(std::string_view folded_word, std::vector<NameWord>& out);

/// Rows of a table without quotes: fields of each line after the heading.
[[nodiscard]] std::vector<std::vector<std::string_view>> table_rows(std::string_view csv);

/// Parts of a field separated by `|`; none for an empty field.
[[nodiscard]] std::vector<std::string_view> field_parts(std::string_view field);

}  // namespace panslate
