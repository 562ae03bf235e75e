#include "check/amount_reach.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_set>

#include "panslate/kitchen/food.h"

#include "check/phrase.h"
#include "check/span_search.h"
#include "check/spoken_text.h"

namespace panslate {

namespace {

// Words that may stand between an amount and its food.
const std::unordered_set<std::string_view> kOpenForward{
    "of",   "the",  "a",    "an",     "my",     "our",   "your", "some", "this", "that",  "these", "those",
    "good", "nice", "very", "really", "lovely", "worth", "his",  "her",  "more", "plain", "any",   "quality"};
// Words that end the reach of an amount forwards: what follows is another matter.
const std::unordered_set<std::string_view> kClosed{
    "and",    "or",      "then",   "to",    "into", "in",  "with", "on",      "onto",  "for",
    "from",   "until",   "at",     "by",    "so",   "but", "is",   "are",     "goes",  "go",
    "plus",   "as",      "it",     "we",    "you",  "i",   "now",  "next",    "over",  "after",
    "before", "while",   "i'm",    "we're", "they", "he",  "she",  "when",    "if",    "because",
    "add",    "adding",  "mix",    "stir",  "them", "all", "each", "same",    "about", "not",
    "no",     "without", "that's", "it's",  "till", "per", "ones", "numbers", "nos"};
// Words that may stand between a food and the amount told after it.
const std::unordered_set<std::string_view> kOpenBackward{
    "do",    "does",    "doing", "numbers",  "is",        "are",       "was",     "were",    "it",
    "s",     "it's",    "that",  "that's",   "we",        "you",       "i",       "ll",      "re",
    "ve",    "need",    "needs", "want",     "wants",     "use",       "using",   "used",    "have",
    "got",   "here",    "about", "which",    "weigh",     "weighs",    "weighed", "exactly", "at",
    "so",    "take",    "takes", "call",     "calls",     "says",      "there",   "there's", "just",
    "only",  "roughly", "comes", "measured", "out",       "they",      "they're", "you'll",  "we'll",
    "i've",  "we've",   "i'm",   "we're",    "you're",    "going",     "gonna",   "in",      "for",
    "be",    "should",  "will",  "around",   "this",      "these",     "all",     "today",   "done",
    "me",    "gives",   "say",   "of",       "the",       "a",         "good",    "full",    "to",
    "total", "can",     "will",  "go",       "goes",      "put",       "pour",    "poured",  "again",
    "other", "another", "last",  "plain",    "ordinary",  "usual",     "first",   "next",    "now",
    "thats", "its",     "time",  "bit",      "by",        "gradually", "slowly",  "youll",   "weve",
    "ive",   "theres",  "ones",  "am",       "measuring", "chop",      "slice",   "cut",     "grate",
    "peel",  "crush",   "dice",  "smash",    "dried",     "whole",     "um",      "uh",      "er",
    "erm",   "also",    "uhm"};

constexpr std::size_t kForwardReach = 8;
constexpr std::size_t kBackwardReach = 9;

}  // namespace

namespace {

// "Well, it's a hundred grams."
bool is_interjection(std::string_view word) {
  constexpr std::array<std::string_view, 10> kWords{"well", "okay", "right", "yeah", "oh",
                                                    "now",  "ok",   "yes",   "then", "and"};
  return std::find(kWords.begin(), kWords.end(), word) != kWords.end();
}

}  // namespace

bool is_food_amount(const ScannedAmount& scan) {
  const auto dimension = dimension_of(scan.amount.unit);
  return dimension == Dimension::Mass || dimension == Dimension::Volume || dimension == Dimension::Count ||
         dimension == Dimension::Little;
}

void tie_to(const Talk& talk, SpokenAmount& amount, std::size_t food, Tie tie) {
  amount.food = food;
  amount.tie = tie;
  amount.suggested = talk.sightings[food].suggested;
}

std::optional<std::size_t> AmountReach::next_sighting(std::size_t at) const {
  const auto found = first_from(talk_.sightings, at);
  if (found == talk_.sightings.end()) return std::nullopt;
  return static_cast<std::size_t>(found - talk_.sightings.begin());
}

std::optional<std::size_t> AmountReach::sighting_before(std::size_t at) const {
  const auto found = std::upper_bound(talk_.sightings.begin(), talk_.sightings.end(), at,
                                      [](std::size_t t, const auto& s) { return t < s.span.end; });
  if (found == talk_.sightings.begin()) return std::nullopt;
  return static_cast<std::size_t>(found - talk_.sightings.begin()) - 1;
}

int AmountReach::reaches_forward(const SpokenAmount& amount, const FoodSighting& food) const {
  const std::size_t begin = amount.span.end;
  const std::size_t end = food.span.begin;
  if (end < begin || end - begin > kForwardReach) return 0;
  if (text_.sentence(end) != text_.sentence(amount.span.begin)) return 0;
  if (!amount.scan.has_unit && counts_another_noun(begin, end)) return 0;
  // What stands behind another amount is that one's ("4 cloves, one scotch bonnet").
  const auto next = first_from(talk_.amounts, begin);
  if (next != talk_.amounts.end() && next->span.begin < end) return 0;
  int unknown = 0;
  bool of = false;
  for (std::size_t i = begin; i < end; ++i) {
    const auto& token = text_[i];
    if (token.kind == TokenKind::Number) return 0;
    if (token.kind == TokenKind::Mark) {
      if (token.text == "-" || token.text == "'" || token.text == "\"" || token.text == "(" ||
          token.text == "×")
        continue;
      if (token.text == "," && i > begin) continue;  // "200 grams of soft, ripe tomatoes"
      return 0;
    }
    if (token.text == "of") of = true;
    // "a can of them kidney beans"
    if (token.text == "them" && i > begin && text_[i - 1].text == "of" && amount.scan.has_unit) continue;
    if (kOpenForward.contains(token.text) || is_descriptor(token.text)) continue;
    if (kClosed.contains(token.text) || is_food_word(token.text)) return 0;
    if (++unknown > 2) return 0;
  }
  // "two of them", "three in the bowl": a bare count needs its noun close by.
  if (!amount.scan.has_unit && (unknown > 1 || (of && end - begin > 3))) return 0;
  if (unknown > 0 && !of && amount.scan.has_unit) return unknown == 1 ? 1 : 0;
  return of || end == begin || unknown == 0 ? 2 : 1;
}

// "two forks the rice goes in", "two sorts of beans", "six is what I put in the bread": the word after a
// bare number is what it counts, unless it describes the food.
bool AmountReach::counts_another_noun(std::size_t begin, std::size_t end) const {
  if (begin >= end || text_[begin].kind != TokenKind::Word || is_descriptor(text_[begin].text) ||
      kOpenForward.contains(text_[begin].text))
    return false;
  constexpr std::array<std::string_view, 4> kOfTheFood{"batch", "batches", "portion", "portions"};
  if (is_any_word(text_, begin, kOfTheFood)) return false;
  constexpr std::array<std::string_view, 7> kNounIsOver{"of", "the", "a", "my", "our", "your", "what"};
  return std::any_of(kNounIsOver.begin(), kNounIsOver.end(),
                     [&](const auto word) { return begin + 1 < end && text_.is_word(begin + 1, word); });
}

bool AmountReach::reaches_backward(const SpokenAmount& amount, const FoodSighting& food) const {
  const std::size_t begin = food.span.end;
  const std::size_t end = amount.span.begin;
  if (end < begin || end - begin > kBackwardReach) return false;
  if (text_.sentence(begin - 1) != text_.sentence(amount.span.begin)) return false;
  if (counts_what_follows(amount)) return false;
  for (std::size_t i = begin; i < end; ++i) {
    const auto& token = text_[i];
    if (const auto end_of_aside = aside_end(food, i); end_of_aside > i) {
      i = end_of_aside - 1;
      continue;
    }
    if (const auto end_of_place = place_end(i); end_of_place > i && end_of_place <= end) {
      i = end_of_place - 1;
      continue;
    }
    if (const auto past = share_of_flour_end(i); past > i && past <= end) {
      i = past - 1;
      continue;
    }
    // "Salt, I start with one teaspoon."
    if (token.text == "with" && i > begin &&
        (text_.is_word(i - 1, "start") || text_.is_word(i - 1, "begin") || text_.is_word(i - 1, "go")))
      continue;
    if ((token.text == "start" || token.text == "begin") && text_.is_word(i + 1, "with")) continue;
    // "vinegar, the plain white one, a tablespoon"
    const bool pronoun = i > begin && token.text == "one" && text_[i - 1].kind == TokenKind::Word &&
                         (is_descriptor(text_[i - 1].text) || text_[i - 1].text == "the" ||
                          is_written_with(food, text_[i - 1].text));
    if (pronoun) continue;
    // "toor dal, just half of that, fifty grams"
    if (const auto past = likened_end(i); past > i && past <= end) {
      i = past - 1;
      continue;
    }
    if (token.kind == TokenKind::Number) return false;
    if (token.kind == TokenKind::Mark) continue;
    // "golden syrup, and that's 125 grams"
    constexpr std::array<std::string_view, 6> kTellsOn{"that's", "thats",   "that",
                                                       "it's",   "there's", "theres"};
    if (token.text == "and" && i > begin && text_[i - 1].kind == TokenKind::Mark &&
        is_any_word(text_, i + 1, kTellsOn))
      continue;
    // "the ginger is done I am measuring": done with.
    if (token.text == "done" && i > begin && (text_.is_word(i - 1, "is") || text_.is_word(i - 1, "are")))
      return false;
    if (!kOpenBackward.contains(token.text) && !is_descriptor(token.text) &&
        !is_written_with(food, token.text))
      return false;
  }
  return true;
}

// "water sixty eight percent so six hundred and eighty grams": bakers tell both.
std::size_t AmountReach::share_of_flour_end(std::size_t at) const {
  constexpr std::size_t kLongest = 5;
  const auto number = scan_number(text_.tokens(), at);
  if (!number || number->end - at > kLongest) return at;
  const auto leads_on = [&](std::size_t after) {
    constexpr std::array<std::string_view, 6> kSo{"so", "that's", "thats", "which", "it's", ","};
    return begins_amount(after) || is_any_word(text_, after, kSo);
  };
  if (text_.is_word(number->end, "percent") ||
      text_[number->end < text_.size() ? number->end : at].text == "%")
    return leads_on(number->end + 1) ? number->end + 1 : at;
  const bool parted = text_.is_word(number->end, "per") && text_.is_word(number->end + 1, "cent");
  return parted && leads_on(number->end + 2) ? number->end + 2 : at;
}

bool AmountReach::begins_amount(std::size_t at) const {
  const auto next = first_from(talk_.amounts, at);
  return next != talk_.amounts.end() && next->span.begin == at;
}

// "the onions, also two carrots": what stands right behind a bare number is counted by it.
bool AmountReach::counts_what_follows(const SpokenAmount& amount) const {
  if (amount.scan.has_unit) return false;
  auto at = amount.span.end;
  while (at < text_.size() && is_descriptor(text_[at].text)) ++at;
  const auto other = first_from(talk_.other_foods, at);
  return other != talk_.other_foods.end() && other->span.begin == at;
}

std::size_t AmountReach::likened_end(std::size_t at) const {
  for (const std::string_view likened :
       {"half of that", "half that", "double that", "twice that", "same again"})
    if (const auto end = match_phrase(text_, at, likened); end > at && text_.is_word(end, ","))
      return end + 1;
  return at;
}

// "sesame oil in the pan, one tablespoon", "sesame seeds on top, a tablespoon", "vanilla, for the cream, a
// teaspoon": where it goes.
std::size_t AmountReach::place_end(std::size_t at) const {
  if (text_.is_word(at, "on") && text_.is_word(at + 1, "top")) return at + 2;
  constexpr std::array<std::string_view, 3> kWhere{"in", "into", "for"};
  const bool where = is_any_word(text_, at, kWhere);
  const bool named = at + 2 < text_.size() && text_[at + 2].kind == TokenKind::Word;
  if (!where || !named || !text_.is_word(at + 1, "the")) return at;
  // "in the bottom of the basin"
  const bool of_the = text_.is_word(at + 3, "of") && text_.is_word(at + 4, "the") && at + 5 < text_.size() &&
                      text_[at + 5].kind == TokenKind::Word;
  return of_the ? at + 6 : at + 3;
}

// "mushrooms, the chestnut ones, 250 grams": which kind it is, by a word of the food's written name.
std::size_t AmountReach::aside_end(const FoodSighting& food, std::size_t at) const {
  const bool ones = text_.is_word(at + 2, "ones") || text_.is_word(at + 2, "one") ||
                    text_.is_word(at + 2, "kind") || text_.is_word(at + 2, "sort");
  if (!ones || !text_.is_word(at, "the")) return at;
  return is_written_with(food, text_[at + 1].text) ? at + 3 : at;
}

bool AmountReach::is_written_with(const FoodSighting& food, const std::string& word) const {
  return std::any_of(food.targets.begin(), food.targets.end(), [&](std::size_t t) {
    const auto& words = targets_[t].words;
    return std::find(words.begin(), words.end(), word) != words.end();
  });
}

// "Tomatoes next, in with the mushrooms. Two tins of the chopped ones."
std::optional<std::size_t> AmountReach::pointed_at_by_kind(const SpokenAmount& amount) const {
  const auto at = amount.span.end;
  const bool ones = text_.is_word(at + 3, "ones") || text_.is_word(at + 3, "one");
  if (!ones || !text_.is_word(at, "of") || !text_.is_word(at + 1, "the")) return std::nullopt;
  constexpr std::size_t kRecent = 4;
  auto before = sighting_before(amount.span.begin);
  for (std::size_t tries = 0; before && tries < kRecent; ++tries) {
    const auto& food = talk_.sightings[*before];
    if (amount.span.begin - food.span.end > 2 * kDistantReach) break;
    if (is_written_with(food, text_[at + 2].text)) return before;
    if (*before == 0) break;
    before = *before - 1;
  }
  return std::nullopt;
}

// "180 grams of it", "two of them": points back explicitly.
bool AmountReach::points_back(const SpokenAmount& amount) const {
  constexpr std::array<std::string_view, 8> kPointers{"of it",    "of them",  "of this",      "of that",
                                                      "of those", "of these", "of the stuff", "of each"};
  return std::any_of(kPointers.begin(), kPointers.end(), [&](const auto pointer) {
    const auto end = match_phrase(text_, amount.span.end, pointer);
    if (end == amount.span.end) return false;
    // "of that flour", "of that good flour" point forwards; "of them" stands for the food itself.
    const auto next = next_sighting(amount.span.end);
    // "a can of them diced tomatoes": those tomatoes.
    if (text_.is_word(end - 1, "them") && amount.scan.has_unit && next) {
      auto named = end;
      while (named < talk_.sightings[*next].span.begin && is_descriptor(text_[named].text)) ++named;
      if (named == talk_.sightings[*next].span.begin) return false;
    }
    if (text_.is_word(end - 1, "it") || text_.is_word(end - 1, "them")) return true;
    if (!next || talk_.sightings[*next].span.begin > end + 1) return true;
    const auto food = talk_.sightings[*next].span.begin;
    return food == end + 1 && !is_descriptor(text_[end].text) && !is_food_word(text_[end].text) &&
           (text_[end].kind == TokenKind::Mark || kClosed.contains(text_[end].text));
  });
}

bool AmountReach::sums_up(const SpokenAmount& amount, std::size_t food) const {
  constexpr std::size_t kLongest = 16;
  constexpr std::size_t kFewFirst = 3;  // "Then dark soy, …"
  constexpr std::size_t kFar = 60;      // unpunctuated talk has no such sentences
  const auto& named = talk_.sightings[food];
  const auto begin = amount.span.begin;
  // "Spaghetti for us tonight, so that's five hundred grams for six."
  const bool pointed = begin >= 1 && (text_.is_word(begin - 1, "that's") || text_.is_word(begin - 1, "it's"));
  if (!amount.scan.has_unit || begin < 2 || !(text_.is_word(begin - 1, ",") || pointed) ||
      text_.is_word(amount.span.end, "of") || !same_sentence(named.span.begin, begin) ||
      begin - named.span.end > kLongest)
    return false;
  const auto sentence = sentence_around(text_, begin, 2 * kLongest);
  const auto ends = amount.span.end < text_.size() && text_[amount.span.end].kind == TokenKind::Mark
                        ? amount.span.end + 1
                        : amount.span.end;
  // "The butter's melted already, thirty grams, in it goes."
  const auto next = first_from(talk_.sightings, amount.span.end);
  const bool set_off = (text_.is_word(amount.span.end, ",") || pointed) &&
                       (next == talk_.sightings.end() || next->span.begin >= sentence.end) &&
                       sentence_around(text_, begin, kFar).end - ends <= kLongest;
  const auto first_food = first_from(talk_.sightings, sentence.begin);
  if (named.span.begin - sentence.begin > kFewFirst || (sentence.end > ends && !set_off) ||
      (set_off && first_food->span.begin != named.span.begin))
    return false;
  // "oregano, the Mexican kind, that's different from the spaghetti kind, one teaspoon"
  const auto is_likened = [&](std::size_t at) {
    const auto first = text_.is_word(at - 1, "the") ? at - 1 : at;
    return text_.is_word(first - 1, "than") || text_.is_word(first - 1, "unlike") ||
           (text_.is_word(first - 1, "from") && text_.is_word(first - 2, "different"));
  };
  for (auto other = first_from(talk_.other_foods, named.span.end);
       other != talk_.other_foods.end() && other->span.begin < begin; ++other)
    if (!is_likened(other->span.begin)) return false;
  const auto first = first_from(talk_.amounts, sentence.begin);
  return first != talk_.amounts.end() && first->span.begin == begin;
}

std::optional<std::size_t> AmountReach::meant_for(const SpokenAmount& amount, std::size_t last) const {
  const auto& purpose = talk_.sightings[last].span;
  if (last == 0 || purpose.begin < 3 || !text_.is_word(amount.span.begin - 1, ",") ||
      amount.span.begin != purpose.end + 1)
    return std::nullopt;
  const auto& food = talk_.sightings[last - 1].span;
  const bool for_it = food.end + 2 == purpose.begin && text_.is_word(food.end, "for") &&
                      (text_.is_word(food.end + 1, "the") || text_.is_word(food.end + 1, "my"));
  return for_it && same_sentence(food.begin, amount.span.begin) ? std::optional(last - 1) : std::nullopt;
}

bool AmountReach::only_tells(const SpokenAmount& amount) const {
  for (auto at = amount.span.begin; at > 0 && same_sentence(at - 1, amount.span.begin); --at)
    if (text_[at - 1].kind == TokenKind::Number ||
        (text_[at - 1].kind == TokenKind::Word && !kOpenBackward.contains(text_[at - 1].text) &&
         !is_interjection(text_[at - 1].text)))
      return false;
  return true;
}

bool AmountReach::only_fragments_between(std::size_t food_end, std::size_t amount_begin) const {
  constexpr std::size_t kMostSentences = 3;
  constexpr std::size_t kMostWords = 4;
  const auto first = text_.sentence(food_end - 1);
  const auto last = text_.sentence(amount_begin);
  if (last <= first || last - first > kMostSentences) return false;
  std::size_t words = 0;
  for (auto i = food_end; i < amount_begin; ++i) {
    if (text_.sentence(i) == last) break;
    if (i > food_end && text_.sentence(i) != text_.sentence(i - 1)) words = 0;
    if (text_[i].kind != TokenKind::Mark && text_.sentence(i) != first && ++words > kMostWords) return false;
  }
  return true;
}

bool AmountReach::is_of_its_kind(const SpokenAmount& amount, std::size_t food) const {
  constexpr std::size_t kMostWords = 3;
  if (!text_.is_word(amount.span.end, "of")) return false;
  auto first = amount.span.end + 1;
  if (text_.is_word(first, "the") || text_.is_word(first, "that")) ++first;
  auto at = first;
  while (at < text_.size() && at < first + kMostWords &&
         is_written_with(talk_.sightings[food], text_[at].text))
    ++at;
  // "half a teaspoon of ground ginger" is no ground cardamom.
  const bool goes_on = at < text_.size() && text_[at].kind == TokenKind::Word && same_sentence(at, first) &&
                       is_food_word(text_[at].text);
  return at > first && !goes_on;
}

bool AmountReach::is_written_in_kind(const FoodSighting& food, const SpokenAmount& amount) const {
  const auto& each = amount.scan.amount.each;
  const auto dimension =
      dimension_of(each ? each->unit : amount.scan.amount.unit);  // "a four hundred mil tin"
  return std::any_of(food.targets.begin(), food.targets.end(), [&](std::size_t t) {
    const auto& units = targets_[t].units;
    return std::any_of(units.begin(), units.end(), [&](Unit u) { return dimension_of(u) == dimension; });
  });
}

// "ginger must be the old one skin very rough this is two hundred fifty grams", "the trotter you ask them
// to chop for you I got one kilo here": what is held up is what was spoken of last.
bool AmountReach::presents(const SpokenAmount& amount, std::size_t food) const {
  constexpr std::array<std::string_view, 8> kHeldUp{"this is", "i got",  "i've got", "i have",
                                                    "here is", "here's", "we got",   "we have"};
  const auto begin = amount.span.begin;
  const auto& named = talk_.sightings[food];
  const bool held_up = std::any_of(kHeldUp.begin(), kHeldUp.end(), [&](const auto words) {
    const auto first = begin - std::min<std::size_t>(begin, words.find(' ') == words.npos ? 1 : 2);
    return match_phrase(text_, first, words) == begin;
  });
  const auto dimension = dimension_of(amount.scan.amount.unit);
  const auto other = first_from(talk_.other_foods, named.span.end);
  const auto first = first_from(talk_.amounts, named.span.end);
  // "ginger must be fresh and in the other bowl I have 250 grams": of what is named next.
  constexpr std::array<std::string_view, 5> kElse{"other", "another", "next", "and", "over"};
  for (auto at = named.span.end; at < begin; ++at)
    if (is_any_word(text_, at, kElse)) return false;
  const auto ahead = next_sighting(amount.span.end);
  if (ahead && talk_.sightings[*ahead].span.begin - amount.span.end <= kForwardReach) return false;
  return held_up && amount.scan.has_unit &&
         (dimension == Dimension::Mass || dimension == Dimension::Volume) &&
         !text_.is_word(amount.span.end, "of") && is_written_in_kind(named, amount) &&
         begin - named.span.end <= kDistantReach &&
         text_.sentence(named.span.begin) == text_.sentence(begin) && first != talk_.amounts.end() &&
         first->span.begin == begin && (other == talk_.other_foods.end() || other->span.begin > begin);
}

// "That's a four hundred mil tin.": of what was named last.
bool AmountReach::points_at_last(const SpokenAmount& amount, TokenSpan sentence) const {
  constexpr std::array<std::string_view, 4> kPointing{"that's", "thats", "it's", "they're"};
  return amount.span.begin == sentence.begin + 1 && is_any_word(text_, sentence.begin, kPointing);
}

bool AmountReach::is_vessel_or_subject(const SpokenAmount& amount) const {
  if (text_.is_word(amount.span.end - 1, "bowl")) return true;
  return !amount.scan.has_unit && text_.is_word(amount.span.end, "is") &&
         text_.is_word(amount.span.end + 1, "what");
}

bool AmountReach::tells_its_size(std::size_t of) const {
  constexpr std::array<std::string_view, 4> kKinds{"size", "sort", "kind", "type"};
  return text_.is_word(of + 1, "the") && is_any_word(text_, of + 2, kKinds);
}

// "I got it out of two lemons": where it comes from.
bool AmountReach::comes_out_of(const SpokenAmount& amount) const {
  const auto begin = amount.span.begin;
  const auto unit = amount.scan.amount.unit;
  const bool vessel = unit == Unit::Jar || unit == Unit::Can || unit == Unit::Packet;  // "out of a jar"
  return (!amount.scan.has_unit || vessel) && begin >= 2 && text_.is_word(begin - 1, "of") &&
         text_.is_word(begin - 2, "out");
}

bool AmountReach::is_flanked(const SpokenAmount& amount, std::size_t behind, std::size_t ahead) const {
  constexpr std::size_t kNear = 5;
  const auto& before = talk_.sightings[behind];
  const auto& after = talk_.sightings[ahead];
  if (!amount.scan.has_unit || !text_.is_word(amount.span.end, ",") ||
      after.span.begin - amount.span.end > kNear || amount.span.begin - before.span.end > kNear ||
      text_.sentence(after.span.begin) != text_.sentence(amount.span.begin) ||
      any_overlaps(talk_.amounts, {before.span.end, amount.span.begin}) ||
      any_overlaps(talk_.amounts, {amount.span.end, after.span.begin}))
    return false;
  // "In the butter, thirty grams, plus the softened butter": another.
  constexpr std::array<std::string_view, 3> kAnother{"and", "plus", "then"};
  for (auto at = amount.span.end; at < after.span.begin; ++at)
    if (is_any_word(text_, at, kAnother)) return false;
  return std::any_of(after.targets.begin(), after.targets.end(), [&](std::size_t t) {
    return std::find(before.targets.begin(), before.targets.end(), t) != before.targets.end();
  });
}

}  // namespace panslate
