#include "kitchen/age_words.h"

#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

// Whose age is told; common practice, no source.
constexpr std::string_view kPeople =
    "i|he|she|daughter|son|girl|boy|kid|child|baby|toddler|niece|nephew|cousin|sister|brother|twin|mum|mom|"
    "mam|mother|dad|father|nan|nana|gran|grandma|granny|grandad|granddad|grandpa|grandmother|grandfather|"
    "grandson|granddaughter|aunt|auntie|aunty|uncle|husband|wife|partner|friend|neighbour|neighbor|dog|cat|"
    "twins|kids|girls|boys";
constexpr std::string_view kPersonIs =
    "i'm|he's|she's|daughter's|son's|girl's|boy's|kid's|baby's|niece's|nephew's|sister's|brother's|mum's|"
    "mom's|mother's|dad's|father's|nan's|gran's|grandma's|granny's|grandad's|granddad's|grandpa's|uncle's|"
    "auntie's|aunty's|husband's|wife's|friend's|dog's|cat's";

std::size_t skip_hyphen(Tokens tokens, std::size_t at) {
  return is_text(tokens, at, "-") ? at + 1 : at;
}

// "eleven years old", "a forty-year-old tin", "three days old", "twenty years ago", "ten years".
std::size_t years_end(Tokens tokens, std::size_t after) {
  const auto span = skip_hyphen(tokens, after);
  const bool years = is_any(tokens, span, "year|years|yr|yrs|decade|decades|century|centuries");
  if (!years && !is_any(tokens, span, "month|months|week|weeks|day|days|hour|hours")) return after;
  const auto old = skip_hyphen(tokens, span + 1);
  if (is_text(tokens, old, "old")) return old + 1;
  return years ? span + 1 : after;
}

// The index of the word before `at`, past "just", "only", "nearly".
std::size_t word_before(Tokens tokens, std::size_t at) {
  auto i = at;
  while (i > 0 && is_any(tokens, i - 1, "just|only|nearly|almost|about|around|now|already|still|barely|over"))
    --i;
  return i;  // the word before is tokens[i - 1]
}

bool tells_an_age(Tokens tokens, std::size_t at) {
  const auto i = word_before(tokens, at);
  if (i == 0) return false;
  if (is_any(tokens, i - 1, "be|turn") && i > 1 && is_any(tokens, i - 2, "she'll|he'll|i'll")) return true;
  if (is_any(tokens, i - 1, "aged|turned|turns") || is_any(tokens, i - 1, kPersonIs)) return true;
  if (is_text(tokens, i - 1, "age")) return true;
  if (i < 2) return false;
  if (is_text(tokens, i - 1, "of") && is_text(tokens, i - 2, "age")) return true;
  if (is_any(tokens, i - 1, "is|was|were|are|am|be|turning"))
    return is_any(tokens, i - 2, kPeople) ||
           (is_any(tokens, i - 2, "will|only|just") && i > 2 && is_any(tokens, i - 3, kPeople));
  return false;
}

}  // namespace

std::size_t age_end(Tokens tokens, std::size_t at) {
  const auto number = number_at(tokens, at);
  if (!number) return at;
  if (const auto end = years_end(tokens, number->end); end > number->end) return end;
  constexpr int kOldest = 120;
  if (!number->value.is_whole() || Ratio(kOldest) < number->value || number->value.is_zero()) return at;
  // "she is two tablespoons in", "I'm one of those": something else is told.
  const auto after = number->end;
  // "my niece turns four on sunday"; "turns two on their side" is of the food.
  const bool birthday = at > 1 && is_any(tokens, at - 1, "turned|turns") && is_any(tokens, at - 2, kPeople);
  if (!birthday && is_any(tokens, after, "on|out|down")) return at;
  if (is_any(tokens, after, "of|to|or|-|a|an|%|°|degrees|×|more") ||
      unit_word_at(tokens, size_word_at(tokens, after).end, true) || could_be_counted(tokens, at, after))
    return at;
  return tells_an_age(tokens, at) ? after : at;
}

}  // namespace panslate
