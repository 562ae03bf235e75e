#include "recipe/ingredient_words.h"

#include <algorithm>
#include <array>
#include <unordered_set>

#include "panslate/kitchen/food.h"

#include "recipe/word_list.h"

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
    // "evap. milk": the full stop stays with the word as it is written.
    if (close_mark && token.text == "." && is_shortened(out.back().folded) && i + 1 < end) {
      out.back().raw += token.raw;
      out.back().end = i + 1;
      joined = false;
      continue;
    }
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
  static const Words sizes = {"small", "large",    "medium",   "big",     "jumbo",    "huge",   "tiny",
                              "plump", "generous", "smallish", "largish", "sizeable", "decent", "lrg",
                              "med",   "mid-size", "sm",       "lge",     "smaller",  "larger", "lg"};
  if (ends_with(word, "-sized") || ends_with(word, "-size")) return true;
  if (word == "good")
    return is_one_of(next,
                     {"glug", "pinch", "handful", "splash", "drizzle", "squeeze", "grinding", "knob", "few"});
  if (word == "thick" || word == "thin") return is_one_of(next, {"slice", "slices", "rasher", "rashers"});
  if (word == "sized") return true;
  if (word == "fat")
    return is_one_of(next, {"garlic", "clove", "cloves", "chilli", "chillies", "chili", "leek", "leeks"});
  if (word == "very") return is_one_of(next, {"thin", "thick", "thinly", "large", "small"});
  if (word == "thinly" || word == "thickly") return next == "cut";
  if (word == "cut") return is_one_of(next, {"slice", "slices"});
  if (word == "extra") return next == "large" || next == "small";
  if (word == "medium")
    return !is_one_of(next, {"curry",  "hot",   "sherry",   "dry",     "cheddar", "soft",  "grain", "fat",
                             "rare",   "roast", "salsa",    "oatmeal", "matzo",   "spicy", "sweet", "grind",
                             "ground", "heat",  "strength", "chilli",  "chili",   "white", "brown"});
  return in(sizes, word);
}

bool is_size_before_quality(std::string_view word, std::string_view next, bool counts_things) {
  return counts_things && word == "medium" &&
         is_one_of(next, {"sweet", "white", "brown", "soft", "hot", "spicy"});
}

bool is_counted_thing(std::string_view word) {
  static const Words things = {"potato",    "potatoes", "onion",    "onions",  "egg",
                               "eggs",      "cabbage",  "cabbages", "pepper",  "peppers",
                               "radish",    "radishes", "turnip",   "turnips", "mushroom",
                               "mushrooms", "carrot",   "carrots",  "chilli",  "chillies"};
  return in(things, word);
}

bool is_shortened(std::string_view word) {
  static const Words words = {
      "evap",   "cond", "choc", "veg",   "parm", "worc",  "worcs", "pwd",  "powd",    "pdr",    "bkg",
      "gran",   "conf", "mayo", "frz",   "froz", "crm",   "marg",  "van",  "sug",     "swt",    "dk",
      "lt",     "brn",  "bn",   "wh",    "cinn", "pkd",   "chix",  "tom",  "toms",    "approx", "ital",
      "bicarb", "mozz", "ched", "grnd",  "hvy",  "whp",   "ckd",   "unsw", "unsalt",  "chop",   "pineap",
      "st",     "dr",   "mrs",  "mr",    "vit",  "desic", "semi",  "xtra", "refrig",  "min",    "sm",
      "lg",     "med",  "lge",  "lrg",   "bl",   "blk",   "gr",    "pref", "butterm", "gelat",  "sw",
      "strawb", "rasp", "cran", "sprkl", "flav", "flavd"};
  return in(words, word);
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
      "broken",       "strained", "whisked",   "used",      "mixed"};
  if (word == "crushed")
    return !is_one_of(next, {"tomatoes", "tomato", "pineapple", "red", "chilli", "chillies", "chile", "chili",
                             "chilies", "ice"});
  if (word == "minced") return !in(meats(), next);
  if (word == "shredded") return !is_one_of(next, {"coconut", "wheat", "suet"});
  if (word == "toasted") return next != "sesame" && next != "oil";
  if (word == "flaked") return !is_one_of(next, {"almonds", "almond", "salt", "sea", "rice"});
  if (word == "cracked") return !is_one_of(next, {"wheat"});
  if (word == "mashed") return !is_one_of(next, {"potato", "potatoes"});
  if (word == "strained") return !is_one_of(next, {"yogurt", "yoghurt", "tomatoes"});
  if (word == "pressed")
    return !is_one_of(next, {"rapeseed", "olive", "sunflower", "oil", "coconut", "juice"});
  if (word == "mixed") return next == "with" || next == "into";
  if (word == "broken") return !is_one_of(next, {"rice"});
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
    return !is_one_of(next,
                      {"water", "milk", "coffee", "smoked", "pressed", "cuts", "brew", "brewed", "tea"});
  if (word == "hot")
    return is_one_of(
        next, {"vegetable", "chicken", "beef", "fish", "stock", "broth", "veg", "lamb", "bone", "cooked"});
  if (word == "warm") return is_one_of(next, {"cooked", "vegetable", "chicken", "stock", "broth"});
  if (word == "high") return next == "quality";
  if (word == "free" || word == "best" || word == "good") return next == "range" || next == "quality";
  if (word == "range") return is_one_of(next, {"egg", "eggs", "chicken"});
  return in(words, word);
}

bool is_praise(std::string_view word) {
  return is_one_of(word, {"free-range", "organic", "good-quality", "best-quality", "high-quality", "quality",
                          "freerange", "good", "best", "high", "free", "range", "nice", "unwaxed"});
}

bool is_vessel(std::string_view word) {
  static const Words words = {
      "glass",     "glasses",    "bottle",  "bottles", "tub",      "tubs",     "carton",   "cartons",
      "box",       "mug",        "tube",    "strip",   "strips",   "strand",   "strands",  "bowl",
      "pot",       "container",  "spoon",   "spoons",  "branch",   "branches", "twig",     "twigs",
      "stem",      "stems",      "pod",     "pods",    "ear",      "ears",     "chunk",    "chunks",
      "lump",      "lumps",      "wedge",   "wedges",  "hunk",     "grind",    "grinds",   "grinding",
      "grindings", "turns",      "dollop",  "dollops", "scoop",    "scoops",   "ladle",    "ladles",
      "sprinkle",  "sprinkling", "dusting", "grating", "gratings", "portion",  "portions", "amount",
      "bit",       "twist",      "twists",  "spray",   "sprays",   "pats",     "pat",      "log",
      "wheel",     "round",      "rounds",  "punnet",  "punnets",  "loaf"};
  return in(words, word) || is_bare_vessel(word);
}

bool is_bare_vessel(std::string_view word) {
  return is_one_of(
      word, {"piece", "pieces", "shot", "shots", "nest", "nests", "quantity", "recipe", "batch", "batches",
             "cube", "cubes", "thumb", "knuckle", "spoonful", "spoonfuls", "jigger", "punnet"});
}

std::size_t food_words_at_start(const std::vector<std::string>& folded_words) {
  // The article makes ordinary words ("cream", "salt") believed as foods.
  std::vector<std::string> words{"some"};
  words.insert(words.end(), folded_words.begin(), folded_words.end());
  if (const auto length = food_name_length(words, 1); length > 0) return length;
  if (words.size() < 3 || !is_adjective_only(words[1])) return 0;
  words.erase(words.begin() + 1);
  const auto length = food_name_length(words, 1);
  return length > 0 ? length + 1 : 0;
}

bool is_manner_word(std::string_view word) {
  static const Words words = {"finely",  "roughly", "coarsely", "freshly",  "very",       "thinly",
                              "thickly", "lightly", "well",     "newly",    "loosely",    "tightly",
                              "firmly",  "fairly",  "neatly",   "gently",   "diagonally", "really",
                              "evenly",  "nicely",  "fully",    "partially"};
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
  if (is("sachet", "sachets")) return Unit::Packet;
  if (is("slice", "slices")) return Unit::Slice;
  if (is("fillet", "fillets") && food != "anchovy") return Unit::Fillet;
  if (is("head", "heads")) return Unit::Head;
  if (is("bunch", "bunches")) return Unit::Bunch;
  if (is("sheet", "sheets") && food != "lasagne" && food != "lasagna") return Unit::Sheet;
  if (is("ball", "balls") && food == "mozzarella") return Unit::Ball;
  if (is("leaf", "leaves") &&
      is_one_of(food, {"basil", "mint", "sage", "coriander", "parsley", "cabbage", "lettuce", "oregano",
                       "tarragon", "gelatine", "gelatin", "kale", "lovage", "shiso"}))
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
      "smooth",      "spicy",        "natural",      "thick",      "thin",       "baby",      "dry"};
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
  if (head == "sauce" || head == "sauces")
    return is_one_of(first, {"soy", "fish", "oyster", "hoisin", "teriyaki", "chilli", "chili", "tomato",
                             "barbecue", "bbq", "hot", "worcestershire"});
  if (head == "seasoning" || head == "masala" || head == "mustard" || head == "mix")
    return is_one_of(
        first, {"cajun", "creole", "italian", "taco", "dijon", "english", "wholegrain", "garam", "curry"});
  if (head == "flour" || head == "bread") return in(flours, first);
  if (head == "seeds" || head == "seed") return in(seeds, first);
  if (head == "vinegar") return in(vinegars, first);
  if (head == "milk" || head == "yogurt" || head == "yoghurt") return in(milks, first);
  if (head == "mince") return in(meats(), first);
  if (head == "powder")
    return is_one_of(first, {"garlic", "onion", "chilli", "chili", "curry", "cumin", "coriander", "cocoa"});
  return false;
}

}  // namespace panslate
