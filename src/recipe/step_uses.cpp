#include "recipe/step_uses.h"

#include <algorithm>
#include <map>
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

// Stems, each word once.
class Stems {
 public:
  const std::string& of(const std::string& word) {
    auto [found, is_new] = known_.try_emplace(word);
    if (is_new) found->second = stem(word);
    return found->second;
  }

 private:
  std::unordered_map<std::string, std::string> known_;
};

struct Name {
  std::vector<std::size_t> ingredients;  // all that are called so
  Strings words;                         // folded
  Strings stems;
  bool known =
      true;  // the last word is a food by itself: "onions" of "red onions", not "cubes" of "bacon cubes"
  bool own = false;         // "spring onions" are a food of their own beside onions; "red onions" are onions
  bool whole_only = false;  // a synonym: "salad onions" is not told by "onions"
  bool weak = false;        // a word of the name that is a food by itself: "chicken" of "chicken thighs"
};

bool is_food_of_its_own(const Strings& words) {
  if (words.size() < 2 || is_adjective_only(words[words.size() - 2])) return false;
  const auto* whole = find_food(join(words, " "));
  return whole != nullptr && whole != find_food(words.back());
}

// All ways to name the ingredients, found by the stem of their last word.
class NameIndex {
 public:
  NameIndex(const Recipe& recipe, Stems& stems) : stems_(stems) {
    std::map<std::string, std::vector<std::size_t>> foods;
    for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
      for (const auto& food : recipe.ingredients[i].foods) foods[food].push_back(i);
      for (const auto& food : recipe.ingredients[i].or_foods) foods[food].push_back(i);
    }
    for (const auto& [food, ingredients] : foods) add_food(ingredients, food);
  }

  const std::vector<Name>& ending_in(const std::string& stem_of_word) const {
    static const std::vector<Name> none;
    const auto found = names_.find(stem_of_word);
    return found == names_.end() ? none : found->second;
  }

 private:
  enum class Kind { Written, Synonym, Weak, WeakSynonym };

  void add_food(const std::vector<std::size_t>& ingredients, const std::string& food) {
    auto words = folded_words(food);
    // "tuna in spring water": the head stands before the preposition.
    const auto cut = std::find_if(words.begin(), words.end(), [](const std::string& w) {
      return is_one_of(w, {"in", "with", "on", "from", "("});
    });
    if (cut != words.begin()) words.erase(cut, words.end());
    if (words.empty()) return;
    add(ingredients, words, Kind::Written);
    for (const auto& synonym : synonyms_of(food)) add(ingredients, folded_words(synonym), Kind::Synonym);
    const bool head_tells_cut =
        !is_food_word(words.back()) ||
        is_one_of(words.back(), {"meat", "mince", "bread", "cheese", "rice", "pasta", "wine"});
    for (std::size_t i = 0; i + 1 < words.size() && head_tells_cut; ++i)
      if (is_food_word(words[i]) && !is_descriptor(words[i]) && !is_adjective_only(words[i]))
        add(ingredients, {words[i]}, Kind::Weak);
    if (words.size() > 1)
      for (const auto& synonym : synonyms_of(words.back()))
        add(ingredients, folded_words(synonym), Kind::WeakSynonym);
  }

  void add(const std::vector<std::size_t>& ingredients, Strings words, Kind kind) {
    if (words.empty()) return;
    Name name;
    name.ingredients = ingredients;
    name.known = words.size() == 1 || is_food_word(words.back());
    name.own = is_food_of_its_own(words);
    name.whole_only = kind == Kind::Synonym || kind == Kind::WeakSynonym;
    name.weak = kind == Kind::Weak || kind == Kind::WeakSynonym;
    for (const auto& word : words) name.stems.push_back(stems_.of(word));
    name.words = std::move(words);
    auto& list = names_[name.stems.back()];
    list.push_back(std::move(name));
  }

  Stems& stems_;
  std::unordered_map<std::string, std::vector<Name>> names_;
};

class UseFinder {
 public:
  explicit UseFinder(Recipe& recipe) : recipe_(recipe), index_(recipe, stems_of_) {
    for (const auto& ingredient : recipe.ingredients) {
      groups_.push_back(fold_accents(part_name(ingredient.group)));
      for (const auto& word : folded_words(groups_.back()))
        if (word.size() > 3) group_by_stem_.try_emplace(stems_of_.of(word), ingredient.group);
    }
  }

  void run() {
    for (auto& step : recipe_.steps) {
      found_.clear();
      words_.clear();
      stems_.clear();
      part_ = fold_accents(step.part);
      for (const auto& token : tokenize(step.text)) {
        words_.push_back(token.kind == TokenKind::Mark ? std::string{} : token.text);
        stems_.push_back(token.kind == TokenKind::Word ? stems_of_.of(token.text) : token.text);
      }
      for (std::size_t at = 0; at < words_.size(); ++at) named(at);
      for (std::size_t at = 0; at < words_.size(); ++at) whole_list(at);
      step.uses.assign(found_.begin(), found_.end());
      used_.insert(found_.begin(), found_.end());
    }
  }

 private:
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

  static bool has_word(const Name& name, const std::string& stem_of_word) {
    return std::find(name.stems.begin(), name.stems.end(), stem_of_word) != name.stems.end();
  }

  bool other_food(std::size_t modifier, std::size_t head) const {
    return head < words_.size() && !words_[modifier].empty() && !words_[head].empty() &&
           makes_another_food(words_[modifier], words_[head]);
  }

  static unsigned rank(const Name& name, std::size_t words) {
    const bool whole = words == name.words.size();
    return (name.weak ? 0U : 4U) + 8U * static_cast<unsigned>(words) + (whole ? 2U : 0U) +
           (words == 1 && name.own ? 0U : 1U);
  }

  void named(std::size_t at) {
    const auto& names = index_.ending_in(stems_[at]);
    if (names.empty()) return;
    // "coconut milk" in the step is no milk; "butter beans" no butter.
    const bool other_before = at > 0 && other_food(at - 1, at);
    const bool other_after = other_food(at, at + 1);
    const bool adjective = is_adjective_only(words_[at]);
    unsigned best = 0;
    std::vector<const Name*> chosen;
    for (const auto& name : names) {
      if (other_before && !has_word(name, stems_[at - 1])) continue;
      if (other_after && !has_word(name, stems_[at + 1])) continue;
      if (adjective && name.words.back() != words_[at]) continue;  // "salted butter" is no salt
      const auto words = matched(name, at);
      if ((words == 1 && !name.known) || (name.whole_only && words < name.words.size())) continue;
      const auto here = rank(name, words);
      if (here < best) continue;
      if (here > best) chosen.clear();
      best = here;
      chosen.push_back(&name);
    }
    bool own_part = false;
    for (const auto* name : chosen)
      for (const auto i : name->ingredients) own_part = own_part || of_part(i);
    std::vector<std::size_t> meant;
    for (const auto* name : chosen)
      for (const auto i : name->ingredients)
        if (!own_part || of_part(i)) meant.push_back(i);
    if (meant.size() > 1) meant = told_by_form(at, std::move(meant));
    found_.insert(meant.begin(), meant.end());
  }

  // "the softened butter": of two lines of butter the one that is written so.
  std::vector<std::size_t> told_by_form(std::size_t at, std::vector<std::size_t> among) {
    constexpr std::size_t kFew = 3;
    for (auto before = at; before-- > 0 && at - before <= kFew && is_descriptor(words_[before]);) {
      std::vector<std::size_t> written;
      for (const auto i : among)
        for (const auto& word : folded_words(recipe_.ingredients[i].text))
          if (stems_of_.of(word) == stems_[before]) {
            written.push_back(i);
            break;
          }
      if (!written.empty()) among = std::move(written);
    }
    return among;
  }

  bool of_part(std::size_t ingredient) const {
    const auto& group = groups_[ingredient];
    if (group.empty() || part_.empty()) return false;
    return part_.find(group) != std::string::npos || group.find(part_) != std::string::npos;
  }

  // "all the ingredients", "the remaining ingredients", "everything else", "the sauce ingredients".
  void whole_list(std::size_t at) {
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
      const auto named_group = group_by_stem_.find(stems_[i - 1]);
      if (group.empty() && named_group != group_by_stem_.end()) group = named_group->second;
    }
    if (everything && !rest && !used_.empty()) return;  // "stir everything together": what is there already
    if ((!all && !rest && group.empty()) || (!rest && group.empty() && is_kind_of(at))) return;
    const bool part = has_part();
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i) {
      if (rest && used_.count(i) > 0) continue;
      const bool outside = !group.empty() ? recipe_.ingredients[i].group != group : part && !of_part(i);
      if (!outside) found_.insert(i);
    }
  }

  // "the dry ingredients", "the wet ingredients": some of them, untold which.
  bool is_kind_of(std::size_t at) const {
    return at > 0 && is_one_of(words_[at - 1], {"dry", "wet", "liquid", "fresh", "other", "main"});
  }

  bool has_part() const {
    for (std::size_t i = 0; i < groups_.size(); ++i)
      if (of_part(i)) return true;
    return false;
  }

  Recipe& recipe_;
  Stems stems_of_;
  NameIndex index_;
  Strings groups_;  // of each ingredient, folded, as parts are named
  std::unordered_map<std::string, std::string> group_by_stem_;
  std::string part_;
  Strings words_, stems_;
  std::set<std::size_t> found_, used_;
};

}  // namespace

void find_uses(Recipe& recipe) {
  UseFinder(recipe).run();
}

}  // namespace panslate
