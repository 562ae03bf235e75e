#include "kitchen/price_words.h"

#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

// "cost me", "paid about": money follows.
bool follows_price_word(Tokens tokens, std::size_t at) {
  auto i = at;
  while (i > 0 && is_any(tokens, i - 1, "me|you|us|about|around|just|only|nearly|almost|over|under|like"))
    --i;
  return i > 0 &&
         is_any(tokens, i - 1, "cost|costs|costing|paid|pay|paying|spent|charge|charges|charged|priced");
}

// A measure or a thing is told by the number: no price.
bool measures_something(Tokens tokens, std::size_t at, std::size_t after) {
  return is_any(tokens, after, "of|more|-|×|%|°|degrees") ||
         unit_word_at(tokens, size_word_at(tokens, after).end, true) || could_be_counted(tokens, at, after);
}

// "two pounds fifty", "cost three pounds ten": where the rest measures nothing.
std::size_t pounds_and_pence_end(Tokens tokens, std::size_t at, std::size_t after) {
  if (!is_any(tokens, after, "pound|pounds")) return at;
  const auto pence = number_at(tokens, after + 1);
  if (!pence) return at;
  if (follows_price_word(tokens, at) || is_text(tokens, at - 1, "only"))
    return unit_word_at(tokens, pence->end, true) ? at : pence->end;
  // Up to fifteen they may be ounces.
  const bool no_ounces = pence->value.is_whole() && Ratio(15) < pence->value && pence->value < Ratio(100);
  return no_ounces && !measures_something(tokens, after + 1, pence->end) ? pence->end : at;
}

bool is_sold(Tokens tokens, std::size_t at) {
  return is_any(tokens, at, "kilo|kg|pound|lb|bag|jar|bunch|punnet|packet|tin|bottle|box|dozen");
}

// "three fifty |a kilo|", "two ninety nine |for a bunch|": hundreds as prices are told, and what one gets for
// them.
bool is_price_for(Tokens tokens, const NumberWords& number) {
  constexpr int kLeast = 100, kMost = 2000;
  if (number.value < Ratio(kLeast) || Ratio(kMost) < number.value || !number.value.is_whole()) return false;
  if (is_any(tokens, number.end, "a|per")) return is_sold(tokens, number.end + 1);
  const auto pence = number.value.num() % 100;
  return is_text(tokens, number.end, "for") && is_any(tokens, number.end + 1, "a|the|one") &&
         is_sold(tokens, number.end + 2) && (pence == 99 || pence == 49 || pence == 95);
}

// "eleven fifty a kilo": above nine the pounds are no hundreds.
std::size_t tens_and_pence_end(Tokens tokens, std::size_t at, const NumberWords& number) {
  constexpr int kLeast = 10, kMost = 100;
  if (number.value < Ratio(kLeast) || Ratio(kMost) < number.value) return at;
  const auto pence = number_at(tokens, number.end);
  if (!pence || pence->value < Ratio(kLeast) || Ratio(kMost) < pence->value) return at;
  return is_any(tokens, pence->end, "a|per") && is_sold(tokens, pence->end + 1) ? pence->end : at;
}

// The price alone; `at` when none stands there.
std::size_t sum_end(Tokens tokens, std::size_t at, const NumberWords& number) {
  const auto after = number.end;
  if (at > 0 && is_any(tokens, at - 1, "£|$|€")) return after;
  if (is_any(tokens, after,
             "dollar|dollars|euro|euros|quid|pence|cents|bucks|rupee|rupees|peso|pesos|naira|rand|ringgit|"
             "shilling|shillings|dirham|dirhams|baht|yen|kroner|francs|fiver|tenner|p"))
    return after + 1;
  if (at > 0)
    if (const auto end = pounds_and_pence_end(tokens, at, after); end > at) return end;
  if (is_price_for(tokens, number)) return after;
  if (const auto end = tens_and_pence_end(tokens, at, number); end > at) return end;
  if (follows_price_word(tokens, at) && !measures_something(tokens, at, after)) return after;
  return at;
}

}  // namespace

std::size_t price_end(Tokens tokens, std::size_t at) {
  const auto number = number_at(tokens, at);
  if (!number) return at;
  const auto end = sum_end(tokens, at, *number);
  if (end == at || !is_any(tokens, end, "a|an|per")) return end;
  // "three dollars a pound", "costs four thousand a kilo".
  const auto what = unit_word_at(tokens, end + 1, false);
  return what && !what->plural && what->kind != UnitWordKind::Vessel ? what->end : end;
}

}  // namespace panslate
