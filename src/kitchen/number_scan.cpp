#include "panslate/kitchen/amount_scan.h"

#include "kitchen/number_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

// Where the second number of a range would start; empty when no range word stands at `at`.
std::optional<std::size_t> after_range_word(Tokens tokens, std::size_t at) {
  // "100~150 g".
  if (is_text(tokens, at, "~") && !tokens[at].space_before && at > 0) return at + 1;
  if (is_text(tokens, at, "-")) {
    // "2- to 3-inch".
    return is_any(tokens, at + 1, "to|or") ? at + 2 : at + 1;
  }
  if (is_any(tokens, at, "to|or|till|through"))
    return is_any(tokens, at + 1, "maybe|even|perhaps|possibly|about") ? at + 2 : at + 1;
  // "two, maybe three".
  const auto maybe = is_text(tokens, at, ",") ? at + 1 : at;
  if (is_any(tokens, maybe, "maybe|perhaps|possibly")) return maybe + 1;
  return std::nullopt;
}

bool is_time_ahead(Tokens tokens, std::size_t at) {
  const auto unit = unit_word_at(tokens, at, false);
  return unit && dimension_of(unit->unit) == Dimension::Time;
}

// "two three minutes", "five, ten minutes": a loose range, only right before a unit.
std::optional<NumberWords> loose_range_end(Tokens tokens, const NumberWords& low) {
  if (!low.value.is_whole() || Ratio(20) < low.value) return std::nullopt;
  auto at = low.end;
  if (is_text(tokens, at, ",")) ++at;
  const auto high = cardinal_at(tokens, at);
  if (!high || !high->value.is_whole() || high->value <= low.value) return std::nullopt;
  const auto step = *high->value.minus(low.value);
  if (step == Ratio(1) && unit_word_at(tokens, high->end, false)) return high;
  const bool fives = low.value.num() % 5 == 0 && high->value.num() % 5 == 0 && high->value <= Ratio(60);
  if (fives && is_time_ahead(tokens, high->end)) return high;
  return std::nullopt;
}

std::optional<NumberWords> range_end(Tokens tokens, const NumberWords& low, bool between) {
  if (between && is_text(tokens, low.end, "and")) {
    const auto high = number_at(tokens, low.end + 1);
    return high && low.value < high->value ? high : std::nullopt;
  }
  // "4 (or 5) anchovies".
  if (is_text(tokens, low.end, "(") && is_any(tokens, low.end + 1, "or|to")) {
    auto high = number_at(tokens, low.end + 2);
    if (high && low.value < high->value && is_text(tokens, high->end, ")")) {
      ++high->end;
      return high;
    }
  }
  // "25/30 minutes".
  if (is_text(tokens, low.end, "/") && low.value.is_whole() && Ratio(5) <= low.value) {
    const auto high = number_at(tokens, low.end + 1);
    if (high && low.value < high->value && high->value <= *low.value.times(Ratio(2)) &&
        is_time_ahead(tokens, high->end))
      return high;
  }
  if (const auto second = after_range_word(tokens, low.end)) {
    const auto high = number_at(tokens, *second);
    if (high && low.value < high->value) return high;
    return std::nullopt;
  }
  return loose_range_end(tokens, low);
}

}  // namespace

std::optional<ScannedNumber> scan_number(Tokens tokens, std::size_t at) {
  const auto lead = about_words_at(tokens, at);
  const bool between = is_text(tokens, lead.end, "between");
  auto low = number_at(tokens, between ? lead.end + 1 : lead.end);
  if (!low) return std::nullopt;
  // "between one and a half and two" read "one and a half" whole; "between two and three" must not be cut.
  ScannedNumber number{low->value, std::nullopt, lead.about || low->about, low->end};
  // "for each one two minutes a side": which one, not how many.
  const bool pronoun = at > 0 && lead.end == at && is_text(tokens, at, "one") &&
                       is_any(tokens, at - 1, "each|every|this|that|first|last|other|second");
  if (const auto high = pronoun ? std::nullopt : range_end(tokens, *low, between)) {
    number.to = high->value;
    number.about = number.about || high->about;
    number.end = high->end;
  }
  return number;
}

}  // namespace panslate
