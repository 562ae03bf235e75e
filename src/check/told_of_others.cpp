#include "check/told_of_others.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "panslate/kitchen/food.h"

#include "check/phrase.h"
#include "check/span_search.h"

namespace panslate {

// "The recipe says one teaspoon", "the bowl they are in, it's 250 grams", "I leave the flour out": of
// somebody or something else, or of what is not put in.
bool speaks_of_others(const Talk& talk, const FoodSighting& food, const SpokenAmount& amount) {
  const auto& text = talk.text;
  constexpr std::array<std::string_view, 56> kOthers{
      "he",     "she",    "they",      "he's",    "she's",   "they're", "his",    "her",     "their", "my",
      "people", "doctor", "book",      "recipe",  "recipes", "card",    "packet", "box",     "bag",   "bowl",
      "bowls",  "pot",    "pan",       "pans",    "mug",     "jug",     "lid",    "says",    "said",  "if",
      "when",   "used",   "would",     "could",   "after",   "before",  "cooked", "soaked",  "boy",   "girl",
      "kids",   "kid",    "husband",   "wife",    "mum",     "mother",  "sister", "brother", "gran",  "cat",
      "dog",    "hens",   "neighbour", "reduced", "asks",    "holds"};
  constexpr std::array<std::string_view, 15> kDenied{
      "don't use",     "don't put",   "didn't weigh", "don't weigh", "don't measure",
      "never measure", "never weigh", "leave out",    "left out",    "by eye",
      "nothing",       "without",     "forgot",       "i leave",     "don't need"};
  const auto& named = food.span;
  const auto own = sentence_around(text, amount.span.begin, 14);
  for (auto at = std::max(own.begin, named.end); at < amount.span.begin; ++at)
    if (is_any_word(text, at, kOthers)) return true;
  constexpr std::size_t kBefore = 4;
  return holds_phrase(text, {named.begin - std::min(kBefore, named.begin), amount.span.begin}, kDenied);
}

// Nothing goes on about the amount: "two hundred and fifty grams he's put on", "… more than I asked", "… on
// its own", "one teaspoon a day".
bool ends_plainly(const Talk& talk, const SpokenAmount& amount) {
  const auto& text = talk.text;
  constexpr std::array<std::string_view, 16> kGoesOn{"and", "so",      "then", "goes", "which", "ones",
                                                     "now", "exactly", "we",   "i",    "you",   "next",
                                                     "of",  "here",    "that", "in"};
  const auto end = amount.span.end;
  if (end >= text.size() || text[end].kind == TokenKind::Mark ||
      text.sentence(end) != text.sentence(end - 1) || is_descriptor(text[end].text))
    return true;
  const auto next = first_from(talk.sightings, end);
  return (next != talk.sightings.end() && next->span.begin == end) || is_any_word(text, end, kGoesOn);
}

bool is_quoted(const Talk& talk, const SpokenAmount& amount) {
  const auto& text = talk.text;
  constexpr std::array<std::string_view, 10> kOfOthers{
      "the recipe says", "the book says", "the packet says", "the card says", "the box says",
      "the doctor",      "your doctor",   "when i married",  "the bowl",      "of the bag"};
  constexpr std::size_t kReach = 12;
  const auto own = sentence_around(text, amount.span.begin, kReach);
  return holds_phrase(text, {own.begin, amount.span.begin}, kOfOthers);
}

bool is_gone_without(const Talk& talk, const FoodSighting& food) {
  const auto& text = talk.text;
  constexpr std::array<std::string_view, 12> kGone{"run out of", "out of",     "no",         "without",
                                                   "forgot",     "forget",     "instead of", "don't use",
                                                   "don't put",  "don't have", "not using",  "leave out"};
  constexpr std::array<std::string_view, 6> kLeftOut{"is off",   "'s off",  "i leave",
                                                     "i forgot", "i don't", "we don't"};
  constexpr std::size_t kNear = 4;
  const auto begin = food.span.begin;
  TokenSpan before{begin - std::min(kNear, begin), begin};
  while (before.begin < before.end && !(text.sentence(before.begin) == text.sentence(begin))) ++before.begin;
  TokenSpan after{food.span.end, std::min(text.size(), food.span.end + 2)};
  return holds_phrase(text, before, kGone) || holds_phrase(text, after, kLeftOut);
}

}  // namespace panslate
