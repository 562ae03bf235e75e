#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"

#include "recipe/actions.h"
#include "recipe/flow_parts.h"
#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

FoodKinds kinds_of(std::initializer_list<FoodKind> kinds) {
  FoodKinds set;
  for (const auto kind : kinds) set.set(static_cast<std::size_t>(kind));
  return set;
}

// Words for several foods at once that name no kind of the table by themselves. Common practice, no source.
struct GroupWord {
  std::string_view word;
  FoodKinds kinds;
};

const std::vector<GroupWord>& group_words() {
  using enum FoodKind;
  static const std::vector<GroupWord> kWords{
      {"seasoning", kinds_of({Spice, Herb, Condiment, Sauce, Sugar})},
      {"spice", kinds_of({Spice, Chilli})},
      {"aromatic", kinds_of({Vegetable, Herb, Spice, Chilli})},
      {"liquid", kinds_of({Liquid, Stock, PlantMilk, Dairy, Juice, Drink, Alcohol, Vinegar, Sauce, Egg})},
      {"sauce", kinds_of({Sauce})},
      {"condiment", kinds_of({Condiment, Sauce, Pickle})},
      {"garnish", kinds_of({Herb, Citrus, Seed, Nut})},
      {"topping", kinds_of({Herb, Cheese, Seed, Nut, Sauce, Pickle, Vegetable, Fruit, Berry})},
      {"trimming", kinds_of({Herb, Sauce, Pickle, Vegetable})},
      {"peel", kinds_of({Citrus, Fruit})},
      {"grain", kinds_of({Grain, Rice})},
      {"bean", kinds_of({Pulse, Tinned})},
  };
  return kWords;
}

FoodKinds wet_kinds() {
  using enum FoodKind;
  return kinds_of({Liquid, Stock, PlantMilk, Dairy, Juice, Drink,  Alcohol, Vinegar, Sauce, Egg,    Oil,
                   Fat,    Syrup, Sweetener, Fruit, Berry, Squash, Spread,  Sugar,   Zest,  Citrus, Tinned});
}

FoodKinds dry_kinds() {
  using enum FoodKind;
  return kinds_of({Flour, Starch, Baking, Sugar, Spice, Grain, Nut, Seed, Chocolate, DriedFruit});
}

class UseReader {
 public:
  UseReader(const MethodView& method, Flow& flow)
      : recipe_(method.recipe), words_(method.words), flow_(flow) {
    for (const auto& ingredient : recipe_.ingredients) {
      kinds_.push_back(kinds_of_name(ingredient.name));
      groups_.push_back(fold_accents(ingredient.group));
      names_.push_back(fold_accents(ingredient.name));
    }
  }

  void run() {
    for (std::size_t s = 0; s < words_.size(); ++s) {
      named(s);
      found_by_reader(s);
      groups_of_foods(s);
    }
    named_groups();
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i)
      if (!used(i)) by_its_words(i);
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i)
      if (!used(i)) by_a_relative(i);
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i)
      if (!used(i)) implied(i);
    for (std::size_t s = 0; s < words_.size(); ++s)
      for (const auto& [ingredient, use] : found_[s]) flow_.steps[s].uses.push_back(use);
  }

 private:
  bool used(std::size_t ingredient) const { return used_.contains(ingredient); }

  void use(std::size_t step, std::size_t ingredient, UseKind kind, std::size_t token) {
    const auto& tokens = words_[step].tokens;
    const auto offset = token < tokens.size() ? tokens[token].begin : 0;
    const auto [at, is_new] = found_[step].try_emplace(ingredient, FlowUse{ingredient, kind, offset});
    if (!is_new && kind < at->second.kind) at->second = {ingredient, kind, offset};
    used_.insert(ingredient);
    if (kind == UseKind::Named) named_.insert(ingredient);
  }

  void named(std::size_t s) {
    for (const auto& food : words_[s].foods) {
      const auto kind = food.match == NameMatch::Category ? UseKind::Group
                        : food.perhaps_verb               ? UseKind::Implied
                                                          : UseKind::Named;
      for (const auto i : food.ingredients) use(s, i, kind, food.begin);
    }
  }

  // What the reader of the method found besides; of lines of one food only those that the words may mean.
  void found_by_reader(std::size_t s) {
    std::unordered_set<std::string> settled;
    for (const auto& other : found_[s]) settled.insert(names_[other.first]);
    for (const auto i : recipe_.steps[s].uses) {
      if (found_[s].contains(i) || settled.contains(names_[i])) continue;
      const auto& name = recipe_.ingredients[i].name;
      settled.insert(names_[i]);
      if (has_word_of(s, name))
        use(s, i, UseKind::Named, 0);
      else if (tells_rest(s))
        use(s, i, UseKind::Rest, 0);
    }
  }

  // "Toss everything together" speaks of what is there already.
  bool tells_rest(std::size_t s) const {
    const auto& words = words_[s];
    bool everything = false;
    for (std::size_t at = 0; at < words.size(); ++at) {
      if (words.is(at, {"ingredients", "else", "rest", "remaining"}) || takes_all_there_is(s, at))
        return true;
      everything = everything || words.is(at, {"everything"});
    }
    return !everything;
  }

  bool has_word_of(std::size_t s, const std::string& name) const {
    const auto tokens = tokenize(name);
    return std::any_of(tokens.begin(), tokens.end(), [&](const Token& token) {
      const auto& stems = words_[s].stems;
      return token.kind == TokenKind::Word && token.text.size() > 2 &&
             std::find(stems.begin(), stems.end(), name_stem(token.text)) != stems.end();
    });
  }

  bool is_salt(std::size_t i) const {
    const auto name = fold_accents(recipe_.ingredients[i].name);
    return name.find("salt") != std::string::npos;
  }

  // "both flours": every line whose name ends so.
  void alike(std::size_t s, std::size_t at) {
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i) {
      const auto name = recipe_.ingredients[i].name;
      const auto last = name.substr(name.rfind(' ') == std::string::npos ? 0 : name.rfind(' ') + 1);
      if (name_stem(fold_accents(last)) == words_[s].stems[at]) use(s, i, UseKind::Group, at);
    }
  }

  // "mixed spice", "soy sauce": one food, no group.
  bool is_named_food(std::size_t s, std::size_t at) const {
    return std::any_of(words_[s].foods.begin(), words_[s].foods.end(), [&](const StepFood& food) {
      return food.begin <= at && at < food.end && food.match != NameMatch::Category &&
             (food.end - food.begin > 1 || food.match != NameMatch::None) &&
             !words_[s].is(food.begin, {"all"});  // "all spices" is no allspice
    });
  }

  // Coriander, thyme or mustard by the spoon: among "the spices".
  bool is_spooned_spice(std::size_t i) const {
    const auto& amounts = recipe_.ingredients[i].amounts;
    const bool spooned = amounts.empty() || amounts.front().unit == Unit::Teaspoon ||
                         amounts.front().unit == Unit::Tablespoon || amounts.front().unit == Unit::Pinch;
    const auto is_kind = [&](FoodKind kind) { return kinds_[i].test(static_cast<std::size_t>(kind)); };
    return spooned && (is_kind(FoodKind::Herb) || is_kind(FoodKind::Condiment));
  }

  void groups_of_foods(std::size_t s) {
    const auto& words = words_[s];
    for (std::size_t at = 0; at < words.size(); ++at) {
      const auto here = words.word(at);
      if (is_one_of(here, {"ingredients", "ingredient", "mix", "stuff"})) kind_of_ingredients(s, at);
      if (takes_all_there_is(s, at)) all_the_rest(s, at);
      if (words.tokens[at].kind != TokenKind::Word) continue;
      if (at > 0 && words.is(at - 1, {"both", "two", "three", "all"})) alike(s, at);
      if (is_named_food(s, at)) continue;
      for (const auto& group : group_words()) {
        if (words.stems[at] != group.word) continue;
        const bool spices = group.word == "spice";
        const bool plural =
            here != group.word || group.word == "seasoning" || group.word == "garnish" || spices;
        if (!plural) continue;
        for (std::size_t i = 0; i < kinds_.size(); ++i)
          if ((kinds_[i] & group.kinds).any() || (group.word == "seasoning" && is_salt(i)) ||
              (spices && is_spooned_spice(i)))
            use(s, i, UseKind::Group, at);
      }
      if (is_one_of(here, {"season", "seasoned", "seasoning", "seasonings"}))
        for (std::size_t i = 0; i < kinds_.size(); ++i)
          if (is_salt(i) || fold_accents(recipe_.ingredients[i].name).find("pepper") != std::string::npos)
            if (!kinds_[i].test(static_cast<std::size_t>(FoodKind::Vegetable)))
              use(s, i, UseKind::Implied, at);
    }
  }

  bool is_extract(std::size_t i) const {
    const auto name = fold_accents(recipe_.ingredients[i].name);
    return name.find("vanilla") != std::string::npos || name.find("extract") != std::string::npos;
  }

  // "Put everything in a pot", "Mix ingredients in a bowl", "Shake everything together".
  bool takes_all_there_is(std::size_t s, std::size_t at) const {
    const auto& words = words_[s];
    if (!words.is(at, {"everything", "ingredients"}) || at == 0) return false;
    const bool everything = words.is(at, {"everything"});
    auto verb = at - 1;
    while (verb > 0 &&
           words.is(verb, {"all", "the", "your", "of", "in", "remaining", "rest", "other", "together"}))
      --verb;
    // At the start there is nothing yet that "stir everything together" could speak of.
    bool first = true;
    for (std::size_t earlier = 0; earlier < s && first; ++earlier) {
      const auto found = found_.find(earlier);
      first = found == found_.end() || found->second.empty();
    }
    if (everything && first && words.is(verb, {"stir", "mix", "toss", "beat", "simmer", "cook"})) return true;
    if (everything && words.is(verb, {"put", "throw", "add", "place", "combine", "blend", "blitz", "tip",
                                      "whisk", "shake", "pour", "layer", "process", "measure"}))
      return true;
    return !everything && words.is(verb, {"put", "throw", "add",   "place",  "combine", "blend",   "blitz",
                                          "tip", "whisk", "shake", "pour",   "layer",   "process", "measure",
                                          "mix", "stir",  "toss",  "gather", "prepare", "chop"});
  }

  void all_the_rest(std::size_t s, std::size_t at) {
    const auto part = fold_accents(recipe_.steps[s].part);
    const auto of_part = [&](std::size_t i) {
      return !groups_[i].empty() && !part.empty() &&
             (groups_[i].find(part) != std::string::npos || part.find(groups_[i]) != std::string::npos);
    };
    bool has_part = false;
    for (std::size_t i = 0; i < groups_.size(); ++i) has_part = has_part || of_part(i);
    for (std::size_t i = 0; i < groups_.size(); ++i)
      if (!used(i) && (!has_part || of_part(i))) use(s, i, UseKind::Rest, at);
  }

  // "the dry ingredients", "the wet ones", "the first 5 ingredients".
  void kind_of_ingredients(std::size_t s, std::size_t at) {
    const auto& words = words_[s];
    for (auto back = at; back > 0 && at - back < 4; --back) {
      const auto before = words.word(back - 1);
      const bool dry = before == "dry";
      const bool wet = is_one_of(before, {"wet", "liquid", "moist"});
      if (dry || wet)
        for (std::size_t i = 0; i < kinds_.size(); ++i)
          if (dry ? (kinds_[i] & dry_kinds()).any() || is_salt(i)
                  : (kinds_[i] & wet_kinds()).any() || kinds_[i].none() || is_extract(i))
            use(s, i, UseKind::Group, at);
      const auto& token = words.tokens[back - 1];
      if (token.kind == TokenKind::Number && token.value.is_whole() && back >= 2 &&
          is_one_of(words.word(back - 2), {"first", "next", "last"}))
        counted(s, at, words.word(back - 2), token.value.num());
    }
  }

  void counted(std::size_t s, std::size_t at, std::string_view which, std::int64_t count) {
    const auto size = kinds_.size();
    const auto n = static_cast<std::size_t>(std::clamp<std::int64_t>(count, 0, static_cast<int>(size)));
    if (which == "last")
      for (auto i = size - n; i < size; ++i) use(s, i, UseKind::Group, at);
    else
      for (std::size_t i = 0, taken = 0; i < size && taken < n; ++i)
        if (which == "first" || !used(i)) use(s, i, UseKind::Group, at), ++taken;
  }

  // "Whisk the dressing": a group of the list that the method takes as one, where it names few of its foods
  // one by one.
  void named_groups() {
    std::map<std::string, std::vector<std::size_t>> members;
    for (std::size_t i = 0; i < groups_.size(); ++i)
      if (!groups_[i].empty()) members[groups_[i]].push_back(i);
    for (const auto& [group, ingredients] : members) {
      const auto named =
          std::count_if(ingredients.begin(), ingredients.end(), [&](auto i) { return named_.contains(i); });
      if (static_cast<std::size_t>(named) * 2 >= ingredients.size()) continue;
      std::string head;
      for (const auto& token : tokenize(group))
        if (token.kind == TokenKind::Word && token.text.size() > 2 &&
            !is_one_of(token.text, {"for", "the", "optional", "ingredients", "serve", "finish"}))
          head = name_stem(token.text);
      if (head.empty()) continue;
      for (std::size_t s = 0; s < words_.size(); ++s)
        for (std::size_t at = 0; at < words_[s].size(); ++at)
          if (words_[s].stems[at] == head)
            for (const auto i : ingredients) use(s, i, UseKind::Group, at);
    }
  }

  // The words of the name, or one that says enough: "the cubes" of stock cubes, "the zest".
  void by_its_words(std::size_t i) {
    const bool plain = recipe_.ingredients[i].text.find('(') == std::string::npos;
    if (plain && silent_.contains(names_[i])) return;
    std::set<std::string> telling;
    const auto tokens = tokenize(recipe_.ingredients[i].name);
    std::string head;
    for (const auto& token : tokens) {
      if (token.kind != TokenKind::Word || token.text.size() < 3 || is_adjective_only(token.text)) continue;
      if (is_one_of(token.text, {"with", "and", "in", "from", "of", "the"})) break;
      if (is_descriptor(token.text) || action_of(token.text).kind == ActionKind::Heat) continue;
      head = token.text;
      if (is_food_word(token.text)) telling.insert(stem(token.text));
    }
    if (!head.empty()) telling.insert(stem(head));
    // "dried rice vermicelli (bee hoon)": its other name.
    add_bracketed(recipe_.ingredients[i].text, telling);
    for (const auto& root : telling)
      if (const auto found = by_root().find(root); found != by_root().end())
        for (const auto& [s, at] : found->second)
          if (!claimed(s, at, i)) use(s, i, UseKind::Implied, at);
    if (plain && !used(i)) silent_.insert(names_[i]);
  }

  using Spots = std::vector<std::pair<std::size_t, std::size_t>>;  // steps and their tokens
  // Where the words of each stem stand, made when it is first asked for.
  const std::unordered_map<std::string, Spots>& by_root() {
    if (by_root_.empty())
      for (std::size_t s = 0; s < words_.size(); ++s)
        for (std::size_t at = 0; at < words_[s].size(); ++at)
          if (const auto& token = words_[s].tokens[at]; token.kind == TokenKind::Word)
            by_root_[stem(token.text)].emplace_back(s, at);
    return by_root_;
  }

  // Foods that no line lists, by what may make them a line's under another name; each text looked up once.
  struct UnlistedFoods {
    std::map<FoodKind, Spots> by_kind;
    std::unordered_map<std::string, Spots> by_start;  // the first letters of their last word
  };
  static constexpr std::size_t kSameLetters = 3, kLeastLetters = 5;

  const UnlistedFoods& unlisted() {
    if (unlisted_) return *unlisted_;
    unlisted_.emplace();
    std::unordered_map<std::string, const Food*> rows;
    for (std::size_t s = 0; s < words_.size(); ++s)
      for (const auto& food : words_[s].foods) {
        if (!food.other_food || !food.ingredients.empty()) continue;
        const auto text = words_[s].text(food.begin, food.end);
        const auto [row, is_new] = rows.try_emplace(text, nullptr);
        if (is_new) row->second = find_food(text);
        if (row->second != nullptr) unlisted_->by_kind[row->second->kind].emplace_back(s, food.begin);
        const auto head = words_[s].word(food.end - 1);
        if (head.size() >= kLeastLetters)
          unlisted_->by_start[std::string(head.substr(0, kSameLetters))].emplace_back(s, food.begin);
      }
    return *unlisted_;
  }

  // "the bacon" for pancetta: a near relative that no line lists. Herbs and spices are no relatives.
  void by_a_relative(std::size_t i) {
    const auto& name = recipe_.ingredients[i].name;
    const auto take = [&](const Spots& spots) {
      for (const auto& [s, at] : spots) use(s, i, UseKind::Implied, at);
    };
    if (const auto* listed = find_food(name)) {
      const bool has_relatives = is_one_of(
          spelling_of(listed->kind), {"meat", "poultry", "fish", "cheese", "pasta", "rice", "mushroom"});
      const auto found = unlisted().by_kind.find(listed->kind);
      if (has_relatives && found != unlisted().by_kind.end()) take(found->second);
      return;
    }
    // "Sweet Pototoes" for potato: a name that no table knows and begins as the food does.
    for (const auto& token : tokenize(name)) {
      if (token.text.size() < kLeastLetters || is_food_word(token.text)) continue;
      const auto found = unlisted().by_start.find(token.text.substr(0, kSameLetters));
      if (found != unlisted().by_start.end()) take(found->second);
    }
  }

  static void add_bracketed(const std::string& text, std::set<std::string>& telling) {
    const auto open = text.find('(');
    const auto close = text.find(')', open == std::string::npos ? 0 : open);
    if (open == std::string::npos || close == std::string::npos) return;
    const auto inside = tokenize(std::string_view(text).substr(open + 1, close - open - 1));
    constexpr std::size_t kLongestName = 3;
    if (inside.size() > kLongestName) return;
    for (const auto& token : inside)
      if (token.kind == TokenKind::Word && token.text.size() > 2 && !is_descriptor(token.text) &&
          action_of(token.text).kind == ActionKind::None)
        telling.insert(stem(token.text));
  }

  // The word names another line.
  bool claimed(std::size_t s, std::size_t at, std::size_t ingredient) const {
    return std::any_of(words_[s].foods.begin(), words_[s].foods.end(), [&](const StepFood& food) {
      const auto last = food.end - 1;
      const bool made_of_it = food.other_food && at < last && is_made_on_the_way(words_[s].word(last));
      return food.begin <= at && at < food.end && food.match != NameMatch::Category && !made_of_it &&
             (food.other_food ||
              (!food.ingredients.empty() && std::find(food.ingredients.begin(), food.ingredients.end(),
                                                      ingredient) == food.ingredients.end()));
    });
  }

  // Where a word may need a food that it does not name; looked for once.
  const Spots& needing() {
    if (needing_) return *needing_;
    needing_.emplace();
    for (std::size_t s = 0; s < words_.size(); ++s)
      for (std::size_t at = 0; at < words_[s].size(); ++at)
        if (is_one_of(words_[s].actions[at].verb,
                      {"fry", "saute", "sear", "brown", "grease", "deep-fry", "stir-fry", "pan-fry", "sweat",
                       "griddle", "oil", "dust", "dredge"}) ||
            words_[s].is(at, {"floured", "pasta", "noodles", "sheets", "bread", "toast", "slices", "cheese",
                              "zest", "juice", "wedges", "yolk", "yolks", "whites", "wash", "ice"}))
          needing_->emplace_back(s, at);
    return *needing_;
  }

  // Frying needs the oil, rolling out the flour, though the step need not say so.
  void implied(std::size_t i) {
    const auto is_kind = [&](FoodKind kind) { return kinds_[i].test(static_cast<std::size_t>(kind)); };
    const bool fat = is_kind(FoodKind::Oil) || is_kind(FoodKind::Fat);
    const auto text = fold_accents(recipe_.ingredients[i].text);
    const auto told = [&](std::string_view word) { return text.find(word) != std::string::npos; };
    const bool any = fat || is_kind(FoodKind::Flour) || is_kind(FoodKind::Pasta) ||
                     is_kind(FoodKind::Bread) || is_kind(FoodKind::Cheese) || is_kind(FoodKind::Citrus) ||
                     is_kind(FoodKind::Egg) || told("zest") || told("juice") || told("ice");
    if (!any) return;
    for (const auto& [s, at] : needing()) {
      const auto verb = words_[s].actions[at].verb;
      const auto here = words_[s].word(at);
      const bool needs =
          (fat && is_one_of(verb, {"fry", "saute", "sear", "brown", "grease", "deep-fry", "stir-fry",
                                   "pan-fry", "sweat", "griddle", "oil"})) ||
          (is_kind(FoodKind::Flour) && (is_one_of(verb, {"dust", "dredge"}) || here == "floured")) ||
          (is_kind(FoodKind::Pasta) && is_one_of(here, {"pasta", "noodles", "sheets"}) &&
           !claimed(s, at, i)) ||
          (is_kind(FoodKind::Bread) && is_one_of(here, {"bread", "toast", "slices"}) && !claimed(s, at, i)) ||
          (is_kind(FoodKind::Cheese) && here == "cheese" && !claimed(s, at, i)) ||
          (told("zest") && here == "zest") || (told("juice") && here == "juice") ||
          (is_kind(FoodKind::Citrus) && is_one_of(here, {"zest", "juice", "wedges"}) && !claimed(s, at, i)) ||
          (is_kind(FoodKind::Egg) && is_one_of(here, {"yolk", "yolks", "whites", "wash"})) ||
          (told("ice") && told("cube") && here == "ice");
      if (needs) use(s, i, UseKind::Implied, at);
    }
  }

  const Recipe& recipe_;
  const std::vector<StepWords>& words_;
  Flow& flow_;
  std::vector<FoodKinds> kinds_;
  std::vector<std::string> groups_, names_;
  std::unordered_set<std::string> silent_;                       // names whose words stand nowhere
  std::map<std::size_t, std::map<std::size_t, FlowUse>> found_;  // by step, by ingredient
  std::set<std::size_t> used_, named_;
  std::unordered_map<std::string, Spots> by_root_;
  std::optional<UnlistedFoods> unlisted_;
  std::optional<Spots> needing_;
};

}  // namespace

void find_flow_uses(const MethodView& method, Flow& flow) {
  UseReader(method, flow).run();
}

}  // namespace panslate
