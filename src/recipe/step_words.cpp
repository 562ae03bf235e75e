#include "recipe/step_words.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"

#include "recipe/heading_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// "approx. 5 cm", "15 min. or so": no end of a sentence.
bool is_full_stop(const std::vector<Token>& tokens, std::size_t at) {
  if (tokens[at].kind != TokenKind::Mark || !is_one_of(tokens[at].text, {".", "!", "?", ";"})) return false;
  if (tokens[at].text != "." || at + 1 >= tokens.size() || tokens[at + 1].capital) return true;
  return at == 0 || !is_one_of(tokens[at - 1].text, {"approx", "min", "mins", "hr", "hrs", "tbsp", "tsp",
                                                     "oz", "lb", "lbs", "c", "f", "cm", "in", "g"});
}

// Stems of the words that make a group's name: "sauce" of "For the tomato sauce".
std::vector<std::string> stems_of(std::string_view text) {
  std::vector<std::string> stems;
  for (const auto& token : tokenize(text))
    if (token.kind == TokenKind::Word && token.text.size() > 2) stems.push_back(name_stem(token.text));
  return stems;
}

// Which lines the listed names of FoodNames stand for.
struct ListedNames {
  std::vector<std::string> names;
  std::vector<std::size_t> ingredient;
  std::map<std::string, std::size_t> count;

  explicit ListedNames(const Recipe& recipe) {
    for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
      const auto& one = recipe.ingredients[i];
      for (const auto* foods : {&one.foods, &one.or_foods})
        for (const auto& food : *foods) {
          // What more lines name than in any recipe tells no line: a mention stands for the first of them.
          constexpr std::size_t kMostLines = 64;
          if (++count[food] > kMostLines) continue;
          names.push_back(food);
          ingredient.push_back(i);
        }
    }
  }
};

// Settles which of several lines a name means: the line of the part that the step is about.
class PartChoice {
 public:
  PartChoice(const Recipe& recipe, std::vector<StepWords>& words) : recipe_(recipe), words_(words) {
    for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
      group_.push_back(group_of(recipe, i));
      stems_.push_back(stems_of(group_.back()));
    }
  }

  void run() {
    const bool grouped = std::any_of(group_.begin(), group_.end(), [](const auto& g) { return !g.empty(); });
    for (std::size_t s = 0; grouped && s < words_.size(); ++s)
      for (auto& food : words_[s].foods)
        if (food.ingredients.size() > 1) settle(s, food);
  }

 private:
  bool of_part(std::size_t ingredient, const std::string& part) const {
    const auto& group = group_[ingredient];
    return !group.empty() && !part.empty() &&
           (part.find(group) != std::string::npos || group.find(part) != std::string::npos);
  }

  void keep(StepFood& food, const std::vector<std::size_t>& chosen) const {
    if (!chosen.empty()) food.ingredients = chosen;
  }

  void settle(std::size_t s, StepFood& food) const {
    const auto part = fold_accents(recipe_.steps[s].part);
    std::vector<std::size_t> of_step;
    for (const auto i : food.ingredients)
      if (of_part(i, part)) of_step.push_back(i);
    if (!of_step.empty()) return keep(food, of_step);
    // "For the filling, melt the butter": named in the same sentence, before or after.
    const auto& words = words_[s];
    const auto begin = words.sentence_begin(food.begin);
    const auto end = words.sentence_end(food.begin);
    for (const auto i : food.ingredients)
      if (!stems_[i].empty() && std::any_of(words.stems.begin() + static_cast<std::ptrdiff_t>(begin),
                                            words.stems.begin() + static_cast<std::ptrdiff_t>(end),
                                            [&](const auto& stem) { return stem == stems_[i].back(); }))
        of_step.push_back(i);
    if (!of_step.empty()) return keep(food, of_step);
    // The company it keeps: foods of the step that only one line can mean.
    std::map<std::string, int> company;
    for (const auto& other : words.foods)
      if (other.ingredients.size() == 1) ++company[group_[other.ingredients.front()]];
    int most = 0;
    for (const auto& [group, count] : company) most = std::max(most, count);
    for (const auto i : food.ingredients)
      if (const auto found = company.find(group_[i]);
          found != company.end() && found->second == most && !group_[i].empty())
        of_step.push_back(i);
    keep(food, of_step);
  }

  const Recipe& recipe_;
  std::vector<StepWords>& words_;
  std::vector<std::string> group_;
  std::vector<std::vector<std::string>> stems_;
};

// "…, apricots, mint, parsley and …": a word that is a food among foods, though alone it might be another.
void add_foods_of_lists(StepWords& words) {
  const auto is_food_at = [&](std::size_t at, bool ends) {
    return std::any_of(words.foods.begin(), words.foods.end(), [&](const StepFood& food) {
      return (ends ? food.end - 1 : food.begin) == at && !food.perhaps_verb;
    });
  };
  const auto joins = [&](std::size_t at) { return words.is(at, {",", "and"}); };
  std::vector<StepFood> found;
  for (std::size_t at = 1; at < words.size(); ++at) {
    const auto& token = words.tokens[at];
    if (token.kind != TokenKind::Word || !is_ambiguous_word(token.text) || !is_food_word(token.text))
      continue;
    const bool covered = std::any_of(words.foods.begin(), words.foods.end(),
                                     [&](const StepFood& food) { return food.begin <= at && at < food.end; });
    if (covered) continue;
    auto before = at - 1;
    const bool the = words.is(before, {"the"});
    if (the && before > 0) --before;
    const bool after_food = joins(before) && before > 0 && is_food_at(before - 1, true);
    auto after = at + 1;
    const bool ends = after >= words.size() || words.is(after, {".", ",", "and", "or", "in", "into", "to",
                                                                "with", "over", "for", "until", "on"});
    if (joins(after)) ++after;
    if (words.is(after, {"the"})) ++after;
    const bool before_food = joins(at + 1) && is_food_at(after, false);
    // "brush with egg.": nothing but a food is meant.
    const bool with =
        words.is(at - 1, {"with"}) && ends &&
        words.is(at, {"egg", "eggs", "cream", "mint", "dill", "sage", "rosemary", "thyme", "chives"});
    if (!ends || !(with || after_food || (before_food && (the || words.is(at - 1, {",", "and"}))))) continue;
    StepFood food;
    food.begin = at;
    food.end = at + 1;
    food.other_food = true;
    found.push_back(std::move(food));
  }
  if (found.empty()) return;
  words.foods.insert(words.foods.end(), found.begin(), found.end());
  std::sort(words.foods.begin(), words.foods.end(),
            [](const StepFood& a, const StepFood& b) { return a.begin < b.begin; });
}

}  // namespace

std::string as_name_word(const Token& token) {
  const bool hyphen = token.text == "-" && !token.space_before;
  return token.kind == TokenKind::Mark && !hyphen ? std::string{} : token.text;
}

StepWords::StepWords(const Step& step) : tokens(tokenize(step.text)), text_(step.text) {
  std::size_t number = 0;
  for (std::size_t at = 0; at < tokens.size(); ++at) {
    const auto& token = tokens[at];
    names.push_back(as_name_word(token));
    stems.push_back(token.kind == TokenKind::Word ? name_stem(token.text) : token.text);
    actions.push_back(token.kind == TokenKind::Word ? action_of(token.text) : Action{});
    sentence.push_back(number);
    if (is_full_stop(tokens, at)) ++number;
  }
}

bool StepWords::is(std::size_t at, std::initializer_list<std::string_view> words) const {
  return at < tokens.size() && is_one_of(tokens[at].text, words);
}

std::size_t StepWords::sentence_begin(std::size_t at) const {
  return static_cast<std::size_t>(std::lower_bound(sentence.begin(), sentence.end(), sentence[at]) -
                                  sentence.begin());
}

std::size_t StepWords::sentence_end(std::size_t at) const {
  return static_cast<std::size_t>(std::upper_bound(sentence.begin(), sentence.end(), sentence[at]) -
                                  sentence.begin());
}

std::size_t StepWords::clause_begin(std::size_t at) const {
  const auto first = sentence_begin(at);
  while (at > first && !is(at - 1, {",", ":", "and", "then", "or", "(", "-"})) --at;
  return at;
}

std::size_t StepWords::token_at(std::size_t offset) const {
  const auto found = std::lower_bound(tokens.begin(), tokens.end(), offset,
                                      [](const Token& token, std::size_t at) { return token.end <= at; });
  return static_cast<std::size_t>(found - tokens.begin());
}

std::string StepWords::text(std::size_t begin, std::size_t end) const {
  if (begin >= end || end > tokens.size()) return {};
  return std::string(text_.substr(tokens[begin].begin, tokens[end - 1].end - tokens[begin].begin));
}

FoodKinds kinds_of_name(std::string_view name) {
  if (const auto* food = find_food(name); food != nullptr) return food->kinds;
  constexpr std::size_t kMost = 6;
  const auto words = split(fold_accents(name), ' ');
  for (std::size_t cut = 1; cut < words.size() && cut < kMost; ++cut) {
    const std::vector<std::string> last(words.begin() + static_cast<std::ptrdiff_t>(cut), words.end());
    const std::vector<std::string> first(words.begin(), words.end() - static_cast<std::ptrdiff_t>(cut));
    for (const auto& part : {last, first})
      if (const auto* food = find_food(join(part, " ")); food != nullptr) return food->kinds;
  }
  return {};
}

std::string group_of(const Recipe& recipe, std::size_t ingredient) {
  return fold_accents(part_name(recipe.ingredients[ingredient].group));
}

std::vector<StepWords> words_of_method(const Recipe& recipe) {
  const ListedNames listed(recipe);
  const FoodNames names(listed.names);
  std::vector<StepWords> words;
  words.reserve(recipe.steps.size());
  for (const auto& step : recipe.steps) {
    auto& cut = words.emplace_back(step);
    for (const auto& mention : names.scan(cut.names)) {
      StepFood food;
      food.begin = mention.begin;
      food.end = mention.begin + mention.length;
      food.match = mention.match;
      food.other_food = mention.other_food;
      food.perhaps_verb = mention.perhaps_verb;
      std::set<std::size_t> lines;
      for (const auto i : mention.ingredients) lines.insert(listed.ingredient[i]);
      food.ingredients.assign(lines.begin(), lines.end());
      cut.foods.push_back(std::move(food));
    }
    add_foods_of_lists(cut);
  }
  PartChoice(recipe, words).run();
  return words;
}

}  // namespace panslate
