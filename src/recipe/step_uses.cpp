#include "recipe/step_uses.h"

#include <algorithm>
#include <set>
#include <string>
#include <unordered_map>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "recipe/heading_words.h"
#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

using Strings = std::vector<std::string>;

Strings folded_words(std::string_view text) {
  Strings out;
  for (const auto& token : tokenize(text)) out.push_back(token.text);
  return out;
}

struct Name {
  std::size_t ingredient = 0;
  Strings words;  // folded
  Strings stems;
  bool known =
      true;  // the last word is a food by itself: "onions" of "red onions", not "cubes" of "bacon cubes"
  bool whole_only = false;  // a synonym: "salad onions" is not told by "onions"
  bool weak = false;        // a word of the name that is a food by itself: "chicken" of "chicken thighs"
};

// All ways to name the ingredients, found by the stem of their last word.
class NameIndex {
 public:
  explicit NameIndex(const Recipe& recipe) {
    for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
      const auto& ingredient = recipe.ingredients[i];
      for (const auto& food : ingredient.foods) add_food(i, food);
      for (const auto& food : ingredient.or_foods) add_food(i, food);
    }
  }

  const std::vector<Name>& ending_in(const std::string& stem_of_word) const {
    static const std::vector<Name> none;
    const auto found = names_.find(stem_of_word);
    return found == names_.end() ? none : found->second;
  }

 private:
  void add_food(std::size_t ingredient, const std::string& food) {
    auto words = folded_words(food);
    // "tuna in spring water": the head stands before the preposition.
    const auto cut = std::find_if(words.begin(), words.end(), [](const std::string& w) {
      return is_one_of(w, {"in", "with", "on", "from", "("});
    });
    if (cut != words.begin()) words.erase(cut, words.end());
    if (words.empty()) return;
    add(ingredient, words, false);
    for (const auto& synonym : synonyms_of(food)) add(ingredient, folded_words(synonym), false, true);
    const bool head_tells_cut =
        !is_food_word(words.back()) ||
        is_one_of(words.back(), {"meat", "mince", "bread", "cheese", "rice", "pasta", "wine"});
    for (std::size_t i = 0; i + 1 < words.size() && head_tells_cut; ++i)
      if (is_food_word(words[i]) && !is_descriptor(words[i]) && !is_adjective_only(words[i]))
        add(ingredient, {words[i]}, true);
    if (words.size() > 1)
      for (const auto& synonym : synonyms_of(words.back()))
        add(ingredient, folded_words(synonym), true, true);
  }

  void add(std::size_t ingredient, Strings words, bool weak, bool whole_only = false) {
    if (words.empty()) return;
    Name name{ingredient, std::move(words), {}, true, whole_only, weak};
    name.known = name.words.size() == 1 || is_food_word(name.words.back());
    for (const auto& word : name.words) name.stems.push_back(stem(word));
    auto& list = names_[name.stems.back()];
    list.push_back(std::move(name));
  }

  std::unordered_map<std::string, std::vector<Name>> names_;
};

class UseFinder {
 public:
  explicit UseFinder(Recipe& recipe) : recipe_(recipe), index_(recipe) {}

  void run() {
    for (auto& step : recipe_.steps) {
      step.uses.clear();
      found_.clear();
      words_.clear();
      stems_.clear();
      for (const auto& token : tokenize(step.text)) {
        words_.push_back(token.kind == TokenKind::Mark ? std::string{} : token.text);
        stems_.push_back(token.kind == TokenKind::Word ? stem(token.text) : token.text);
      }
      for (std::size_t at = 0; at < words_.size(); ++at) named(at, step);
      for (std::size_t at = 0; at < words_.size(); ++at) whole_list(at, step);
      step.uses.assign(found_.begin(), found_.end());
      used_.insert(found_.begin(), found_.end());
    }
  }

 private:
  struct Match {
    const Name* name = nullptr;
    std::size_t words = 0;  // of the name that stand here
  };

  std::size_t matched(const Name& name, std::size_t at) const {
    std::size_t count = 1;
    std::size_t here = at;
    for (auto i = name.stems.size() - 1; i-- > 0;) {
      while (here > 0 && is_descriptor(words_[here - 1]) && stems_[here - 1] != name.stems[i]) --here;
      if (here == 0 || stems_[here - 1] != name.stems[i]) break;
      --here;
      ++count;
    }
    return count;
  }

  // "coconut milk" in the step is no milk; "butter beans" no butter.
  bool is_other_food(const Name& name, std::size_t at) const {
    if (at > 0 && !words_[at - 1].empty() && makes_another_food(words_[at - 1], words_[at]) &&
        !has_word(name, stems_[at - 1]))
      return true;
    return at + 1 < words_.size() && !words_[at + 1].empty() &&
           makes_another_food(words_[at], words_[at + 1]) && !has_word(name, stems_[at + 1]);
  }

  // "salted butter" is no salt, though their stems agree.
  static bool has_text(const Name& name, const std::string& word) { return name.words.back() == word; }

  static bool has_word(const Name& name, const std::string& stem_of_word) {
    return std::find(name.stems.begin(), name.stems.end(), stem_of_word) != name.stems.end();
  }

  // "spring onions" are a food of their own beside onions; "red onions" are onions.
  static bool own_modifier(const Name& name) {
    if (name.words.size() < 2 || is_adjective_only(name.words[name.words.size() - 2])) return false;
    const auto* whole = find_food(join(name.words, " "));
    return whole != nullptr && whole != find_food(name.words.back());
  }

  void named(std::size_t at, const Step& step) {
    std::vector<Match> matches;
    for (const auto& name : index_.ending_in(stems_[at])) {
      if (is_other_food(name, at) || (is_adjective_only(words_[at]) && !has_text(name, words_[at]))) continue;
      const auto words = matched(name, at);
      if ((words == 1 && !name.known) || (name.whole_only && words < name.words.size())) continue;
      matches.push_back({&name, words});
    }
    if (matches.empty()) return;
    const auto rank = [](const Match& m) {
      const bool whole = m.words == m.name->words.size();
      return (m.name->weak ? 0U : 4U) + 8U * static_cast<unsigned>(m.words) + (whole ? 2U : 0U) +
             (m.words == 1 && own_modifier(*m.name) ? 0U : 1U);
    };
    unsigned best = 0;
    for (const auto& match : matches) best = std::max(best, rank(match));
    std::vector<std::size_t> chosen;
    for (const auto& match : matches)
      if (rank(match) == best) chosen.push_back(match.name->ingredient);
    keep_own_part(chosen, step);
    found_.insert(chosen.begin(), chosen.end());
  }

  bool of_part(std::size_t ingredient, const Step& step) const {
    const auto group = fold_accents(part_name(recipe_.ingredients[ingredient].group));
    const auto part = fold_accents(step.part);
    if (group.empty() || part.empty()) return false;
    return part.find(group) != std::string::npos || group.find(part) != std::string::npos;
  }

  void keep_own_part(std::vector<std::size_t>& chosen, const Step& step) const {
    if (chosen.size() < 2) return;
    const bool any =
        std::any_of(chosen.begin(), chosen.end(), [&](std::size_t i) { return of_part(i, step); });
    if (!any) return;
    chosen.erase(
        std::remove_if(chosen.begin(), chosen.end(), [&](std::size_t i) { return !of_part(i, step); }),
        chosen.end());
  }

  // "all the ingredients", "the remaining ingredients", "everything else", "the sauce ingredients".
  void whole_list(std::size_t at, const Step& step) {
    const bool ingredients = words_[at] == "ingredients";
    const bool everything = words_[at] == "everything";
    if (!ingredients && !everything) return;
    bool rest = everything && at + 1 < words_.size() && words_[at + 1] == "else";
    bool all = everything;
    std::string group;
    for (auto i = at; i > 0 && i + 6 > at; --i) {
      const auto& word = words_[i - 1];
      rest = rest || is_one_of(word, {"remaining", "rest", "other"});
      all = all || is_one_of(word, {"all", "the", "together"});
      if (group.empty()) group = group_named(stem(word));
    }
    if (everything && !rest && !used_.empty()) return;  // "stir everything together": what is there already
    if (!all && !rest && group.empty()) return;
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i) {
      if (rest && used_.count(i) > 0) continue;
      if (!group.empty() ? recipe_.ingredients[i].group != group
                         : !step.part.empty() && has_part(step) && !of_part(i, step))
        continue;
      if (!rest && group.empty() && is_kind_of(at)) continue;
      found_.insert(i);
    }
  }

  // "the dry ingredients", "the wet ingredients": some of them, untold which.
  bool is_kind_of(std::size_t at) const {
    return at > 0 && is_one_of(words_[at - 1], {"dry", "wet", "liquid", "fresh", "other", "main"});
  }

  bool has_part(const Step& step) const {
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i)
      if (of_part(i, step)) return true;
    return false;
  }

  std::string group_named(const std::string& stem_of_word) const {
    for (const auto& ingredient : recipe_.ingredients)
      for (const auto& word : folded_words(part_name(ingredient.group)))
        if (word.size() > 3 && stem(word) == stem_of_word) return ingredient.group;
    return {};
  }

  Recipe& recipe_;
  NameIndex index_;
  Strings words_, stems_;
  std::set<std::size_t> found_, used_;
};

}  // namespace

void find_uses(Recipe& recipe) {
  UseFinder(recipe).run();
}

}  // namespace panslate
