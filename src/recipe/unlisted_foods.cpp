#include <algorithm>
#include <set>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/food.h"

#include "recipe/actions.h"
#include "recipe/flow_parts.h"
#include "recipe/heading_words.h"
#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// Water comes from the tap, and salt and pepper are seasoning; none of them is missed in a list.
bool needs_no_line(std::string_view name) {
  const auto last = name.substr(name.rfind(' ') == std::string_view::npos ? 0 : name.rfind(' ') + 1);
  if (is_one_of(last, {"salt", "water", "temp", "browning", "pot", "pan", "ice", "steam"})) return true;
  if (last == "pepper" && name.find("bell") == std::string_view::npos &&
      name.find("red") == std::string_view::npos && name.find("green") == std::string_view::npos &&
      name.find("cayenne") == std::string_view::npos && name.find("chil") == std::string_view::npos)
    return true;
  return is_one_of(
      name, {"water",      "boiling water", "cold water",    "warm water",   "hot water",      "ice water",
             "iced water", "ice",           "ice cubes",     "salt",         "pepper",         "black pepper",
             "sea salt",   "seasoning",     "seasonings",    "tap water",    "lukewarm water", "salt water",
             "steam",      "table salt",    "ground pepper", "white pepper", "salted water",   "ice cube"});
}

class UnlistedFinder {
 public:
  UnlistedFinder(const MethodView& method, Flow& flow)
      : recipe_(method.recipe), words_(method.words), flow_(flow) {
    for (const auto& ingredient : recipe_.ingredients) {
      add_words(ingredient.text, listed_);
      for (const auto& name : ingredient.foods) add_end(name);
      for (const auto& name : ingredient.or_foods) add_end(name);
      add_words(ingredient.text, lines_.emplace_back());
      for (const auto& word : lines_.back()) lines_with_[word].push_back(lines_.size() - 1);
      const auto text = fold_accents(ingredient.text);
      for (const auto* const bony : {"bone", "carcass", "whole chicken", "shank", "rib", "oxtail", "hock",
                                     "wing", "shell", "trotter", "knuckle"})
        has_bones_ = has_bones_ || text.find(bony) != std::string::npos;
      kinds_ |= kinds_of_name(ingredient.name);
      add_words(ingredient.group, dish_);
      if (!ingredient.group.empty()) parts_.insert(stem(fold_accents(part_name(ingredient.group))));
    }
    add_words(recipe_.title, dish_);
    for (const auto& step : recipe_.steps) add_words(step.part, dish_);
    for (const auto& yield : recipe_.yields) add_words(yield.text, dish_);
    find_made();
  }

  void run() {
    for (std::size_t s = 0; s < words_.size(); ++s) {
      for (const auto& food : words_[s].foods)
        if (food.other_food && food.ingredients.empty() && is_meant(s, food))
          take(s, food, is_missed(s, food));
      find_bare_foods(s);
    }
  }

 private:
  using Words = std::unordered_set<std::string>;

  // A food that a name denies ("nut-free cake") is no word of it.
  static void add_words(std::string_view text, Words& words) {
    const auto tokens = tokenize(text);
    const auto is_free = [&](std::size_t at) { return at < tokens.size() && tokens[at].text == "free"; };
    for (std::size_t at = 0; at < tokens.size(); ++at) {
      const auto& token = tokens[at];
      const bool dash = at + 1 < tokens.size() && tokens[at + 1].text == "-";
      if (token.kind != TokenKind::Word || is_free(at + 1) || (dash && is_free(at + 2))) continue;
      words.insert(name_stem(token.text));
      words.insert(stem(token.text));  // "peaches" and "peach"
    }
  }

  void add_end(std::string_view name) {
    const auto tokens = tokenize(name);
    if (!tokens.empty()) listed_ends_.insert(name_stem(tokens.back().text));
  }

  bool has_kind(FoodKind kind) const { return kinds_.test(static_cast<std::size_t>(kind)); }

  bool measured(std::size_t s, const StepFood& food) const {
    const auto& words = words_[s];
    const auto offset = words.tokens[food.begin].begin;
    return std::any_of(
        recipe_.steps[s].amounts.begin(), recipe_.steps[s].amounts.end(), [&](const MethodAmount& amount) {
          if (amount.is_share || !amount.amount.value) return false;
          const auto at = recipe_.steps[s].text.find(amount.text);
          return at != std::string::npos && at < offset && offset - at < amount.text.size() + 24;
        });
  }

  void take(std::size_t s, const StepFood& food, bool missed) {
    auto name = words_[s].text(food.begin, food.end);
    auto key = stem(fold_accents(name));
    UnlistedFood found{s, words_[s].tokens[food.begin].begin, std::move(name), measured(s, food)};
    if (missed && told_.insert(key).second) flow_.unlisted.push_back(found);
    if (mentioned_.insert(std::move(key)).second) flow_.mentioned.push_back(std::move(found));
  }

  // "Dust with flour", "add cream": words that are read as foods only after an article or an amount, and that
  // may be eaten all the same.
  void find_bare_foods(std::size_t s) {
    const auto& words = words_[s];
    auto known = words.foods.begin();
    for (std::size_t at = 0; at < words.size(); ++at) {
      while (known != words.foods.end() && known->end <= at) ++known;
      if (known != words.foods.end() && known->begin <= at) continue;
      StepFood food;
      food.begin = at;
      food.end = at + 1;
      food.other_food = true;
      if (!is_served_on(s, food) || listed_ends_.contains(words.stems[at])) continue;
      if (words.tokens[at + 1 < words.size() ? at + 1 : at].text == "-" || !is_meant(s, food)) continue;
      take(s, food, false);
    }
  }

  // A fault of the list: the method takes it as if a line had it.
  bool is_missed(std::size_t s, const StepFood& food) const {
    const auto& words = words_[s];
    if (stands_for_line(s, food)) return false;
    // "top with the fried shallots": those of the list, fried on the way.
    if (food.end - food.begin == 2 &&
        words.is(food.begin, {"fried", "toasted", "roasted", "grilled", "boiled", "caramelised"}) &&
        listed_ends_.contains(words.stems[food.begin + 1]))
      return false;
    if (food.end - food.begin == 1 && is_made_on_the_way(words.word(food.begin))) return false;
    return !is_serving_idea(words, food) && !is_choice(words, food);
  }

  // "Serve on toast", "scatter over some chopped nuts": named without "the", these are bought, not made here.
  bool is_served_on(std::size_t s, const StepFood& food) const {
    const auto& words = words_[s];
    if (food.end - food.begin != 1 ||
        !words.is(food.begin, {"toast", "nuts",       "nut",   "roux",  "gravy", "bun",    "buns",
                               "fries", "granola",    "fish",  "meat",  "flour", "butter", "sandwich",
                               "cream", "sandwiches", "pizza", "mince", "stock", "turkey", "tortillas"}))
      return false;
    if (words.is(food.begin, {"nuts", "nut"}) && has_kind(FoodKind::Nut)) return false;
    if (words.is(food.begin, {"fish"}) && has_kind(FoodKind::Fish)) return false;
    if (words.is(food.begin, {"meat", "mince"}) && (has_kind(FoodKind::Meat) || has_kind(FoodKind::Poultry)))
      return false;
    if (words.is(food.begin, {"roux"}) && (has_kind(FoodKind::Flour) || has_kind(FoodKind::Starch)))
      return false;
    for (auto at = food.begin; at-- > 0 && food.begin - at < 4 && words.same_sentence(at, food.begin);) {
      if (words.is(at, {"with", "on", "over", "some", "add", "alongside", "in"})) return true;
      if (!is_descriptor(words.word(at))) return false;
    }
    return false;
  }

  // A food that is eaten, and that no line covers.
  bool is_meant(std::size_t s, const StepFood& food) const {
    const auto& words = words_[s];
    auto name = fold_accents(words.text(food.begin, food.end));
    if (name.size() > 2 && name.ends_with("'s")) name.resize(name.size() - 2);
    if (needs_no_line(name)) return false;
    const bool served = is_served_on(s, food) && !dish_.contains(words.stems[food.begin]) &&
                        !listed_ends_.contains(words.stems[food.begin]);
    if (food.end - food.begin == 1 && is_made_on_the_way(name) && !served) return false;
    if (name == "hot sauce" && !measured(s, food)) return false;  // a sauce that is hot
    if (is_spoken_of(words, food) || is_thing(words, food)) return false;
    if (is_made_here(s, words, food, served)) return false;
    if (stands_in_a_line(words, food)) return false;
    // "tarragon paste", "bacon fat", "baguette bread": made of what is listed, or its kind said beside it.
    const auto last = food.end - 1;
    const bool of_listed =
        std::any_of(words.stems.begin() + static_cast<std::ptrdiff_t>(food.begin),
                    words.stems.begin() + static_cast<std::ptrdiff_t>(last),
                    [&](const auto& stem) { return listed_.contains(stem) || dish_.contains(stem); });
    const bool kind_beside =
        words.is(last, {"syrup", "sugar",  "juice",  "stock",   "broth",  "puree",  "peel",
                        "bread", "cheese", "pasta",  "noodles", "meat",   "leaves", "seeds",
                        "beans", "flesh",  "wedges", "slices",  "pieces", "fillets"});
    const bool all_parts =
        std::all_of(words.stems.begin() + static_cast<std::ptrdiff_t>(food.begin),
                    words.stems.begin() + static_cast<std::ptrdiff_t>(last),
                    [&](const auto& stem) { return stem == "-" || listed_.contains(stem); });
    if (name == "white sugar" && has_kind(FoodKind::Sugar)) return false;
    return !(of_listed && (all_parts || !measured(s, food)) &&
             (is_made_on_the_way(words.word(last)) || kind_beside));
  }

  // Every word of it stands in one line: "the lemon zest" of "zest of 1 lemon". Each text is looked up once.
  bool stands_in_a_line(const StepWords& words, const StepFood& food) const {
    std::vector<std::string> telling;
    std::string key;
    for (auto at = food.begin; at < food.end; ++at)
      if (words.tokens[at].kind == TokenKind::Word && !is_descriptor(words.word(at))) {
        telling.push_back(words.stems[at]);
        key += telling.back() + ' ';
      }
    const auto [known, is_new] = in_a_line_.try_emplace(std::move(key), false);
    if (!is_new) return known->second;
    // Only lines that hold the first word can hold all.
    if (telling.empty())
      known->second = !lines_.empty();
    else if (const auto with_first = lines_with_.find(telling.front()); with_first != lines_with_.end())
      known->second =
          std::any_of(with_first->second.begin(), with_first->second.end(), [&](std::size_t line) {
            return std::all_of(telling.begin(), telling.end(),
                               [&](const auto& stem) { return lines_[line].contains(stem); });
          });
    return known->second;
  }

  // "the bacon" for pancetta: found to be a line under another name.
  bool stands_for_line(std::size_t s, const StepFood& food) const {
    const auto offset = words_[s].tokens[food.begin].begin;
    return std::any_of(flow_.steps[s].uses.begin(), flow_.steps[s].uses.end(), [&](const FlowUse& use) {
      return use.kind == UseKind::Implied && use.offset == offset;
    });
  }

  // The dish itself, a part of it, or what came of the ingredients.
  bool is_made_here(std::size_t s, const StepWords& words, const StepFood& food, bool served) const {
    const auto last = food.end - 1;
    const auto& head = words.stems[last];
    if (food.end - food.begin > 1 && is_part_of_dish(words, food)) return true;
    const auto* row = find_food(words.text(food.begin, food.end));
    const auto kind = row != nullptr ? row->kind : FoodKind::Snack;
    const bool one_word = food.end - food.begin == 1;
    const bool words_listed = std::any_of(words.stems.begin() + static_cast<std::ptrdiff_t>(food.begin),
                                          words.stems.begin() + static_cast<std::ptrdiff_t>(last),
                                          [&](const auto& stem) { return listed_.contains(stem); });
    if (one_word && !served && is_made_on_the_way(words.word(last))) return true;
    using enum FoodKind;
    switch (kind) {
      case Bread:
      case Pastry:
      case Snack:
        return has_kind(Flour) || has_kind(Bread) || has_kind(Pastry) || dish_.contains(head) ||
               listed_.contains(name_stem("loaf")) || listed_.contains(name_stem("loaves"));
      case Pasta:
        return has_kind(Pasta) || has_kind(Flour) || dish_.contains(head);
      // "the lime juice" takes a lime, "the juice" anything that has some.
      case Juice:
        return one_word ? has_kind(Fruit) || has_kind(Citrus) || has_kind(Berry) || has_kind(Vegetable) ||
                              has_kind(Tinned) || has_kind(Meat)
                        : words_listed;
      case Zest:
        return one_word ? has_kind(Citrus) : words_listed;
      // A broth comes of the meat; stock that is poured in does not, but "a ladle of the stock" does.
      case Stock:
        return has_kind(Stock) || has_bones_ ||
               (one_word && food.begin > 0 && words.is(food.begin - 1, {"of"})) ||
               (words.is(last, {"broth"}) && (has_kind(Meat) || has_kind(Poultry) || has_kind(Pulse)));
      case Fat:
        return words.is(last, {"fat", "dripping", "drippings", "grease"}) &&
               (has_kind(Meat) || has_kind(Poultry) || has_kind(Fat) || has_kind(Oil));
      case Oil:
        return one_word && (has_kind(Oil) || has_kind(Fat));
      case Egg:
        return has_kind(Egg);
      case Cheese:
        return one_word && (has_kind(Cheese) || dish_.contains(head));
      case Syrup:
        return one_word && has_kind(Sugar);
      case Sauce:
      case Spread:
      case Drink:
      case Pickle:
        return dish_.contains(head);
      default:
        break;
    }
    return s > 0 && mentioned_as_made(s, head);
  }

  // "pour over the coconut cream", where the lines stand "For the coconut cream:"; "the white sauce" of flour
  // and milk.
  bool is_part_of_dish(const StepWords& words, const StepFood& food) const {
    const auto name = stem(fold_accents(words.text(food.begin, food.end)));
    if (parts_.contains(name)) return true;
    const bool the = food.begin > 0 && words.is(food.begin - 1, {"the"});
    return the && words.is(food.begin, {"white"}) && words.is(food.end - 1, {"sauce"}) &&
           has_kind(FoodKind::Flour);
  }

  // An earlier step made it: "make a paste", "for the caramel".
  bool mentioned_as_made(std::size_t s, const std::string& head) const {
    const auto made = made_in_.find(head);
    return made != made_in_.end() && made->second < s;
  }

  void find_made() {
    for (std::size_t s = 0; s < words_.size(); ++s)
      for (std::size_t at = 2; at < words_[s].size(); ++at)
        if (words_[s].is(at - 1, {"a", "the"}) &&
            words_[s].is(at - 2, {"make", "into", "to", "form", "for", "makes"}))
          made_in_.try_emplace(words_[s].stems[at], s);
  }

  // "the size of a walnut", "like wet sand and honey", "oil-like", "a pea-sized", "without butter".
  static bool is_spoken_of(const StepWords& words, const StepFood& food) {
    const auto first = words.sentence_begin(food.begin);
    for (auto at = food.begin; at > first && food.begin - at < 5; --at)
      if (words.is(at - 1, {"like",   "as",       "size",      "without",    "no",          "not",
                            "than",   "resemble", "resembles", "resembling", "consistency", "instead",
                            "colour", "color",    "texture",   "until",      "never",       "called",
                            "avoid",  "from",     "looks",     "thickness"}) &&
          !(words.is(at - 1, {"from", "until"}) && food.begin + 1 - at > 2))
        return true;
    // "simmer to a smooth white sauce", "blend into a paste"
    if (is_made_on_the_way(words.word(food.end - 1)))
      for (auto at = food.begin; at > first + 1 && food.begin - at < 3; --at)
        if (words.is(at - 1, {"a", "an"}) && words.is(at - 2, {"to", "into", "as", "makes", "make", "form"}))
          return true;
    // "reserving the stock", "strain the broth"
    for (auto at = food.begin; at > first && food.begin - at < 3; --at)
      if (words.is(at - 1,
                   {"reserve", "reserving", "reserved", "strain", "skim", "keep", "keeping", "ladle"}))
        return true;
    // "to form cinnamon sugar"; "the oil from the tin"
    if (food.begin > 0 && words.is(food.begin - 1, {"form", "become", "becomes", "make", "makes"}))
      return true;
    return words.is(food.end, {"from",   "-",       "sized",  "like",   "coloured", "colored", "consistency",
                               "size",   "flavour", "flavor", "style",  "shape",    "color",   "colour",
                               "baller", "scooper", "scoop",  "spoons", "spoonful", "shaped"}) ||
           (food.begin > 0 && words.is(food.begin - 1, {"-"}) && !words.tokens[food.begin - 1].space_before);
  }

  // "egg timer" is known to the table; "cheese grater", "rice cooker", "a tea towel" are things.
  static bool is_thing(const StepWords& words, const StepFood& food) {
    if (food.perhaps_verb) return false;
    if (food.match == NameMatch::None && !food.other_food) return true;
    if (words.is(
            food.end,
            {"towel",  "cup",     "glass",    "dish",  "tin",         "tray",   "pan",    "pot",    "bowl",
             "spoon",  "knife",   "grater",   "press", "mill",        "cooker", "maker",  "cloth",  "brush",
             "cutter", "cutters", "sheet",    "paper", "thermometer", "mould",  "moulds", "mold",   "bath",
             "juices", "case",    "cases",    "stone", "slicer",      "bag",    "plate",  "baller", "scooper",
             "scoop",  "spoons",  "spoonful", "rack",  "bags",        "tins",   "board",  "pick"}))
      return true;
    // "to rice the potatoes", "season", "peel": an order.
    const auto verb = words.actions[food.begin];
    const bool order = food.end - food.begin == 1 && verb.kind != ActionKind::None &&
                       (food.begin == words.clause_begin(food.begin) || words.is(food.begin - 1, {"to"}));
    return order;
  }

  // "Serve with rice", "good on toast".
  static bool is_serving_idea(const StepWords& words, const StepFood& food) {
    // "Serve with the rice": the one that must be listed.
    if (food.begin > 0 && words.is(food.begin - 1, {"the"})) return false;
    const auto first = words.sentence_begin(food.begin);
    bool with = false;
    for (auto at = food.begin; at-- > first;) {
      if (words.is(at, {"sprinkle", "sprinkled", "scatter", "scattered", "drizzle", "drizzled", "add",
                        "topped", "garnish", "garnished", "stir", "pour", "dollop", "squeeze"}))
        return false;
      // "spoon it over injera"
      if (words.is(at, {"spoon", "ladle"}) && at + 3 == food.begin && words.is(at + 1, {"it", "them"}))
        return words.is(at + 2, {"over", "onto", "on"});
      with = with || words.is(at, {"with", "on", "over", "alongside", "in", "beside", "and", "or", "to",
                                   "for", "of"});
      if (words.is(at, {"serve", "serves", "served", "serving", "have", "enjoy", "eat", "great", "delicious",
                        "accompany", "accompanied", "accompaniment", "good", "goes", "pair", "dip", "dipping",
                        "lovely", "perfect"}))
        return with || at + 1 == food.begin || words.is(at, {"dip", "dipping"});
    }
    return false;
  }

  // "if you like, add …", "or use …", "you can", "optional".
  static bool is_choice(const StepWords& words, const StepFood& food) {
    for (auto at = words.sentence_begin(food.begin); at < words.sentence_end(food.begin); ++at)
      if (words.is(at, {"optional", "optionally", "anything", "whatever", "variations"}) ||
          (words.is(at, {"if"}) && words.is(at + 1, {"you", "desired", "liked", "your"})))
        return true;
    constexpr std::size_t kNear = 8;  // words: the choice may be another's of a long sentence
    const auto first =
        std::max(words.sentence_begin(food.begin), food.begin > kNear ? food.begin - kNear : 0);
    const auto end = std::min(words.sentence_end(food.begin), food.end + kNear);
    for (auto at = first; at < end; ++at) {
      if (words.is(at, {"optional",   "optionally", "alternatively", "preferably", "works",  "variation",
                        "variations", "whatever",   "desire",        "favourite",  "recipe", "substitute",
                        "replace",    "swap",       "could",         "prefer",     "might",  "may",
                        "favourite",  "favorite",   "leftover"}))
        return true;
      if (words.is(at, {"can"}) && at > 0 && words.is(at - 1, {"you", "also", "i"})) return true;
      if (words.is(at, {"if"}) && at + 1 < end &&
          words.is(at + 1, {"you", "using", "desired", "liked", "wanted", "wished", "needed", "necessary",
                            "it", "serving", "making", "the", "there", "they", "too"}))
        return true;
      if (words.is(at, {"e", "eg", "such"})) return true;
    }
    // "butter or oil": either of them, where the other is listed or not.
    if (food.begin > first && words.is(food.begin - 1, {"or", "/"})) return true;
    return words.is(food.end, {"or", "/"});
  }

  const Recipe& recipe_;
  const std::vector<StepWords>& words_;
  Flow& flow_;
  FoodKinds kinds_;
  Words listed_, dish_;
  Words listed_ends_;  // the last words of the listed foods
  Words parts_;        // what the lines are grouped for: "coconut cream"
  std::set<std::string> told_, mentioned_;
  std::vector<Words> lines_;
  std::unordered_map<std::string, std::vector<std::size_t>> lines_with_;  // by word
  mutable std::unordered_map<std::string, bool> in_a_line_;
  std::unordered_map<std::string, std::size_t> made_in_;  // the first step that makes it
  bool has_bones_ = false;                                // stock comes of them
};

}  // namespace

bool is_made_on_the_way(std::string_view folded_word) {
  static const std::unordered_set<std::string_view> kMade{
      "whey",      "curds",     "dough",    "pastry",   "batter",      "mixture",   "mix",     "filling",
      "sauce",     "dressing",  "marinade", "glaze",    "icing",       "frosting",  "crumb",   "crumbs",
      "topping",   "paste",     "puree",    "mash",     "soup",        "stew",      "curry",   "salad",
      "gravy",     "roux",      "caramel",  "meringue", "meringues",   "compote",   "ganache", "dip",
      "rub",       "brine",     "stuffing", "crust",    "base",        "juices",    "liquid",  "liquor",
      "fat",       "sponge",    "cake",     "cakes",    "loaf",        "loaves",    "roll",    "rolls",
      "bun",       "buns",      "pancake",  "pancakes", "pie",         "tart",      "patties", "balls",
      "meatballs", "dumplings", "spread",   "relish",   "chutney",     "salsa",     "jelly",   "curd",
      "fondant",   "streusel",  "crumble",  "scones",   "muffins",     "burgers",   "burger",  "wraps",
      "tortillas", "pizza",     "pickle",   "pickles",  "vinaigrette", "seasoning", "coating", "breading",
      "slaw",      "drink",     "meat",     "fish",     "vegetables",  "veg",       "veggies", "greens",
      "herbs",     "spices",    "fruit",    "nuts",     "seeds",       "toast",     "fries",   "granola",
      "porridge",  "mousse",    "peel",     "skin",     "skins",       "gluten",    "starch",  "sandwich",
      "sandwiches"};
  return kMade.contains(folded_word);
}

void find_unlisted_foods(const MethodView& method, Flow& flow) {
  UnlistedFinder(method, flow).run();
}

}  // namespace panslate
