#include "kitchen/compound_scan.h"

#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/quantity_scan.h"
#include "kitchen/unit_scan.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

// "a cup and a half", "2 cups and a half".
bool add_fraction(Tokens tokens, ScannedAmount& found) {
  if (!is_any(tokens, found.end, "and|&") || found.amount.to || !found.amount.value) return false;
  const auto at = found.end + 1;
  if (!is_any(tokens, at, "a|an|one|three|two|half|quarter")) return false;
  const auto part = number_at(tokens, at);
  if (!part || Ratio(1) <= part->value) return false;
  // "a cup and half the stock", "a cup and three quarters of a teaspoon": something else is measured; but
  // "a cup and a half that looks a lot" is a cup and a half.
  const bool relative = is_any(tokens, at, "a|an") && is_text(tokens, part->end, "that");
  if (!relative && is_any(tokens, part->end, "a|an|the|that|this|my|your|dozen")) return false;
  const bool share = is_any(tokens, part->end + 1, "a|an") ||
                     (!is_any(tokens, at, "a|an|one") && is_any(tokens, part->end + 1, "the|it|that"));
  if (is_text(tokens, part->end, "of") && share) return false;
  if (unit_word_at(tokens, part->end, false)) return false;
  found.amount.value = found.amount.value->plus(part->value).value_or(*found.amount.value);
  found.end = part->end;
  return true;
}

// "one pound eight": ounces without the word.
void add_bare_ounces(Tokens tokens, ScannedAmount& found) {
  if (found.amount.unit != Unit::Pound || !found.amount.value || found.amount.to) return;
  const auto ounces = cardinal_at(tokens, found.end);
  if (!ounces || !ounces->value.is_whole() || Ratio(15) < ounces->value ||
      tokens[found.end].kind != TokenKind::Word)
    return;
  const auto end = ounces->end;
  // "two pounds eight of beef", but "a pound and eight of those".
  const bool of_food = is_text(tokens, end, "of") && is_word(tokens, end + 1) &&
                       !is_any(tokens, end + 1, "the|them|these|those|that|this|my|our|your|each|us");
  if (is_any(tokens, end, "%|×|°|-|/|to|or") || (is_word(tokens, end) && !of_food)) return;
  found.amount.value = found.amount.value->plus(ounces->value.over(Ratio(16)).value_or(Ratio(0)));
  found.end = end;
}

// "an hour and twenty", "1 hr 20": minutes without the word.
void add_bare_minutes(Tokens tokens, ScannedAmount& found) {
  if (found.amount.unit != Unit::Hour || !found.amount.value || found.amount.to) return;
  const bool joined = is_text(tokens, found.end, "and");
  const auto at = joined ? found.end + 1 : found.end;
  const auto minutes = cardinal_at(tokens, at);
  const Ratio least = joined ? 5 : 10;
  if (!minutes || !minutes->value.is_whole() || minutes->value < least || Ratio(59) < minutes->value) return;
  auto end = minutes->end;
  if (is_text(tokens, end, "m") && !tokens[end].space_before)
    ++end;
  else if (is_word(tokens, end) && could_be_counted(tokens, at, end))
    return;  // "an hour and twenty biscuits"
  // "1h30/2h": the end of a range may follow.
  const bool tight = !tokens[at].space_before && is_text(tokens, end, "/");
  if (is_any(tokens, end, "%|×|°|-|/") && !tight) return;
  found.amount.value = found.amount.value->plus(minutes->value.over(Ratio(60)).value_or(Ratio(0)));
  found.end = end;
}

// "1 lb 5 oz", "1 cup plus 2 tbsp", "2 cups and 1 tablespoon", "1 hr 20 min".
bool add_measured_part(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  if (!found.amount.value || found.amount.to || found.amount.each || !found.has_unit) return false;
  auto at = found.end;
  // "a cup minus a tablespoon", "a pound less two ounces".
  const bool taken_off = is_any(tokens, at, "minus|less");
  const bool joined = taken_off || is_any(tokens, at, "plus|and|+|&");
  const bool comma = is_text(tokens, at, ",") && dimension_of(found.amount.unit) != Dimension::Volume;
  if (joined || comma) ++at;
  if (!joined && is_any(tokens, at, "a|an|another")) return false;
  const auto part = measured_at(tokens, at, how);
  if (!part || !part->has_unit || !part->amount.value || part->amount.each || part->is_more) return false;
  const bool sum = (taken_off || is_any(tokens, found.end, "plus|+")) &&
                   found.amount.unit == part->amount.unit;  // "100 g + 50 g"
  const auto parts = sum ? std::optional(Ratio(1)) : parts_of(found.amount.unit, part->amount.unit);
  if (!parts) return false;
  const auto low = part->amount.value->over(*parts);
  const auto high = part->amount.to ? part->amount.to->over(*parts) : std::nullopt;
  if (!low || (part->amount.to && !high)) return false;
  const auto whole = *found.amount.value;
  // "a quarter of an hour, fifteen minutes": the same once more.
  if (comma && !part->amount.to && *low == whole) {
    found.end = part->end;
    return true;
  }
  if (taken_off) {
    const auto rest = high ? std::nullopt : whole.minus(*low);
    if (!rest || !(Ratio(0) < *rest)) return false;
    found.amount.value = rest;
    found.end = part->end;
    return true;
  }
  found.amount.value = whole.plus(*low);
  if (high) found.amount.to = whole.plus(*high);
  found.end = part->end;
  return found.amount.value.has_value();
}

}  // namespace

std::optional<Ratio> parts_of(Unit large, Unit small) {
  if (large == small || dimension_of(large) != dimension_of(small)) return std::nullopt;
  if (large == Unit::Pint && small == Unit::FluidOunce) return Ratio(20);
  const auto one = size_of(large, Measures::Us);
  const auto other = size_of(small, Measures::Us);
  if (!one || !other || one->size <= other->size) return std::nullopt;
  // Metric with kitchen measures ("1 cup plus 30 ml") would mix an exact figure with a country's cup.
  if (varies_by_measures(large) != varies_by_measures(small)) return std::nullopt;
  const auto metric = [](Unit unit) {
    return unit == Unit::Gram || unit == Unit::Milligram || unit == Unit::Kilogram;
  };
  if (dimension_of(large) == Dimension::Mass && metric(large) != metric(small)) return std::nullopt;
  return one->size.over(other->size);
}

void add_parts(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  constexpr int kMostParts = 3;
  if (found.is_length || add_fraction(tokens, found)) return;
  for (int i = 0; i < kMostParts && add_measured_part(tokens, found, how); ++i) {
  }
  add_bare_minutes(tokens, found);
  add_bare_ounces(tokens, found);
}

void take_range_end(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  auto& amount = found.amount;
  if (!amount.value || amount.to || !found.has_unit || amount.each || found.is_length) return;
  const auto at = found.end;
  const bool slash = is_text(tokens, at, "/") && dimension_of(amount.unit) == Dimension::Time;
  if (!is_any(tokens, at, "to|-|or") && !slash) return;
  const bool either = is_text(tokens, at, "or");
  if (either && amount.value == Ratio(1)) {
    // "a minute or two".
    const auto high = number_at(tokens, at + 1);
    if (high && !unit_word_at(tokens, skip_unit_hyphen(tokens, high->end), false) && Ratio(1) < high->value &&
        high->value <= Ratio(12)) {
      amount.to = high->value;
      found.end = high->end;
      return;
    }
  }
  // "twenty seconds or maybe twenty five seconds".
  const auto top = is_any(tokens, at + 1, "maybe|perhaps|possibly|even") ? at + 2 : at + 1;
  auto high = measured_at(tokens, top, how);
  if (!high || !high->has_unit || !high->amount.value || high->amount.to || high->amount.each ||
      high->is_more)
    return;
  if (high->amount.unit == Unit::Hour) (void)add_fraction(tokens, *high);
  auto low_value = amount.value;
  auto high_value = high->amount.value;
  auto unit = amount.unit;
  if (high->amount.unit != amount.unit) {
    if (either && dimension_of(amount.unit) != Dimension::Time) return;
    // In the smaller of the two units: "half an hour to forty minutes" is told in minutes.
    if (const auto finer = parts_of(amount.unit, high->amount.unit)) {
      low_value = amount.value->times(*finer);
      unit = high->amount.unit;
    } else if (const auto coarser = parts_of(high->amount.unit, amount.unit)) {
      high_value = high->amount.value->times(*coarser);
    } else {
      return;
    }
  }
  if (!low_value || !high_value || !(*low_value < *high_value)) return;
  amount.value = low_value;
  amount.to = high_value;
  amount.unit = unit;
  found.end = high->end;
}

}  // namespace panslate
