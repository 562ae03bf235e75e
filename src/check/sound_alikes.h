#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <unordered_set>
#include <vector>

#include "panslate/kitchen/food_names.h"

#include "check/name_words.h"
#include "check/talk.h"

/// Foods that the captions misheard: "star a niece" for star anise, where the recipe lists star anise. Only a
/// food's name is read so, never a number. A word of the language needs a reason to be taken for a food: an
/// amount "of" it, foods beside it, or what the method does with the food.
namespace panslate {

/// A stretch of talk that is taken for the name of a listed food.
struct SoundAlike {
  std::size_t begin = 0;  ///< in NameWords::words
  std::size_t end = 0;
  std::vector<std::string> meant;       ///< folded words to read instead
  std::vector<std::string> written;     ///< the same with accents
  std::vector<std::size_t> foods;       ///< listed foods it may mean
  std::vector<std::size_t> also_foods;  ///< about as near; makes it doubtful
  bool doubtful = false;                ///< a person must look
};

/// In order, none overlapping. `mentions` are what was understood without this, from `finder.scan`; `finder`
/// was made from the targets' names. `recipe_words` are the folded words that the recipe uses: heard, they
/// are themselves.
[[nodiscard]] std::vector<SoundAlike> find_sound_alikes(const Talk& talk, const NameWords& words,
                                                        const std::vector<FoodMention>& mentions,
                                                        const std::vector<FoodTarget>& targets,
                                                        const FoodNames& finder,
                                                        const std::unordered_set<std::string>& recipe_words);

/// The talk with those words put right, ready to be scanned again; `alike_of` tells for each word which of
/// them it comes from.
struct CorrectedWords {
  NameWords words;
  std::vector<std::size_t> last_token_of;  ///< by word: the last token it stands for
  std::vector<std::optional<std::size_t>> alike_of;
};
[[nodiscard]] CorrectedWords correct_words(const NameWords& words, const std::vector<SoundAlike>& alikes);

}  // namespace panslate
