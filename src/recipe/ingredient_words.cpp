#include "recipe/ingredient_words.h"

#include <algorithm>
#include <array>
#include <unordered_set>

namespace panslate {

namespace {

// Word lists: common practice, no source.
using Words = std::unordered_set<std::string_view>;

bool in(const Words& words, std::string_view word) {
  return words.find(word) != words.end();
}

bool ends_with(std::string_view word, std::string_view end) {
  return word.size() > end.size() && word.substr(word.size() - end.size()) == end;
}

const Words& meats() {
  static const Words words = {"beef",    "pork", "lamb",  "meat",   "turkey",
                              "chicken", "veal", "steak", "mutton", "lean"};
  return words;
}

}  // namespace

std::vector<LineWord> line_words(const std::vector<Token>& tokens, std::size_t begin, std::size_t end) {
  std::vector<LineWord> out;
  bool joined = false;  // a hyphen set close stands before this token
  for (auto i = begin; i < end; ++i) {
    const auto& token = tokens[i];
    const bool close = !token.space_before && i > begin;
    const bool close_mark = token.kind == TokenKind::Mark && close && !out.empty() && out.back().end == i;
    const bool hyphen = close_mark && token.text == "-" && i + 1 < end && !tokens[i + 1].space_before;
    if (hyphen || (close_mark && token.text == "%")) {
      out.back().folded += token.text;
      out.back().raw += token.raw;
      out.back().end = i + 1;
      joined = hyphen;
      continue;
    }
    const bool glued =
        close && token.kind != TokenKind::Mark && !out.empty() && out.back().end == i &&
        (joined || (tokens[i - 1].kind == TokenKind::Number && token.kind == TokenKind::Word) ||
         (tokens[i - 1].kind == TokenKind::Word && token.kind == TokenKind::Number));
    joined = false;
    if (glued) {
      out.back().folded += token.text;
      out.back().raw += token.raw;
      out.back().end = i + 1;
    } else {
      out.push_back({token.text, token.raw, i, i + 1});
    }
  }
  return out;
}

std::string join_words(const std::vector<LineWord>& words, std::size_t begin, std::size_t end) {
  std::string out;
  for (auto i = begin; i < end; ++i) {
    if (!out.empty() && words[i].raw != ",") out += ' ';
    out += words[i].raw;
  }
  return out;
}

bool is_size_word(std::string_view word, std::string_view next) {
  static const Words sizes = {"small", "large", "medium",   "big",      "jumbo",   "huge",     "tiny",
                              "fat",   "plump", "generous", "smallish", "largish", "sizeable", "decent",
                              "lrg",   "med",   "mid-size", "sm",       "lge",     "smaller",  "larger"};
  if (ends_with(word, "-sized") || ends_with(word, "-size")) return true;
  if (word == "good")
    return in({"glug", "pinch", "handful", "splash", "drizzle", "squeeze", "grinding", "knob", "few"}, next);
  if (word == "thick" || word == "thin") return in({"slice", "slices", "rasher", "rashers"}, next);
  if (word == "extra") return next == "large" || next == "small";
  if (word == "medium")
    return !in({"curry",  "hot",   "sherry",   "dry",     "cheddar", "soft",  "grain", "fat",
                "rare",   "roast", "salsa",    "oatmeal", "matzo",   "spicy", "sweet", "grind",
                "ground", "heat",  "strength", "chilli",  "chili",   "white", "brown"},
               next);
  return in(sizes, word);
}

bool is_preparation_word(std::string_view word, std::string_view next) {
  static const Words words = {
      "chopped",      "diced",    "sliced",    "grated",    "melted",   "softened",   "beaten",
      "peeled",       "cubed",    "halved",    "quartered", "sifted",   "packed",     "mashed",
      "drained",      "rinsed",   "washed",    "trimmed",   "pitted",   "stoned",     "deseeded",
      "seeded",       "torn",     "crumbled",  "julienned", "squeezed", "boned",      "cooled",
      "warmed",       "thawed",   "defrosted", "juiced",    "zested",   "hulled",     "scrubbed",
      "cored",        "topped",   "picked",    "pressed",   "bruised",  "shaved",     "deveined",
      "shucked",      "slivered", "snipped",   "separated", "divided",  "undrained",  "unpeeled",
      "chilled",      "heaping",  "pureed",    "bashed",    "pounded",  "spiralized", "spiralised",
      "matchsticked", "cut",      "ripped",    "crushed",   "minced",   "shredded",   "toasted",
      "cracked",      "destoned", "stemmed",   "de-seeded", "cleaned",  "debearded",  "flaked",
      "broken",       "strained"};
  if (word == "crushed")
    return !in(
        {"tomatoes", "tomato", "pineapple", "red", "chilli", "chillies", "chile", "chili", "chilies", "ice"},
        next);
  if (word == "minced") return !in(meats(), next);
  if (word == "shredded") return !in({"coconut", "wheat", "suet"}, next);
  if (word == "toasted") return next != "sesame" && next != "oil";
  if (word == "flaked") return !in({"almonds", "almond", "salt", "sea", "rice"}, next);
  if (word == "cracked") return !in({"wheat"}, next);
  if (word == "mashed") return !in({"potato", "potatoes"}, next);
  if (word == "strained") return !in({"yogurt", "yoghurt", "tomatoes"}, next);
  if (word == "pressed") return !in({"rapeseed", "olive", "sunflower", "oil", "coconut", "juice"}, next);
  if (word == "broken") return !in({"rice"}, next);
  return in(words, word);
}

bool is_quality_word(std::string_view word, std::string_view next) {
  static const Words words = {"ripe",         "free-range",       "organic",   "good-quality", "best-quality",
                              "high-quality", "quality",          "boneless",  "skinless",     "bone-in",
                              "skin-on",      "unwaxed",          "overripe",  "over-ripe",    "store-bought",
                              "shop-bought",  "homemade",         "home-made", "leftover",     "ready-made",
                              "unpeeled",     "bought",           "freerange", "skin-off",     "boned",
                              "ready-rolled", "room-temperature", "underripe", "bite-size",    "nice",
                              "loosely",      "tightly",          "firmly",    "lightly",      "day-old"};
  if (word == "cold")
    return !in({"water", "milk", "coffee", "smoked", "pressed", "cuts", "brew", "brewed", "tea"}, next);
  if (word == "hot")
    return in({"vegetable", "chicken", "beef", "fish", "stock", "broth", "veg", "lamb", "bone", "cooked"},
              next);
  if (word == "warm") return in({"cooked", "vegetable", "chicken", "stock", "broth"}, next);
  if (word == "free" || word == "best" || word == "good") return next == "range" || next == "quality";
  if (word == "range") return in({"egg", "eggs", "chicken"}, next);
  return in(words, word);
}

bool is_praise(std::string_view word) {
  return in({"free-range", "organic", "good-quality", "best-quality", "high-quality", "quality", "freerange",
             "good", "best", "free", "range", "nice", "unwaxed"},
            word);
}

bool is_manner_word(std::string_view word) {
  static const Words words = {"finely",  "roughly", "coarsely", "freshly", "very",    "thinly",
                              "thickly", "lightly", "well",     "newly",   "loosely", "tightly",
                              "firmly",  "fairly",  "neatly",   "gently",  "coarse",  "diagonally",
                              "fine",    "really",  "evenly",   "nicely",  "fully",   "partially"};
  return in(words, word);
}

std::optional<Unit> trailing_unit(std::string_view word, std::string_view food) {
  const auto is = [&](std::string_view one, std::string_view many) { return word == one || word == many; };
  if (is("clove", "cloves") && food == "garlic") return Unit::Clove;
  if (is("stick", "sticks") && food == "celery") return Unit::Stick;
  if (is("stalk", "stalks") || (is("rib", "ribs") && food == "celery")) return Unit::Stalk;
  if (is("stick", "sticks") && (food == "rhubarb" || food == "lemongrass" || food == "butter"))
    return Unit::Stick;
  if (is("sprig", "sprigs")) return Unit::Sprig;
  if (is("rasher", "rashers")) return Unit::Rasher;
  if (is("slice", "slices")) return Unit::Slice;
  if (is("fillet", "fillets") && food != "anchovy") return Unit::Fillet;
  if (is("head", "heads")) return Unit::Head;
  if (is("bunch", "bunches")) return Unit::Bunch;
  if (is("sheet", "sheets") && food != "lasagne" && food != "lasagna") return Unit::Sheet;
  if (is("ball", "balls") && food == "mozzarella") return Unit::Ball;
  if (is("leaf", "leaves") && in({"basil", "mint", "sage", "coriander", "parsley", "cabbage", "lettuce",
                                  "oregano", "tarragon", "gelatine", "gelatin", "kale", "lovage", "shiso"},
                                 food))
    return Unit::Leaf;
  return std::nullopt;
}

bool is_adjective_only(std::string_view word) {
  static const Words words = {
      "red",         "yellow",       "green",        "orange",     "white",      "brown",     "black",
      "purple",      "dark",         "light",        "plain",      "strong",     "wholemeal", "fresh",
      "dried",       "frozen",       "sweet",        "smoked",     "hot",        "mild",      "salted",
      "unsalted",    "raw",          "cooked",       "soft",       "hard",       "whole",     "semi-skimmed",
      "skimmed",     "tinned",       "canned",       "granulated", "caster",     "golden",    "milk",
      "regular",     "low-sodium",   "full-fat",     "low-fat",    "boneless",   "skinless",  "bone-in",
      "skin-on",     "large",        "small",        "pink",       "blue",       "wild",      "flat-leaf",
      "curly",       "self-raising", "all-purpose",  "double",     "single",     "instant",   "active",
      "short-grain", "long-grain",   "medium-grain", "ground",     "white-wine", "red-wine",  "crunchy",
      "smooth",      "spicy",        "natural",      "thick",      "thin",       "baby"};
  return in(words, word);
}

bool shares_head(std::string_view first, std::string_view head) {
  static const Words stocks = {"chicken", "vegetable", "beef", "fish",   "veg", "lamb",
                               "veal",    "mushroom",  "bone", "turkey", "ham"};
  static const Words oils = {"sunflower", "vegetable", "olive",   "rapeseed",  "canola", "groundnut",
                             "peanut",    "avocado",   "coconut", "sesame",    "corn",   "rice-bran",
                             "grapeseed", "walnut",    "mustard", "safflower", "neutral"};
  static const Words juices = {"lemon", "lime", "orange", "apple", "grapefruit", "tomato", "pineapple"};
  static const Words flours = {"wheat",     "rye",  "spelt", "rice",  "almond",  "oat",
                               "buckwheat", "corn", "bread", "plain", "chickpea"};
  static const Words seeds = {"cumin",  "coriander", "fennel",    "mustard", "caraway",
                              "sesame", "poppy",     "sunflower", "pumpkin", "nigella",
                              "chia",   "flax",      "celery",    "cardamom"};
  static const Words vinegars = {"cider",  "wine",       "rice",     "malt", "balsamic",
                                 "sherry", "white-wine", "red-wine", "apple"};
  static const Words milks = {"oat",     "soy",    "soya",  "almond", "rice",
                              "coconut", "cashew", "dairy", "cow's",  "goat's"};
  if (is_adjective_only(first)) return true;
  if (head == "stock" || head == "broth" || head == "stocks" || head == "bouillon") return in(stocks, first);
  if (head == "oil") return in(oils, first);
  if (head == "juice" || head == "zest") return in(juices, first);
  if (head == "flour" || head == "bread") return in(flours, first);
  if (head == "seeds" || head == "seed") return in(seeds, first);
  if (head == "vinegar") return in(vinegars, first);
  if (head == "milk" || head == "yogurt" || head == "yoghurt") return in(milks, first);
  if (head == "mince") return in(meats(), first);
  if (head == "powder")
    return in({"garlic", "onion", "chilli", "chili", "curry", "cumin", "coriander", "cocoa"}, first);
  return false;
}

}  // namespace panslate
