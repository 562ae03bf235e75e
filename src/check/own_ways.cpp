#include "check/own_ways.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "panslate/kitchen/food.h"

#include "check/amount_reach.h"
#include "check/phrase.h"
#include "check/span_search.h"

namespace panslate {

namespace {

using Words = std::string_view;

// What she does herself. Common practice, no source.
constexpr std::array<Words, 27> kIDo{
    "i use",  "i used",     "i'm using", "i put",        "i've put",  "i've used", "i've only",
    "i only", "i only had", "i had",     "i went for",   "i've gone", "i do",      "i did",
    "i'd do", "i'll use",   "i'd use",   "i could only", "i add",     "i added",   "we use",
    "we put", "i never do", "i go for",  "i've taken",   "mine has",  "i've cut"};
// … and leaves out.
constexpr std::array<Words, 7> kISkip{"i skip",         "i leave them out", "i leave it out",
                                      "i don't bother", "i don't add them", "i don't put them in",
                                      "i don't put any"};
// Told as left out before the amount is named.
constexpr std::array<Words, 7> kLeftOut{"left out",   "leave out", "forgot",  "in place of",
                                        "instead of", "out of",    "short of"};
// The half of a pack.
constexpr std::array<Words, 4> kHalf{"use half of it", "i'll use half", "i use half", "use half of them"};

// What a paper or other cooks say …
constexpr std::array<Words, 22> kToldOfOthers{
    "recipe says",    "book says",          "it says",         "packet says",   "says here",   "on paper",
    "officially",     "by rights",          "strictly",        "traditionally", "supposed to", "meant to be",
    "most people",    "some people",        "a lot of people", "people put",    "people use",  "most recipes",
    "you'd normally", "you would normally", "the original",    "used to be"};
// … or she tells on a condition …
constexpr std::array<Words, 8> kOnlyIf{"if you've got", "if you have", "if you're using", "if you use",
                                       "if you were",   "if it's for", "if they're",      "if i had"};
// … and then what holds here.
constexpr std::array<Words, 18> kButHere{"but i",    "but we",        "but me",   "but today",  "but tonight",
                                         "but mine", "but this time", "but here", "but in my",  "not me",
                                         "i don't",  "we don't",      "i never",  "in my case", "i prefer",
                                         "i'm not",  "i find that",   "whereas i"};
// Told and not known, or not all of it used.
constexpr std::array<Words, 10> kUnsettled{
    "or was it",      "i can't remember",  "i forget",         "don't quote me",   "won't use it all",
    "not use it all", "won't need it all", "won't use all of", "don't use all of", "not all of it"};

constexpr std::size_t kReach = 14;
constexpr std::size_t kFew = 10;

bool ends_after(const SpokenText& text, std::size_t end) {
  constexpr std::array<Words, 9> kOver{"and", "because", "instead", "so", "of", "in", "now", "today", "here"};
  return end >= text.size() || text[end].kind == TokenKind::Mark ||
         text.sentence(end) != text.sentence(end - 1) || is_any_word(text, end, kOver);
}

// Where the words about an amount and its food end.
std::size_t told_until(const Talk& talk, const SpokenAmount& amount) {
  return std::max(amount.span.end, talk.sightings[*amount.food].span.end);
}

bool is_measured(const SpokenAmount& amount) {
  return amount.food && !amount.taken_back && !amount.beside && !amount.portion && !amount.suggested &&
         !amount.scan.is_share && !amount.scan.is_more && amount.scan.amount.value &&
         amount.tie != Tie::Distant;
}

// Told of no food, of a kind that the first may be meant in, and another number.
bool may_replace(const Talk& talk, const SpokenAmount& first, const SpokenAmount& other) {
  if (other.food || other.taken_back || other.beside || !other.scan.amount.value || other.scan.is_more ||
      other.scan.amount.value == first.scan.amount.value || !ends_after(talk.text, other.span.end))
    return false;
  // "I put also one teaspoon of honey": of something else.
  constexpr std::array<Words, 6> kSame{"it", "them", "that", "this", "those", "these"};
  if (talk.text.is_word(other.span.end, "of") && !is_any_word(talk.text, other.span.end + 1, kSame))
    return false;
  return !other.scan.has_unit || dimension_of(other.scan.amount.unit) == dimension_of(first.scan.amount.unit);
}

// "I use one": no number that is read as an amount.
bool says_one(const SpokenText& text, TokenSpan span) {
  for (auto at = span.begin; at < span.end; ++at)
    if (text.is_word(at, "one") && ends_after(text, at + 1)) return true;
  return false;
}

// As someone else does, or on a condition, with "but I" behind it; or told as not known.
bool is_qualified(const SpokenText& text, const SpokenAmount& amount, TokenSpan behind) {
  if (holds_phrase(text, behind, kUnsettled)) return true;
  const auto ahead = words_before(text, amount.span.begin, kFew);
  return (holds_phrase(text, ahead, kToldOfOthers) || holds_phrase(text, ahead, kOnlyIf)) &&
         holds_phrase(text, behind, kButHere);
}

}  // namespace

void find_own_ways(Talk& talk) {
  const auto& text = talk.text;
  for (std::size_t a = 0; a < talk.amounts.size(); ++a) {
    auto& amount = talk.amounts[a];
    if (!is_measured(amount)) continue;
    const auto begin = amount.span.begin;
    const auto before = begin > 0 && text.is_word(begin - 1, "the") ? begin - 1 : begin;
    const bool left_out = std::any_of(kLeftOut.begin(), kLeftOut.end(), [&](const auto words) {
      const auto count = static_cast<std::size_t>(std::count(words.begin(), words.end(), ' ')) + 1;
      return before >= count && match_phrase(text, before - count, words) == before;
    });
    const auto told = told_until(talk, amount);
    auto end = std::min(text.size(), told + kReach);
    const auto next_food = first_from(talk.sightings, told);
    if (next_food != talk.sightings.end()) end = std::min(end, next_food->span.begin);
    const auto other_food = first_from(talk.other_foods, told);
    if (other_food != talk.other_foods.end()) end = std::min(end, other_food->span.begin);
    if (end <= told) {
      amount.taken_back = amount.taken_back || left_out;
      continue;
    }
    if (left_out || holds_phrase(text, {told, end}, kISkip) || holds_phrase(text, {told, end}, kHalf)) {
      amount.taken_back = true;
      continue;
    }
    amount.qualified = is_qualified(text, amount, {told, end});
    const auto next = a + 1 < talk.amounts.size() ? talk.amounts[a + 1].span.begin : text.size();
    if (!holds_phrase(text, {told, std::min(end, next)}, kIDo)) continue;
    if (next < end && may_replace(talk, amount, talk.amounts[a + 1])) {
      auto& own = talk.amounts[a + 1];
      own.food = amount.food;
      own.tie = Tie::Distant;
      if (!own.scan.has_unit) own.scan.amount.unit = amount.scan.amount.unit;
      own.scan.has_unit = amount.scan.has_unit;
      amount.taken_back = true;
    } else if (amount.scan.amount.value != Ratio(1) && says_one(text, {told, std::min(end, next)})) {
      amount.taken_back = true;
    }
  }
}

}  // namespace panslate
