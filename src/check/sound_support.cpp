#include "check/sound_support.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_set>

#include "panslate/kitchen/food.h"

#include "check/filler_words.h"
#include "check/phrase.h"
#include "check/span_search.h"
#include "check/step_alignment.h"

/// Whether a stretch stands where a food would stand. Word lists: common practice, no source.
namespace panslate {

namespace {

const std::unordered_set<std::string_view> kBeforeNoun{"the",  "a",    "an",   "my",   "our",   "your",
                                                       "some", "more", "this", "that", "these", "those"};
// What may follow a food that was just named; after "time it", "beat the" or "leak from" it was none.
const std::unordered_set<std::string_view> kAfterFood{
    "and",  "or",    "in",  "into", "with", "on",   "onto", "over",     "until", "then",  "plus",
    "go",   "goes",  "all", "here", "now",  "next", "too",  "also",     "about", "which", "so",
    "both", "there", "but", "we",   "i",    "back", "they", "together", "well",  "first", "please"};
// What is done to foods on camera, besides what the step itself says.
const std::unordered_set<std::string_view> kDeeds{"add",      "adding",  "tip",  "stir", "fold",
                                                  "sprinkle", "scatter", "toss", "throw"};
// Verbs of a method. A step's other words are no deeds.
const std::unordered_set<std::string_view> kVerbs{
    "add",      "beat",    "blend",   "boil",    "bake",   "braise", "brown", "brush", "chop",
    "combine",  "cook",    "core",    "crumble", "crush",  "cube",   "cut",   "dice",  "dissolve",
    "drain",    "drizzle", "dust",    "fold",    "fry",    "grate",  "grill", "grind", "halve",
    "heat",     "knead",   "mash",    "melt",    "mince",  "mix",    "peel",  "pick",  "poach",
    "pour",     "press",   "quarter", "rinse",   "roast",  "roll",   "rub",   "saute", "scatter",
    "scrub",    "season",  "shred",   "sieve",   "sift",   "simmer", "slice", "soak",  "soften",
    "sprinkle", "squeeze", "steam",   "stir",    "strain", "strip",  "sweat", "tear",  "tip",
    "toast",    "top",     "toss",    "trim",    "wash",   "weigh",  "whisk", "zest"};
constexpr std::array<std::string_view, 9> kParticles{"in",   "of",   "up",   "off", "out",
                                                     "into", "with", "over", "down"};

bool is_measured(const ScannedAmount& scan) {
  switch (dimension_of(scan.amount.unit)) {
    case Dimension::Mass:
    case Dimension::Volume:
      return true;
    case Dimension::Count:
    case Dimension::Little:
      return scan.has_unit;
    default:
      return false;
  }
}

class Surroundings {
 public:
  Surroundings(const Talk& talk, const std::vector<TokenSpan>& foods, TokenSpan stretch)
      : talk_(talk), text_(talk.text), foods_(foods), stretch_(stretch) {}

  // "you stir the whole time", "all the time": no thyme.
  [[nodiscard]] bool is_turn_of_time() const {
    constexpr std::array<std::string_view, 8> kTurns{"whole", "next", "last", "every",
                                                     "each",  "long", "same", "first"};
    const auto at = stretch_.begin;
    if (stretch_.end != at + 1 || !text_.is_word(at, "time") || at == 0) return false;
    return is_any_word(text_, at - 1, kTurns) ||
           (at > 1 && text_.is_word(at - 1, "the") && text_.is_word(at - 2, "all"));
  }

  [[nodiscard]] FoodSupport amount_before(const FoodTarget& target) const {
    constexpr std::size_t kReach = 6;
    bool bare = true;
    bool of = false;
    bool determined = false;
    for (std::size_t at = stretch_.begin; at > 0 && stretch_.begin - at < kReach; --at) {
      if (!same_sentence(at)) return FoodSupport::None;
      const auto after = first_from(talk_.amounts, at);
      if (after != talk_.amounts.begin() && (after - 1)->span.end == at) {
        const auto& scan = (after - 1)->scan;
        if (determined && !of) return FoodSupport::None;  // "one teaspoon this time"
        const bool counts = bare && target.counted && dimension_of(scan.amount.unit) == Dimension::Count;
        if (scan.is_share || (scan.has_unit ? !is_measured(scan) : !counts)) return FoodSupport::None;
        return of && scan.has_unit ? FoodSupport::AmountOf : FoodSupport::Amount;
      }
      const auto& word = text_[at - 1].text;
      of = of || word == "of";
      determined = determined || kBeforeNoun.contains(word);
      const bool opens = word == "of" || kBeforeNoun.contains(word);
      bare = bare && !opens;
      if (!opens && word != "-" && !is_descriptor(word)) return FoodSupport::None;
    }
    return FoodSupport::None;
  }

  // "flour 200 grams", as ingredients are read out
  [[nodiscard]] bool has_amount_after() const {
    std::size_t at = stretch_.end;
    if (at < text_.size() && (text_[at].text == "," || text_[at].text == ":")) ++at;
    const auto amount = first_from(talk_.amounts, at);
    if (amount == talk_.amounts.end() || amount->span.begin != at || !is_measured(amount->scan) ||
        amount->scan.is_share || text_.is_word(amount->span.end, "of") || begins_food(amount->span.end))
      return false;
    return begins_item();
  }

  [[nodiscard]] bool is_listed() const {
    const bool plain = is_filler(text_[stretch_.begin].text);
    const bool before = joined_before(true);
    const bool after = joined_after();
    if (after && (before || joined_before(false))) return true;
    if (before) return ends_noun();
    return after && !plain && begins_noun();
  }

  [[nodiscard]] bool is_dealt_with(const FoodTarget& target) const {
    constexpr std::size_t kReach = 7;
    const bool plain = is_filler(text_[stretch_.begin].text);
    if (!ends_noun()) return false;
    bool determined = false;
    for (std::size_t at = stretch_.begin; at > 0 && stretch_.begin - at < kReach; --at) {
      if (!same_sentence(at)) return false;
      // "fry the leeks in the ghee": past the food that it is done to.
      if (const auto after = first_from(foods_, at); after != foods_.begin() && (after - 1)->end == at) {
        at = (after - 1)->begin + 1;
        determined = false;
        continue;
      }
      const auto& word = text_[at - 1].text;
      const auto word_stem = stem(word);
      if (std::binary_search(target.deeds.begin(), target.deeds.end(), word_stem))
        return determined || !plain;
      if (kDeeds.contains(word)) return !plain;
      determined = determined || kBeforeNoun.contains(word) || is_descriptor(word);
      const bool particle = std::find(kParticles.begin(), kParticles.end(), word) != kParticles.end();
      if (!particle && !kBeforeNoun.contains(word) && !is_descriptor(word)) return false;
    }
    return false;
  }

 private:
  [[nodiscard]] bool same_sentence(std::size_t at) const {
    return at > 0 && text_.sentence(at - 1) == text_.sentence(stretch_.begin);
  }

  [[nodiscard]] bool begins_food(std::size_t at) const {
    const auto food = first_from(foods_, at);
    return food != foods_.end() && food->begin == at;
  }

  [[nodiscard]] bool ends_food(std::size_t at) const {
    const auto after = first_from(foods_, at);
    return after != foods_.begin() && (after - 1)->end == at;
  }

  static bool joins(std::string_view word) {
    return word == "," || word == "and" || word == "or" || word == "&" || word == "plus";
  }

  // A food just before, joined by "and" or a comma; without either in talk that has no commas.
  [[nodiscard]] bool joined_before(bool with_joiner) const {
    constexpr std::size_t kReach = 8;
    bool joined = !with_joiner;
    for (std::size_t at = stretch_.begin; at > 0 && stretch_.begin - at < kReach; --at) {
      if (!same_sentence(at)) return false;
      if (ends_food(at)) return joined;
      const auto& word = text_[at - 1].text;
      if (joins(word)) {
        joined = true;
        continue;
      }
      if (!with_joiner || (!kBeforeNoun.contains(word) && !is_descriptor(word))) return false;
    }
    return false;
  }

  [[nodiscard]] bool joined_after() const {
    constexpr std::size_t kReach = 8;
    bool joined = false;
    for (std::size_t at = stretch_.end; at < text_.size() && at - stretch_.end < kReach; ++at) {
      if (text_.sentence(at) != text_.sentence(stretch_.begin)) return false;
      if (joined && begins_food(at)) return true;
      const auto& word = text_[at].text;
      if (joins(word)) {
        joined = true;
        continue;
      }
      if (!joined) return false;
      const auto amount = first_from(talk_.amounts, at);
      if (amount != talk_.amounts.end() && amount->span.begin == at && is_measured(amount->scan)) {
        at = amount->span.end - 1;
        continue;
      }
      if (word != "of" && word != "some" && !is_descriptor(word)) return false;
    }
    return false;
  }

  // Is the stretch where a thing to put in would begin a list?
  [[nodiscard]] bool begins_item() const {
    if (stretch_.begin == 0 || !same_sentence(stretch_.begin)) return true;
    const auto at = stretch_.begin;
    const auto& word = text_[at - 1].text;
    const auto after = first_from(talk_.amounts, at);
    return text_[at - 1].kind == TokenKind::Mark || word == "and" || word == "plus" || ends_food(at) ||
           (after != talk_.amounts.begin() && (after - 1)->span.end == at);
  }

  [[nodiscard]] bool begins_noun() const {
    if (begins_item()) return true;
    const auto& word = text_[stretch_.begin - 1].text;
    return word == "of" || word == "the" || word == "some" || word == "my" || word == "our" ||
           word == "with" || word == "add" || word == "need" || word == "use" || word == "got" ||
           word == "have" || is_descriptor(word);
  }

  [[nodiscard]] bool ends_noun() const {
    const auto at = stretch_.end;
    if (at >= text_.size() || text_.sentence(at) != text_.sentence(stretch_.begin)) return true;
    if (text_[at].kind == TokenKind::Mark) return text_[at].text != "-" && text_[at].text != "'";
    const auto& word = text_[at].text;
    if (word == "to" || word == "for")  // "time for a rest"
      return !is_filler(text_[stretch_.begin].text) && at + 1 < text_.size() &&
             (kBeforeNoun.contains(text_[at + 1].text) || text_[at + 1].text == "it");
    return kAfterFood.contains(word);
  }

  const Talk& talk_;
  const SpokenText& text_;
  const std::vector<TokenSpan>& foods_;
  TokenSpan stretch_;
};

}  // namespace

FoodSupport food_support(const Talk& talk, const std::vector<TokenSpan>& foods, TokenSpan stretch,
                         const FoodTarget& target) {
  const Surroundings around(talk, foods, stretch);
  if (around.is_turn_of_time()) return FoodSupport::None;
  if (const auto amount = around.amount_before(target); amount != FoodSupport::None) return amount;
  if (around.has_amount_after() || around.is_listed()) return FoodSupport::Listing;
  return around.is_dealt_with(target) ? FoodSupport::Deed : FoodSupport::None;
}

std::vector<std::vector<std::string>> deeds_by_ingredient(const Recipe& recipe) {
  std::vector<std::vector<std::string>> deeds(recipe.ingredients.size());
  for (const auto& step : recipe.steps) {
    std::vector<std::string> here;
    for (const auto& token : tokenize(step.text))
      if (token.kind == TokenKind::Word && kVerbs.contains(token.text)) here.push_back(stem(token.text));
    for (const auto ingredient : step.uses)
      deeds[ingredient].insert(deeds[ingredient].end(), here.begin(), here.end());
  }
  for (auto& of_one : deeds) {
    std::sort(of_one.begin(), of_one.end());
    of_one.erase(std::unique(of_one.begin(), of_one.end()), of_one.end());
  }
  return deeds;
}

}  // namespace panslate
