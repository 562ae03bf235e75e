#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_set>

#include "panslate/kitchen/food.h"

#include "check/phrase.h"
#include "check/span_search.h"
#include "check/talk.h"

/// Amounts and additions of foods that the recipe does not have.
namespace panslate {

namespace {

const std::unordered_set<std::string_view> kNounEnds{
    "and",   "or",   "then", "to",    "into", "in",    "with",   "on",    "onto",    "for", "from", "until",
    "at",    "by",   "so",   "but",   "is",   "are",   "goes",   "go",    "plus",    "as",  "it",   "we",
    "you",   "i",    "now",  "next",  "over", "after", "before", "while", "because", "if",  "when", "that",
    "which", "just", "here", "there", "them", "too",   "also",   "again", "about"};

bool is_measure(const ScannedAmount& scan) {
  const auto dimension = dimension_of(scan.amount.unit);
  return scan.has_unit && (dimension == Dimension::Mass || dimension == Dimension::Volume ||
                           dimension == Dimension::Count || dimension == Dimension::Little);
}

// The noun after "of": up to three words, ended by a word of another kind.
TokenSpan noun_after(const SpokenText& text, std::size_t at) {
  std::size_t begin = at;
  while (begin < text.size() &&
         (text.is_word(begin, "of") || text.is_word(begin, "the") || text.is_word(begin, "a") ||
          text.is_word(begin, "my") || text.is_word(begin, "our") || text.is_word(begin, "some") ||
          is_descriptor(text[begin].text)))
    ++begin;
  std::size_t end = begin;
  while (end < text.size() && end < begin + 3 && text[end].kind == TokenKind::Word &&
         !kNounEnds.contains(text[end].text) && text.sentence(end) == text.sentence(at == 0 ? 0 : at - 1))
    ++end;
  return {begin, end};
}

bool names_container_or_tool(const SpokenText& text, TokenSpan noun) {
  // "a cup of the batter", "a spoon of it" speak of what is being made. Common practice, no source.
  static const std::unordered_set<std::string_view> kMade{
      "batter",  "dough",  "mixture", "mix",   "sauce", "filling", "dressing", "marinade", "paste",
      "stuff",   "it",     "this",    "that",  "them",  "these",   "those",    "water",    "time",
      "pastry",  "liquid", "topping", "glaze", "salsa", "soup",    "stew",     "crumb",    "crumble",
      "custard", "icing",  "syrup",   "puree", "mash",  "salad",   "broth",    "love",     "each"};
  return noun.empty() || kMade.contains(text[noun.end - 1].text) || kMade.contains(text[noun.begin].text);
}

// Two fragments: the food, and its amount.
bool stands_alone_behind(const SpokenText& text, TokenSpan amount, TokenSpan food) {
  constexpr std::size_t kFew = 5;
  const auto told = sentence_around(text, amount.begin, kFew);
  const auto named = sentence_around(text, food.begin, kFew);
  return named.end == told.begin && told.end - told.begin < kFew && named.end - named.begin < kFew;
}

}  // namespace

void find_strange_foods(Talk& talk) {
  const auto& text = talk.text;
  for (std::size_t a = 0; a < talk.amounts.size(); ++a) {
    const auto& amount = talk.amounts[a];
    if (amount.food || amount.taken_back || amount.portion || amount.late || amount.scan.is_share ||
        !is_measure(amount.scan))
      continue;
    // A food of the table right after the amount, or whatever follows "of".
    const auto other = first_from(talk.other_foods, amount.span.end);
    if (other != talk.other_foods.end() && other->span.begin - amount.span.end <= 4 &&
        text.sentence(other->span.begin) == text.sentence(amount.span.begin)) {
      talk.strange.push_back({a, other->span});
      continue;
    }
    // "White pepper. Big pinch."
    if (other != talk.other_foods.begin() && stands_alone_behind(text, amount.span, (other - 1)->span)) {
      talk.strange.push_back({a, (other - 1)->span});
      continue;
    }
    if (!text.is_word(amount.span.end, "of")) continue;
    const auto noun = noun_after(text, amount.span.end);
    if (!names_container_or_tool(text, noun)) talk.strange.push_back({a, noun});
  }
}

}  // namespace panslate
