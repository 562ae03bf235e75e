#include <algorithm>
#include <optional>
#include <span>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"
#include "panslate/recipe/recipe.h"

#include "recipe/actions.h"
#include "recipe/cues.h"
#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

using Tokens = std::vector<Token>;

// Characters before a byte offset, asked from left to right.
class ColumnCounter {
 public:
  explicit ColumnCounter(std::string_view text) : text_(text) {}
  int column(std::size_t offset) {
    if (offset < at_) at_ = 0, column_ = 1;
    while (at_ < offset) {
      at_ = code_point_at(text_, at_).next;
      ++column_;
    }
    return column_;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  int column_ = 1;
};

class MethodReader {
 public:
  explicit MethodReader(Step& step) : step_(step), tokens_(tokenize(step.text)), columns_(step.text) {}

  void read() {
    for (const auto& scanned : scan_amounts(tokens_, SpokenOrWritten::Written)) {
      if (scanned.begin < last_end_) continue;
      last_end_ = scanned.end;
      switch (dimension_of(scanned.amount.unit)) {
        case Dimension::Time:
          time(scanned);
          break;
        case Dimension::Temperature:
          temperature(scanned);
          break;
        case Dimension::Length:
        case Dimension::Yield:
          break;
        default:
          if (goes_on_counting(scanned)) {
            auto counted = scanned;
            counted.amount.unit = step_.times.back().amount.unit;
            time(counted);
            break;
          }
          food_amount(scanned);
      }
    }
    read_cues(tokens_, step_.text, step_.cues);
  }

 private:
  std::string_view word(std::size_t at) const {
    return at < tokens_.size() ? std::string_view(tokens_[at].text) : std::string_view{};
  }

  std::string written(std::size_t from, std::size_t to) const {
    return step_.text.substr(tokens_[from].begin, tokens_[to - 1].end - tokens_[from].begin);
  }

  bool ends_sentence(std::size_t at) const {
    return tokens_[at].kind == TokenKind::Mark && is_one_of(word(at), {".", "!", "?", ";"});
  }

  struct Found {
    std::string_view verb;
    std::size_t at = 0;
  };

  // The verb of the sentence that governs what stands at `at`: the nearest before it that is said as an
  // order; what is done besides ("stirring often") only where nothing else is; words of a cue ("until
  // browned") never.
  std::string action_before(std::size_t at) const {
    constexpr std::size_t kFarthest = 60;
    std::optional<Found> besides;
    for (std::size_t back = 0; back < at && back < kFarthest; ++back) {
      const auto i = at - 1 - back;
      if (ends_sentence(i)) break;
      const auto action = action_of(word(i));
      if (action.kind == ActionKind::None || inside_cue(i, at) || is_noun_here(i)) continue;
      const bool participle = action.is_past && !(i > 0 && is_one_of(word(i - 1), {"be", "been"}));
      if (participle) continue;
      if (action.kind == ActionKind::Attend || (action.is_ing && !governing_ing(i))) {
        if (!besides) besides = Found{action.verb, i};
        continue;
      }
      return governing(action, i);
    }
    return besides ? std::string(besides->verb) : std::string{};
  }

  // "leave to rest", "let it stand", "set aside", "bring to the boil", "continue cooking", "put in to bake"
  std::string governing(const Action& action, std::size_t at) const {
    if (is_one_of(action.verb, {"leave", "let"}) || (action.verb == "keep" && at + 1 < tokens_.size())) {
      for (auto i = at + 1; i < tokens_.size() && i < at + 8 && !ends_sentence(i); ++i) {
        const auto next = action_of(word(i));
        if (next.kind == ActionKind::Wait || next.kind == ActionKind::Heat)
          if (!next.is_past && !is_one_of(next.verb, {"set", "salt"}) && !is_noun_here(i))
            return std::string(next.verb);
      }
    }
    return std::string(action.verb);
  }

  bool governing_ing(std::size_t at) const {
    return at > 0 && is_one_of(word(at - 1), {"keep", "continue", "start", "begin", "of", "after", "before",
                                              "by", "while", "or", "when"});
  }

  // "until browned" between the verb and the time; the time's own clause ends it.
  bool inside_cue(std::size_t i, std::size_t at) const {
    constexpr std::size_t kCueLength = 24;
    for (std::size_t back = 1; back <= i && back < kCueLength; ++back) {
      const auto here = word(i - back);
      if (is_one_of(here, {"until", "till", "til", "once", "when"})) return true;
      if (is_one_of(here, {",", ".", ";", "then"}) || i - back + kCueLength < at) return false;
      // "until soft and stir", but "until set and a skewer put in comes out clean".
      if (here == "and" && action_of(word(i - back + 1)).kind != ActionKind::None) return false;
    }
    return false;
  }

  // "the boil", "a simmer", "the roast", "salt": a noun where an article stands before it.
  bool is_noun_here(std::size_t i) const {
    const auto here = word(i);
    if (is_one_of(here, {"boil", "simmer"}) && i > 0 &&
        is_one_of(word(i - 1), {"the", "a", "rolling", "gentle", "rapid"}))
      return false;
    if (i > 0 && word(i - 1) == "of" && action_of(here).is_ing) return false;
    if (i > 0 && is_one_of(word(i - 1), {"the", "a", "an", "this", "that", "of", "your", "with", "some",
                                         "remaining", "each", "medium", "high", "low"}))
      return true;
    if (here == "place" && i > 0 && is_one_of(word(i - 1), {"warm", "cool", "dark", "dry", "cold", "free"}))
      return true;
    if (action_of(here).is_ing && names_a_thing(word(i + 1))) return true;
    if (is_one_of(here, {"salt", "butter", "oil", "juice", "cream", "roast", "top", "line", "core", "stew",
                         "zest", "spoon", "heat", "pit"})) {
      if (i == 0 || ends_sentence(i - 1)) return false;
      if (!is_one_of(word(i - 1), {",", "and", "then", ":", ")", "to", "or"})) return true;
      // "olive oil and butter to the pot" is no order, "and butter the tin" is one.
      return is_one_of(here, {"salt", "butter", "oil", "juice", "cream", "zest"}) &&
             !is_one_of(word(i + 1), {"the", "a", "an", "your", "both", "each", "it", "them", "well", "two",
                                      "generously", "lightly", "another", "one", "this"});
    }
    return false;
  }

  // "baking soda", "frying pan", "boiling water": what the word before names.
  static bool names_a_thing(std::string_view word) {
    return is_one_of(
        word, {"soda",  "powder",    "sheet",  "sheets", "tray",   "trays", "tin",       "tins",  "dish",
               "paper", "parchment", "beans",  "pan",    "pans",   "bowl",  "board",     "spray", "oil",
               "water", "stock",     "broth",  "syrup",  "cream",  "bag",   "rack",      "spoon", "knife",
               "time",  "point",     "liquid", "juices", "basket", "pot",   "chocolate", "sugar"});
  }

  // After the time, where no verb stands before it: "After 10 minutes, stir in …", "For 20 minutes simmer".
  std::string action_after(std::size_t at) const {
    constexpr std::size_t kFarthest = 12;
    for (auto i = at; i < tokens_.size() && i < at + kFarthest; ++i) {
      if (ends_sentence(i)) break;
      const auto action = action_of(word(i));
      if (action.kind != ActionKind::None && !action.is_past && !is_noun_here(i))
        return std::string(action.verb);
    }
    return {};
  }

  std::string action_at(const ScannedAmount& scanned) const {
    auto action = action_before(scanned.begin);
    return action.empty() ? action_after(scanned.end) : action;
  }

  bool opens_clause(std::size_t at) const {
    while (at > 0 && is_one_of(word(at - 1), {"about", "and", "then", "around"})) --at;
    return at == 0 || tokens_[at - 1].kind == TokenKind::Mark;
  }

  // "Squeeze the juice over", "Drizzle honey": an order, no amount.
  bool verb_that_reads_as_amount(const ScannedAmount& scanned) const {
    return scanned.end == scanned.begin + 1 && tokens_[scanned.begin].kind == TokenKind::Word &&
           dimension_of(scanned.amount.unit) != Dimension::Count &&
           action_of(word(scanned.begin)).kind != ActionKind::None;
  }

  // "an hour or overnight", "2 hours (or up to a day)": one wait, as one likes.
  bool alternative_to_last(const ScannedAmount& scanned) const {
    constexpr std::size_t kBetween = 5;
    if (step_.times.empty() || time_end_ == 0 || scanned.begin > time_end_ + kBetween) return false;
    bool chosen = false;
    for (auto i = time_end_; i < scanned.begin; ++i) {
      if (!is_one_of(word(i), {"or", "and", ",", "(", "up", "to", "even", "better", "preferably", "for",
                               "ideally", "as", "long", "longer", "still", "until"}))
        return false;
      chosen = chosen || is_one_of(word(i), {"or", "preferably", "ideally", "up"});
    }
    return chosen || word(scanned.begin) == "up";
  }

  // "Bake for 20 minutes, turn, and bake for another 10": minutes again.
  bool goes_on_counting(const ScannedAmount& scanned) const {
    if (!scanned.is_more || scanned.has_unit || step_.times.empty()) return false;
    if (scanned.end >= tokens_.size() || tokens_[scanned.end].kind == TokenKind::Mark) return true;
    return is_one_of(word(scanned.end), {"until", "or", "and", "then", "to"});
  }

  bool is_no_duration(const ScannedAmount& scanned) const {
    const auto before = scanned.begin > 0 ? word(scanned.begin - 1) : std::string_view{};
    // "3 minute noodles", "a day-old loaf", "24h before": not what is done here for so long.
    const auto next = word(scanned.end);
    if (is_one_of(next, {"old", "noodles", "egg", "eggs", "rice"})) return true;
    if (next == "-" && is_one_of(word(scanned.end + 1), {"old"})) return true;
    if (is_one_of(before, {"every"}) || is_one_of(next, {"earlier", "ago"})) return true;
    // "A minute before it is done, add …" tells a moment; "rest for 5 minutes before serving" a duration.
    if (next == "before" && (opens_clause(scanned.begin) || is_one_of(before, {"until", "till"})))
      return true;
    if (next == "before" && word(scanned.end + 1) == "the" && word(scanned.end + 2) == "end") return true;
    // "halfway through the 30 minutes": told before.
    if (before == "the" && scanned.begin > 1 &&
        is_one_of(word(scanned.begin - 2), {"through", "into", "during"}))
      return true;
    return !scanned.amount.value && scanned.amount.unit == Unit::Day &&
           !is_one_of(word(scanned.begin), {"overnight"});
  }

  bool follows_after(std::size_t at) const {
    for (auto i = at; i-- > 0 && i + 4 > at;) {
      if (word(i) == "after") return true;
      if (!is_one_of(word(i), {"the", "about", "these", "those", "first", "another", "a", "further"}))
        return false;
    }
    return false;
  }

  void time(const ScannedAmount& scanned) {
    if (is_no_duration(scanned)) return;
    if (alternative_to_last(scanned)) {
      step_.times.back().also.push_back(scanned.amount);
      time_end_ = scanned.end;
      return;
    }
    time_end_ = scanned.end;
    step_.times.push_back({scanned.amount, written(scanned.begin, scanned.end),
                           columns_.column(tokens_[scanned.begin].begin), 0, action_at(scanned)});
    // "After another 10 minutes" goes on; "after 10 minutes" may tell again what was told.
    step_.times.back().after = !scanned.is_more && follows_after(scanned.begin);
    if (step_.times.back().after && step_.times.back().action.empty()) {
      step_.times.pop_back();
      return;
    }
    // "1h 30 or 2 hours", "an hour (or overnight)": times that may each be meant.
    for (const auto& other : scanned.alternates) {
      if (dimension_of(other.unit) != Dimension::Time) continue;
      step_.times.back().also.push_back(other);
    }
  }

  void temperature(const ScannedAmount& scanned) {
    MethodTemperature found;
    found.amount = scanned.amount;
    for (const auto& other : scanned.alternates)
      if (dimension_of(other.unit) == Dimension::Temperature) found.also.push_back(other);
    if (found.amount.fan) {
      const auto plain = std::find_if(found.also.begin(), found.also.end(),
                                      [&](const Amount& a) { return !a.fan && a.unit == found.amount.unit; });
      if (plain != found.also.end()) std::swap(*plain, found.amount);
    }
    found.text = written(scanned.begin, scanned.end);
    found.column = columns_.column(tokens_[scanned.begin].begin);
    found.action = temperature_action(scanned);
    step_.temperatures.push_back(std::move(found));
  }

  std::string temperature_action(const ScannedAmount& scanned) const {
    // "Set the oven to 200C", "Turn the oven up to 220C": the oven is heated.
    for (auto i = scanned.begin; i-- > 0 && !ends_sentence(i) && i + 12 > scanned.begin;)
      if (word(i) == "oven") {
        for (auto j = scanned.begin; j-- > 0 && !ends_sentence(j);) {
          const auto action = action_of(word(j));
          if (is_one_of(action.verb, {"preheat", "bake", "roast"}) && !action.is_past)
            return std::string(action.verb);
          if (is_one_of(action.verb, {"turn", "lower", "reduce", "increase", "raise"}))
            return std::string(action.verb);
        }
        return "preheat";
      }
    return action_at(scanned);
  }

  // The words that name what the amount is of: up to a preposition, a verb, a mark.
  std::size_t food_words_end(std::size_t from) const {
    constexpr std::size_t kLongest = 5;
    auto at = from;
    while (at < tokens_.size() && at < from + kLongest) {
      const auto& token = tokens_[at];
      const bool hyphen = token.text == "-" && !token.space_before && at > from;
      if (token.kind != TokenKind::Word && !hyphen) break;
      if (is_one_of(
              token.text,
              {"in",       "into",   "to",    "with",  "and",     "over",    "on",     "onto",  "for",
               "until",    "then",   "from",  "at",    "or",      "so",      "as",     "by",    "if",
               "per",      "off",    "when",  "plus",  "but",     "through", "around", "under", "before",
               "after",    "while",  "that",  "which", "each",    "is",      "are",    "it",    "them",
               "together", "at",     "aside", "among", "between", "evenly",  "you",    "until", "will",
               "would",    "should", "can",   "may",   "minus",   "i",       "was",    "were"}))
        break;
      const auto action = action_of(token.text);
      if (at > from && action.kind != ActionKind::None && !action.is_past && !action.is_ing &&
          !is_food_word(token.text) && !is_one_of(token.text, {"juice", "zest"}))
        break;
      ++at;
    }
    return at;
  }

  void food_amount(const ScannedAmount& scanned) {
    if (scanned.is_length || verb_that_reads_as_amount(scanned)) return;
    auto from = scanned.end;
    bool definite = false;
    // "a large pot of water": what it is cooked in.
    // "shape into 12 buns": what is made.
    if (scanned.begin > 0 && word(scanned.begin - 1) == "into" &&
        (!scanned.has_unit || scanned.amount.unit == Unit::Piece))
      return;
    if (is_one_of(word(scanned.end - 1), {"pot", "tray", "container", "bowl", "bowls", "pots", "pan"}))
      return;
    while (is_one_of(word(from), {"of", "the", "your", "more", "extra", "remaining", "each", ")"})) {
      definite = definite || word(from) == "the";
      ++from;
    }
    const auto to = food_words_end(from);
    if (to <= from) return;
    auto food = written(from, to);
    std::vector<std::string> words;
    for (auto i = from; i < to; ++i) words.push_back(tokens_[i].text);
    const bool named =
        std::any_of(words.begin(), words.end(), [](const std::string& w) { return is_food_word(w); });
    // "8 balls", "two bowls", "half the tin": counts and shares of no food.
    if ((!scanned.has_unit || scanned.amount.unit == Unit::Piece) && !named) return;
    if (scanned.is_share && !named && !definite) return;
    if (is_one_of(words.front(),
                  {"pan", "tin", "bowl", "dish", "tray", "pot", "side", "sides", "way", "thick", "minutes"}))
      return;
    MethodAmount found;
    found.amount = scanned.amount;
    for (const auto& other : scanned.alternates) found.also.push_back(other);
    found.food = std::move(food);
    found.text = written(scanned.begin, scanned.end);
    found.column = columns_.column(tokens_[scanned.begin].begin);
    found.is_share = scanned.is_share;
    step_.amounts.push_back(std::move(found));
  }

  Step& step_;
  Tokens tokens_;
  ColumnCounter columns_;
  std::size_t last_end_ = 0;
  std::size_t time_end_ = 0;  // of the last duration
};

}  // namespace

void read_method_text(Step& step) {
  step.times.clear();
  step.temperatures.clear();
  step.amounts.clear();
  step.cues.clear();
  MethodReader(step).read();
}

}  // namespace panslate
