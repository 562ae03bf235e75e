#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "panslate/kitchen/food_names.h"
#include "panslate/speech/sound_index.h"

namespace panslate {

/// One way of naming a listed food, in words as they are written.
struct FoodPhrase {
  std::vector<std::string> words;    ///< folded
  std::vector<std::string> written;  ///< with accents
  std::vector<std::size_t> foods;    ///< listed foods that it names, in the order of the list
  std::vector<std::string> stems;    ///< of the words, as name_stem
};

/// How listed foods sound, under every name by which speech may call them: their own, parts of it that name
/// them too ("peppers"), the other names of the food table; singular and plural.
class FoodSounds {
 public:
  static constexpr std::size_t kMostWords = 5;  ///< of a phrase, and of what is heard for it

  /// `finder` was made from the names of the same foods.
  FoodSounds(const std::vector<std::string>& names, const FoodNames& finder);

  [[nodiscard]] const std::vector<FoodPhrase>& phrases() const { return phrases_; }
  /// Its entries are ways of saying phrases.
  [[nodiscard]] SoundIndex& index() { return index_; }
  /// Index into phrases() of the phrase that an entry says.
  [[nodiscard]] std::size_t phrase_index_of(std::size_t entry) const { return phrase_of_[entry]; }

 private:
  void add(FoodPhrase phrase);

  std::vector<FoodPhrase> phrases_;
  std::vector<std::size_t> phrase_of_;
  SoundIndex index_;
};

/// Every way a folded word is said: from the table of foods that the letter-to-sound rules get wrong, else by
/// those rules. Empty for a word without letters.
[[nodiscard]] std::vector<Sounds> ways_of_saying(const std::string& folded_word);
/// … and words after each other; of very many ways, the first six.
[[nodiscard]] std::vector<Sounds> ways_of_saying(std::span<const std::string> folded_words);

}  // namespace panslate
