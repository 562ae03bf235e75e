#include "recipe/recipe_keys.h"

#include <map>
#include <string>

#include "panslate/base/lasting_key.h"
#include "panslate/base/text.h"
#include "panslate/kitchen/token.h"

namespace panslate {

namespace {

// Folded words without marks; numbers only where they are asked for.
std::string words_of(std::string_view text, bool with_numbers) {
  std::string out;
  for (const auto& token : tokenize(text)) {
    if (token.kind == TokenKind::Mark || (token.kind == TokenKind::Number && !with_numbers)) continue;
    out += token.text;
    out += ' ';
  }
  return out;
}

}  // namespace

void set_keys(Recipe& recipe) {
  std::map<std::string, int> seen;
  for (auto& ingredient : recipe.ingredients) {
    auto words = fold_accents(ingredient.name) + "|" + words_of(ingredient.preparation, false);
    const int count = ++seen[words];
    ingredient.key = lasting_key({"ingredient", words, std::to_string(count)});
  }
  seen.clear();
  for (auto& step : recipe.steps) {
    auto words = words_of(step.text, false);
    const int count = ++seen[words];
    step.key = lasting_key({"step", words, std::to_string(count)});
  }
}

}  // namespace panslate
