#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "recipe/findings.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// Lines whose own words tell what they are for, and things that nobody eats.
bool needs_no_step(const Ingredient& ingredient) {
  if (ingredient.optional) return true;
  const auto text = fold_accents(ingredient.text);
  for (const auto* const purpose :
       {"to serve",    "for serving",   "to garnish", "for garnish",    "to decorate",  "for decorat",
        "for dusting", "for greasing",  "to grease",  "for frying",     "to finish",    "as desired",
        "if desired",  "optional",      "to taste",   "for the tin",    "for brushing", "to glaze",
        "for rolling", "for the pan",   "of choice",  "of your choice", "for deep",     "to top",
        "for topping", "for the table", "accompan",   "garnish"})
    if (text.find(purpose) != std::string::npos) return true;
  const auto tokens = tokenize(ingredient.name);
  return std::any_of(tokens.begin(), tokens.end(), [](const Token& token) {
    return is_one_of(token.text, {"thermometer", "cheesecloth", "paper", "parchment", "foil", "skewers",
                                  "skewer", "string", "twine", "sticks", "cases", "liners", "toothpicks",
                                  "muslin", "clingfilm", "jars", "spray", "water", "ice"});
  });
}

bool is_known(const Ingredient& ingredient) {
  if (find_food(ingredient.name) != nullptr) return true;
  const auto tokens = tokenize(ingredient.name);
  constexpr std::size_t kLongestName = 4;
  return tokens.size() <= kLongestName && std::any_of(tokens.begin(), tokens.end(), [](const Token& token) {
           return token.kind == TokenKind::Word && is_food_word(token.text);
         });
}

// The same food on more lines: each is used where the method names it as often.
class NameCounts {
 public:
  explicit NameCounts(const ReadContext& context) {
    for (const auto& ingredient : context.recipe.ingredients) {
      names_.push_back(fold_accents(ingredient.name));
      ++counts_[names_.back()].lines;
    }
    for (const auto& words : context.words)
      for (const auto& food : words.foods)
        if (food.match > NameMatch::Category && !food.ingredients.empty())
          ++counts_[names_[food.ingredients.front()]].named;
  }
  [[nodiscard]] bool named_as_often(std::size_t ingredient) const {
    const auto& count = counts_.at(names_[ingredient]);
    return count.lines > 1 && count.named >= count.lines;
  }

 private:
  struct Count {
    std::size_t lines = 0, named = 0;
  };
  std::vector<std::string> names_;  // folded
  std::unordered_map<std::string, Count> counts_;
};

// Words of the lines and of the method: a line of which one word of its own stands in the method may be what
// the method means by it ("potatoes, cut into chips" and "toss the chips", "sambal belacan" and "the
// sambal").
class OwnWords {
 public:
  explicit OwnWords(const Recipe& recipe) {
    for (const auto& step : recipe.steps)
      for (const auto& token : tokenize(step.text)) told_.insert(stem(token.text));
    for (const auto& ingredient : recipe.ingredients)
      for (const auto& word : words_of(ingredient)) ++lines_with_[word];
  }
  [[nodiscard]] bool told(const Ingredient& ingredient) const {
    const auto words = words_of(ingredient);
    return std::any_of(words.begin(), words.end(),
                       [&](const auto& word) { return told_.contains(word) && lines_with_.at(word) == 1; });
  }

 private:
  // Of its name, and what it is cut into.
  static std::set<std::string> words_of(const Ingredient& ingredient) {
    std::set<std::string> out;
    const auto take = [&](const Token& token) {
      if (token.kind == TokenKind::Word && !is_descriptor(token.text)) out.insert(stem(token.text));
    };
    for (const auto& token : tokenize(ingredient.name)) take(token);
    const auto tokens = tokenize(ingredient.text);
    for (std::size_t i = 1; i < tokens.size(); ++i)
      if (tokens[i - 1].text == "into") take(tokens[i]);
    return out;
  }

  std::set<std::string> told_;
  std::map<std::string, std::size_t> lines_with_;
};

}  // namespace

void find_use_faults(const ReadContext& context) {
  const auto& recipe = context.recipe;
  if (recipe.steps.empty()) return;
  const NameCounts counts(context);
  const OwnWords own_words(recipe);
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto& ingredient = recipe.ingredients[i];
    if (needs_no_step(ingredient) || !context.flow().used_in[i].empty() || counts.named_as_often(i)) continue;
    // A name that no table knows may be misspelt, or another word for what the method calls it; and so may
    // one of which the method tells a part.
    const bool sure = is_known(ingredient) && !own_words.told(ingredient);
    const auto level = sure ? ReadLevel::Warning : ReadLevel::Note;
    auto& finding = context.at_ingredient(i, "unused-ingredient", level,
                                          "No step of the method uses the " + ingredient.name + ".");
    finding.advice = "Say in the method where it goes, or take the line out.";
  }
  for (const auto& food : context.flow().unlisted) {
    auto& finding = context.in_step(food.step, food.offset, "unlisted-ingredient", ReadLevel::Warning,
                                    "Step " + std::to_string(recipe.steps[food.step].number) + " uses " +
                                        food.name + ", which no line of the ingredients lists.");
    finding.advice = "Add a line with its amount to the ingredients.";
  }
}

}  // namespace panslate
