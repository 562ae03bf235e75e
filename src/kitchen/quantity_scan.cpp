#include "kitchen/quantity_scan.h"

#include <utility>

#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;
using Found = std::optional<ScannedAmount>;

bool is_word(Tokens tokens, std::size_t at) {
  return at < tokens.size() && tokens[at].kind == TokenKind::Word;
}

std::size_t skip_hyphen(Tokens tokens, std::size_t at) {
  const bool tight = is_text(tokens, at, "-") && at + 1 < tokens.size() && !tokens[at + 1].space_before;
  return tight ? at + 1 : at;
}

bool is_measure(Unit unit) {
  const auto dimension = dimension_of(unit);
  return dimension == Dimension::Mass || dimension == Dimension::Volume;
}

bool is_length(Unit unit) {
  return dimension_of(unit) == Dimension::Length;
}

bool is_package(const UnitWord& word) {
  return word.kind != UnitWordKind::Measure && dimension_of(word.unit) == Dimension::Count;
}

// Words that are a package only when they are counted or followed by "of": "150 g fillet steak" is a steak.
bool names_a_food_too(Unit unit) {
  return unit == Unit::Fillet || unit == Unit::Leaf || unit == Unit::Sheet || unit == Unit::Clove ||
         unit == Unit::Slice || unit == Unit::Rasher || unit == Unit::Stalk || unit == Unit::Sprig;
}

void set_number(Amount& amount, const ScannedNumber& number, const Ratio& factor) {
  amount.value = number.value.times(factor);
  if (number.to) amount.to = number.to->times(factor);
  amount.about = amount.about || number.about;
}

std::optional<UnitWord> unit_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  auto unit = unit_word_at(tokens, at, how == SpokenOrWritten::Written);
  // "2in", "2-in piece": "in" grown onto the figure.
  if (!unit && is_text(tokens, at, "in") && at > 0 && !tokens[at].space_before &&
      (tokens[at - 1].kind == TokenKind::Number || is_text(tokens, at - 1, "-")))
    unit = UnitWord{Unit::Inch, 1, at + 1, UnitWordKind::Measure, false};
  if (!unit && is_any(tokens, at, "\"") && at > 0 && !tokens[at].space_before &&
      tokens[at - 1].kind == TokenKind::Number &&
      is_any(tokens, at + 1, "piece|thick|knob|cubes|chunks|long|stick|pieces"))
    unit = UnitWord{Unit::Inch, 1, at + 1, UnitWordKind::Measure, false};
  return unit;
}

// A measure that can be the size of a package: "400 g", "15-ounce", "400g/14oz"; end after it.
struct PackageSize {
  Package size;
  std::size_t end = 0;
};

std::optional<PackageSize> package_size_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  const auto lead = about_words_at(tokens, at);
  const auto number = number_at(tokens, lead.end);
  if (!number) return std::nullopt;
  const auto unit = unit_at(tokens, skip_hyphen(tokens, number->end), how);
  if (!unit || !is_measure(unit->unit)) return std::nullopt;
  return PackageSize{{number->value.times(unit->factor).value_or(number->value), unit->unit}, unit->end};
}

// Further sizes of the same package: "400g/14oz", "15-ounce / 425 g".
std::vector<PackageSize> package_sizes_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  std::vector<PackageSize> sizes;
  auto next = at;
  for (int i = 0; i < 3; ++i) {
    const auto size = package_size_at(tokens, next, how);
    if (!size) break;
    sizes.push_back(*size);
    if (is_any(tokens, size->end, "/|or|,"))
      next = size->end + 1;
    else if (is_text(tokens, size->end, "(") && package_size_at(tokens, size->end + 1, how))
      next = size->end + 1;
    else
      break;
  }
  return sizes;
}

void add_sizes(ScannedAmount& found, const std::vector<PackageSize>& sizes) {
  found.amount.each = sizes.front().size;
  for (std::size_t i = 1; i < sizes.size(); ++i) {
    auto other = found.amount;
    other.each = sizes[i].size;
    found.alternates.push_back(std::move(other));
  }
}

// After a count: "x 400 g tins", "(15-ounce) can", "400-gram tins", "by 400 gram tins".
Found package_at(Tokens tokens, ScannedAmount found, std::size_t at, SpokenOrWritten how) {
  auto i = at;
  const bool times = is_text(tokens, i, "×") || is_text(tokens, i, "*") ||
                     (is_any(tokens, i, "by|times|x|lots") && i + 1 < tokens.size());
  if (times) ++i;
  if (times && is_text(tokens, i, "of")) ++i;
  const bool bracket = !times && is_text(tokens, i, "(");
  if (bracket) ++i;
  if (!times && !bracket && is_text(tokens, i, "-") && i + 1 < tokens.size() && tokens[i].space_before &&
      tokens[i + 1].space_before)
    ++i;  // "1 - 15 oz can"
  const auto sizes = package_sizes_at(tokens, i, how);
  if (sizes.empty()) return std::nullopt;
  auto end = sizes.back().end;
  bool each = false;
  if (is_any(tokens, end, "each")) {
    each = true;
    ++end;
  }
  if (bracket) {
    if (!is_text(tokens, end, ")")) return std::nullopt;
    ++end;
  } else if (is_text(tokens, end, ")")) {
    ++end;
  }
  const auto word_at = size_word_at(tokens, skip_hyphen(tokens, end)).end;
  const auto container = unit_at(tokens, word_at, how);
  const bool container_follows = container && is_package(*container);
  if (container_follows) {
    found.amount.unit = container->unit;
    found.end = container->end;
    found.has_unit = true;
  } else if (times || (bracket && (each || (found.amount.value == Ratio(1) && is_word(tokens, end))))) {
    found.end = end;
    found.has_unit = true;
  } else {
    return std::nullopt;
  }
  add_sizes(found, sizes);
  return found;
}

// "and a half" after the unit: "a cup and a half", "2 cups and a half".
bool add_half_after(Tokens tokens, ScannedAmount& found) {
  const auto at = found.end;
  if (!is_any(tokens, at, "and|&") || found.amount.to || !found.amount.value) return false;
  auto part_at = at + 1;
  if (!is_any(tokens, part_at, "a|an|one|three|two|half|quarter")) return false;
  const auto part = number_at(tokens, part_at);
  if (!part || Ratio(1) <= part->value) return false;
  // "a cup and half the stock", "a cup and three quarters of a teaspoon": something else is measured.
  if (is_any(tokens, part->end, "a|an|the|that|this|my|your|dozen")) return false;
  if (is_text(tokens, part->end, "of") &&
      (is_any(tokens, part->end + 1, "a|an") ||
       (!is_any(tokens, part_at, "a|an|one") && is_any(tokens, part->end + 1, "the|it|that"))))
    return false;
  if (unit_word_at(tokens, part->end, false)) return false;
  found.amount.value = found.amount.value->plus(part->value).value_or(*found.amount.value);
  found.end = part->end;
  return true;
}

// "an hour and twenty", "1 hr 20": minutes without the word.
bool add_bare_minutes(Tokens tokens, ScannedAmount& found) {
  if (found.amount.unit != Unit::Hour || !found.amount.value || found.amount.to) return false;
  auto at = found.end;
  const bool joined = is_text(tokens, at, "and");
  if (joined) ++at;
  const auto minutes = cardinal_at(tokens, at);
  if (!minutes || !minutes->value.is_whole() || minutes->value < Ratio(5) || Ratio(59) < minutes->value)
    return false;
  if (!joined && minutes->value < Ratio(10)) return false;
  auto end = minutes->end;
  if (is_text(tokens, end, "m") && !tokens[end].space_before) ++end;
  // A count of something follows: "an hour and twenty biscuits".
  if (end == minutes->end && is_word(tokens, end) && could_be_counted(tokens, at, end)) return false;
  if (is_any(tokens, end, "%|×|°|-|/")) return false;
  found.amount.value = found.amount.value->plus(minutes->value.over(Ratio(60)).value_or(Ratio(0)));
  found.end = end;
  return true;
}

Found simple_at(Tokens tokens, std::size_t at, SpokenOrWritten how);

// "1 lb 5 oz", "1 cup plus 2 tbsp", "2 cups and 1 tablespoon", "1 hr 20 min".
bool add_part(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  if (!found.amount.value || found.amount.each || !found.has_unit) return false;
  auto at = found.end;
  const bool joined = is_any(tokens, at, "plus|and|+|&");
  if (joined)
    ++at;
  else if (is_text(tokens, at, ",") && dimension_of(found.amount.unit) != Dimension::Volume)
    ++at;
  const bool article = is_any(tokens, at, "a|an|another");
  if (!joined && article) return false;
  const auto part = simple_at(tokens, at, how);
  if (!part || !part->has_unit || !part->amount.value || part->amount.each || part->is_more) return false;
  const auto parts = parts_of(found.amount.unit, part->amount.unit);
  if (!parts) return false;
  const auto value = part->amount.value->over(*parts);
  if (!value) return false;
  if (found.amount.to || part->amount.to) {
    if (!part->amount.to || found.amount.to) return false;
    const auto high = part->amount.to->over(*parts);
    if (!high) return false;
    found.amount.to = found.amount.value->plus(*high);
  }
  found.amount.value = found.amount.value->plus(*value);
  found.end = part->end;
  return found.amount.value.has_value();
}

// A measure told of a package without a count: "400 g tin", "a 250 gram block", "a 2 cm piece".
void take_container(Tokens tokens, ScannedAmount& found, bool article, SpokenOrWritten how) {
  const auto size = found.amount;
  if (!size.value || size.to) return;
  auto at = size_word_at(tokens, skip_hyphen(tokens, found.end)).end;
  const auto container = unit_at(tokens, at, how);
  const bool fits = container && is_package(*container) && !container->plural &&
                    (!names_a_food_too(container->unit) || is_text(tokens, container->end, "of") || article);
  if (!fits) {
    const bool thing = article && is_word(tokens, found.end) && !is_text(tokens, found.end, "of") &&
                       could_be_counted(tokens, found.end, found.end);
    if (!thing) return;
  }
  found.amount = {};
  found.amount.value = Ratio(1);
  found.amount.each = Package{*size.value, size.unit};
  if (fits) {
    found.amount.unit = container->unit;
    found.end = container->end;
  }
}

// "4cm ginger", "a 2 cm piece of ginger": one piece (or stick), however long.
void take_length(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  found.is_length = true;
  found.amount = {};
  found.amount.value = Ratio(1);
  // "9 by 13 inch", "20 cm x 30 cm": further sides.
  for (int side = 0; side < 2 && is_any(tokens, found.end, "×|by|x"); ++side) {
    const auto number = number_at(tokens, found.end + 1);
    if (!number) break;
    found.end = number->end;
    if (const auto unit = unit_at(tokens, skip_hyphen(tokens, number->end), how);
        unit && is_length(unit->unit))
      found.end = unit->end;
  }
  auto at = skip_hyphen(tokens, found.end);
  if (is_any(tokens, at, "long|thick|wide|sized|square|round")) ++at;
  const auto container = unit_at(tokens, at, how);
  if (container && container->kind != UnitWordKind::Measure) {
    found.amount.unit = container->unit;
    found.end = container->end;
  }
}

// A number and its unit, without what may be added to it.
Found simple_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  ScannedAmount found;
  found.begin = at;
  auto i = at;
  if (is_any(tokens, i, "another|further|extra|additional") ||
      (is_any(tokens, i, "a|an") && is_any(tokens, i + 1, "further|extra|additional"))) {
    found.is_more = true;
    i += is_any(tokens, i, "a|an") ? 2U : 1U;
  }
  auto about = about_words_at(tokens, i);
  i = about.end;
  auto size = size_word_at(tokens, i);
  auto number = scan_number(tokens, size.end > i ? size.end : i);
  bool article = false;
  if (!number ||
      (size.end > i && !is_any(tokens, size.end - 1, "heaped|heaping|rounded|level|scant|generous|good"))) {
    number = scan_number(tokens, i);
    size = SizeWord{std::nullopt, false, i};
  }
  if (!number) {
    // "a pinch", "an hour", "another cup"; "a heaped teaspoon".
    article = is_any(tokens, i, "a|an");
    if (!article && !found.is_more) return std::nullopt;
    if (article) ++i;
    auto again = about_words_at(tokens, i);
    size = size_word_at(tokens, again.end);
    about.about = about.about || again.about;
    const auto inner = scan_number(tokens, size.end);
    if (inner && article) {
      // "a 400 g tin", "a 20 minute rest", "a good two tablespoons".
      number = inner;
    } else {
      const auto unit = unit_at(tokens, size.end, how);
      if (!unit || unit->kind == UnitWordKind::Vessel || unit->plural || unit->unit == Unit::Serving)
        return std::nullopt;
      found.amount.unit = unit->unit;
      found.amount.value = unit->factor;
      found.amount.size = size.size;
      found.amount.about = about.about || size.about;
      found.has_unit = true;
      found.end = unit->end;
      if (is_length(unit->unit)) take_length(tokens, found, how);
      return found;
    }
  }
  found.amount.about = about.about || size.about;
  found.amount.size = size.size;
  found.end = number->end;
  auto after = number->end;
  if (is_any(tokens, after, "more|further|extra")) {
    const bool unit_next = unit_at(tokens, after + 1, how).has_value();
    if (unit_next || !is_word(tokens, after + 1) || is_text(tokens, after, "more")) {
      found.is_more = true;
      ++after;
      found.end = after;
    }
  }
  set_number(found.amount, *number, 1);
  const bool was_fraction = number->value < Ratio(1);
  if (!found.amount.to && !article)
    if (const auto package = package_at(tokens, found, after, how)) return package;
  if (is_text(tokens, after, "×")) ++after, found.end = after;
  auto unit_from = skip_hyphen(tokens, after);
  if (was_fraction) {
    if (is_text(tokens, unit_from, "of") && is_any(tokens, unit_from + 1, "a|an"))
      unit_from += 2;
    else if (is_any(tokens, unit_from, "a|an"))
      unit_from += 1;
  } else if (is_text(tokens, unit_from, "of") && is_any(tokens, unit_from + 1, "a") &&
             unit_at(tokens, unit_from + 2, how)) {
    unit_from += 2;
  }
  const auto unit_size = size_word_at(tokens, unit_from);
  auto unit = unit_at(tokens, unit_size.end, how);
  if (!unit && unit_size.end > unit_from && unit_size.size) {
    unit = unit_at(tokens, skip_hyphen(tokens, unit_size.end), how);
  }
  if (unit && unit->kind == UnitWordKind::Vessel) unit.reset();
  if (!unit) {
    if (article && !found.is_more) return std::nullopt;
    // "half a lemon": the article belongs to the half.
    if (was_fraction && unit_from > after && is_any(tokens, unit_from - 1, "a|an")) found.end = unit_from;
    return found;
  }
  set_number(found.amount, *number, unit->factor);
  found.amount.unit = unit->unit;
  found.has_unit = true;
  found.end = unit->end;
  if (unit_size.size) found.amount.size = unit_size.size;
  found.amount.about = found.amount.about || unit_size.about;
  if (is_length(unit->unit))
    take_length(tokens, found, how);
  else if (is_measure(unit->unit))
    take_container(tokens, found, article, how);
  return found;
}

// The upper end of a range with its unit said twice: "25 minutes to 30 minutes", "45 minutes to an hour".
void take_range_end(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  if (!found.amount.value || found.amount.to || !found.has_unit || found.amount.each || found.is_length)
    return;
  const auto at = found.end;
  if (is_text(tokens, at, "or")) {
    // "a minute or two".
    const auto high = number_at(tokens, at + 1);
    const bool bare = high && !unit_word_at(tokens, skip_hyphen(tokens, high->end), false) &&
                      *found.amount.value < high->value && high->value <= Ratio(12);
    if (bare && found.amount.value == Ratio(1)) {
      found.amount.to = high->value;
      found.end = high->end;
      return;
    }
  }
  if (!is_any(tokens, at, "to|-|or")) return;
  auto high = simple_at(tokens, at + 1, how);
  if (!high || !high->has_unit || !high->amount.value || high->amount.to || high->amount.each ||
      high->is_more)
    return;
  if (high->amount.unit == Unit::Hour) (void)add_half_after(tokens, *high);
  if (high->amount.unit == found.amount.unit) {
    if (!(*found.amount.value < *high->amount.value)) return;
    found.amount.to = high->amount.value;
    found.end = high->end;
    return;
  }
  if (is_text(tokens, at, "or") && dimension_of(found.amount.unit) != Dimension::Time) return;
  if (const auto finer = parts_of(found.amount.unit, high->amount.unit)) {
    // "half an hour to forty minutes" is told in minutes.
    const auto low = found.amount.value->times(*finer);
    if (!low || !(*low < *high->amount.value)) return;
    found.amount.value = low;
    found.amount.to = high->amount.value;
    found.amount.unit = high->amount.unit;
    found.end = high->end;
    return;
  }
  const auto parts = parts_of(high->amount.unit, found.amount.unit);
  if (!parts) return;
  const auto top = high->amount.value->times(*parts);
  if (!top || !(*found.amount.value < *top)) return;
  found.amount.to = top;
  found.end = high->end;
}

// "pinch of salt", "tin of tomatoes" without an article.
Found bare_container_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  if (at > 0 && (tokens[at - 1].kind == TokenKind::Number ||
                 is_any(tokens, at - 1,
                        "a|an|the|this|that|my|your|each|every|per|another|of|one|these|those|whole|same")))
    return std::nullopt;
  const auto size = size_word_at(tokens, at);
  const auto unit = unit_at(tokens, size.end, how);
  if (!unit || unit->plural) return std::nullopt;
  const bool of = is_text(tokens, unit->end, "of");
  const bool time_and_half = unit->unit == Unit::Hour && is_text(tokens, unit->end, "and") &&
                             is_text(tokens, unit->end + 1, "a") && is_text(tokens, unit->end + 2, "half");
  const bool starts_line = how == SpokenOrWritten::Written && at == 0 &&
                           dimension_of(unit->unit) == Dimension::Little && is_word(tokens, unit->end);
  if (!time_and_half && !starts_line && !(of && unit->kind == UnitWordKind::Container)) return std::nullopt;
  ScannedAmount found;
  found.begin = at;
  found.end = unit->end;
  found.amount.unit = unit->unit;
  found.amount.value = unit->factor;
  found.amount.size = size.size;
  found.amount.about = size.about;
  found.has_unit = true;
  return found;
}

// "a few sprigs", "several drops": a unit without a number.
Found unnumbered_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  ScannedAmount found;
  found.begin = at;
  if (is_text(tokens, at, "overnight")) {
    found.amount.unit = Unit::Hour;
    found.end = at + 1;
    found.has_unit = true;
    return found;
  }
  auto i = at;
  if (is_text(tokens, i, "a") && is_text(tokens, i + 1, "few"))
    i += 2;
  else if (is_any(tokens, i, "few|several"))
    i += 1;
  else
    return std::nullopt;
  if (is_any(tokens, i, "more|good|small|large|big")) ++i;
  const auto unit = unit_at(tokens, i, how);
  if (!unit || unit->kind == UnitWordKind::Vessel) return std::nullopt;
  found.amount.unit = unit->unit;
  found.end = unit->end;
  found.has_unit = true;
  return found;
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
  const bool metric_large = large == Unit::Gram || large == Unit::Kilogram;
  const bool metric_small = small == Unit::Gram || small == Unit::Milligram || small == Unit::Kilogram;
  if (dimension_of(large) == Dimension::Mass && metric_large != metric_small) return std::nullopt;
  return one->size.over(other->size);
}

std::optional<ScannedAmount> quantity_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  auto found = unnumbered_at(tokens, at, how);
  if (found) return found;
  found = simple_at(tokens, at, how);
  if (!found) found = bare_container_at(tokens, at, how);
  if (!found || !found->has_unit) return found;
  if (!add_half_after(tokens, *found)) {
    for (int i = 0; i < 3 && add_part(tokens, *found, how); ++i) {
    }
    (void)add_bare_minutes(tokens, *found);
  }
  take_range_end(tokens, *found, how);
  return found;
}

}  // namespace panslate
