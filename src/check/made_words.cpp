#include "check/made_words.h"

#include <algorithm>

#include "panslate/kitchen/token.h"

namespace panslate {

std::set<std::string> words_for_what_is_made(const std::vector<FoodTarget>& targets, const Recipe& recipe) {
  std::set<std::string> made;
  for (const std::string word : {"sauce", "dressing", "paste"}) {
    bool told_whole = false;
    for (const auto& step : recipe.steps) {
      const auto tokens = tokenize(step.text);
      for (std::size_t i = 1; i < tokens.size(); ++i) {
        if (tokens[i].text != word) continue;
        const bool whole = std::any_of(targets.begin(), targets.end(), [&](const auto& target) {
          const auto& words = target.words;
          const auto at = std::find(words.begin(), words.end(), word);
          return at != words.end() && at != words.begin() && *(at - 1) == tokens[i - 1].text;
        });
        if (told_whole && tokens[i - 1].text == "the") made.insert(word);
        told_whole = told_whole || whole;
      }
    }
  }
  return made;
}

}  // namespace panslate
