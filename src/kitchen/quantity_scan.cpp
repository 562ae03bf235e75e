#include "kitchen/quantity_scan.h"

#include <utility>

#include "kitchen/compound_scan.h"
#include "kitchen/number_words.h"
#include "kitchen/package_scan.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_scan.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;
using Found = std::optional<ScannedAmount>;

void set_number(Amount& amount, const ScannedNumber& number, const Ratio& factor) {
  amount.value = number.value.times(factor);
  if (number.to) amount.to = number.to->times(factor);
  amount.about = amount.about || number.about;
}

// What stands before a number or an article: "another", "about", "a heaped".
struct Lead {
  bool more = false;
  bool about = false;
  std::optional<SpoonSize> size;
  std::size_t end = 0;
};

Lead lead_at(Tokens tokens, std::size_t at) {
  Lead lead;
  lead.end = at;
  constexpr std::string_view kMore = "another|further|extra|additional";
  if (is_any(tokens, at, kMore)) {
    lead.more = true;
    lead.end = at + 1;
  } else if (is_any(tokens, at, "a|an") && is_any(tokens, at + 1, kMore)) {
    lead.more = true;
    lead.end = at + 2;
  }
  const auto about = about_words_at(tokens, lead.end);
  lead.about = about.about;
  lead.end = about.end;
  // "heaped 2 tbsp": the size before the number.
  const auto size = size_word_at(tokens, lead.end);
  const bool spoon_size =
      size.end > lead.end && is_any(tokens, size.end - 1, "heaped|heaping|rounded|level|scant|generous|good");
  if (spoon_size && scan_number(tokens, size.end)) {
    lead.size = size.size;
    lead.about = lead.about || size.about;
    lead.end = size.end;
  }
  return lead;
}

// The unit said after "a" or "another": "a pinch", "an hour", "a heaped teaspoon", "a thumb-sized piece".
Found one_unit_at(Tokens tokens, std::size_t begin, const Lead& lead, std::size_t at, SpokenOrWritten how) {
  const auto about = about_words_at(tokens, at);
  const auto size = size_word_at(tokens, about.end);
  auto unit = unit_at(tokens, size.end, how);
  if (!unit || unit->plural || unit->unit == Unit::Serving) return std::nullopt;
  // "a can opener", "a stick blender", "a cup measure".
  if (is_any(tokens, unit->end, "opener|openers|blender|blenders|measure|measures|holder|tie|clip"))
    return std::nullopt;
  if (unit->kind == UnitWordKind::Vessel && !is_text(tokens, unit->end, "of")) return std::nullopt;
  if (const auto sized = skip_unit_hyphen(tokens, unit->end); is_any(tokens, sized, "size|sized"))
    if (const auto piece = unit_at(tokens, sized + 1, how); piece && piece->unit == Unit::Piece) unit = piece;
  ScannedAmount found;
  found.begin = begin;
  found.end = unit->end;
  found.is_more = lead.more;
  found.has_unit = true;
  found.amount.unit = unit->unit;
  found.amount.value = unit->factor;
  found.amount.size = size.size;
  found.amount.about = lead.about || about.about || size.about;
  if (is_length(unit->unit)) take_length(tokens, found, how);
  return found;
}

// Where the unit after a number may start: "half a teaspoon", "three quarters of a cup", "20-minute".
std::size_t unit_start(Tokens tokens, std::size_t at, bool fraction, SpokenOrWritten how) {
  const auto start = skip_unit_hyphen(tokens, at);
  const bool of = is_text(tokens, start, "of");
  if (of && is_any(tokens, start + 1, "a|an") && (fraction || unit_at(tokens, start + 2, how)))
    return start + 2;
  if (fraction && is_any(tokens, start, "a|an")) return start + 1;
  // "a quarter of hour", as those say it who grew up without articles.
  if (of && fraction && is_any(tokens, start + 1, "hour|minute")) return start + 1;
  return start;
}

// "7x7 cm", "nine by thirteen inch": sides, not a count.
bool take_sides(Tokens tokens, ScannedAmount& found, std::size_t at, SpokenOrWritten how) {
  if (!is_any(tokens, at, "×|by|x")) return false;
  const auto side = number_at(tokens, at + 1);
  if (!side) return false;
  const auto length = unit_at(tokens, skip_unit_hyphen(tokens, side->end), how);
  if (!length || !is_length(length->unit)) return false;
  const auto count = found.amount.value;
  const bool times = is_text(tokens, at, "×");
  found.end = length->end;
  take_length(tokens, found, how);
  // "2 x 5 cm pieces" are two; "20 x 30 cm tin" has sides.
  const bool pieces = found.amount.unit != Unit::Can && found.end > length->end;
  if (times && pieces && count->is_whole() && *count <= Ratio(12)) found.amount.value = count;
  return true;
}

// "2/3 cardamom pods", "5/6 cloves": of whole things so many, not two thirds; "2/3 onion" is a part of one.
void take_slashed_count(Tokens tokens, const ScannedNumber& number, Amount& amount) {
  const auto& token = tokens[number.end - 1];
  const bool slashed = token.kind == TokenKind::Number && token.raw.find('/') != std::string::npos;
  if (!slashed || number.to || number.value.num() < 2 || number.value.den() != number.value.num() + 1) return;
  amount.value = Ratio(number.value.num());
  amount.to = Ratio(number.value.den());
}

// "One 2-inch piece", "two 10 cm lengths": so many of a told length.
bool take_pieces_of_length(Tokens tokens, ScannedAmount& found, std::size_t at, SpokenOrWritten how) {
  if (how == SpokenOrWritten::Spoken || at >= tokens.size() || tokens[at].kind != TokenKind::Number)
    return false;
  const auto side = number_at(tokens, at);
  const auto length = side ? unit_at(tokens, skip_unit_hyphen(tokens, side->end), how) : std::nullopt;
  if (!length || !is_length(length->unit)) return false;
  const auto count = found.amount.value;
  found.end = length->end;
  take_length(tokens, found, how);
  found.amount.value = count;
  return true;
}

bool is_plural_noun(Tokens tokens, std::size_t at) {
  if (!is_word(tokens, at)) return false;
  const auto& word = tokens[at].text;
  return word.size() > 3 && word.back() == 's' && word[word.size() - 2] != 's' &&
         word[word.size() - 2] != 'u';
}

Found numbered_at(Tokens tokens, ScannedAmount found, const ScannedNumber& number, Article article,
                  SpokenOrWritten how) {
  auto after = number.end;
  if (is_any(tokens, after, "more|further|extra") &&
      (is_text(tokens, after, "more") || unit_at(tokens, after + 1, how))) {
    found.is_more = true;
    ++after;
  }
  // "twenty-ish minutes".
  if (const auto ish = about_tail_at(tokens, after);
      ish.about && unit_at(tokens, ish.end, how) && !is_any(tokens, after, "or|give")) {
    found.amount.about = true;
    after = ish.end;
  }
  found.end = after;
  set_number(found.amount, number, 1);
  if (take_sides(tokens, found, after, how)) return found;
  if (!number.to && article == Article::None)
    if (auto packages = packages_at(tokens, found, after, how)) return packages;
  if (!number.to && take_pieces_of_length(tokens, found, after, how)) return found;
  if (is_text(tokens, after, "×")) found.end = ++after;
  const bool fraction = number.value < Ratio(1);
  const auto start = unit_start(tokens, after, fraction, how);
  auto size = size_word_at(tokens, start);
  // "1 (heaping) tsp".
  if (is_text(tokens, start, "("))
    if (const auto inside = size_word_at(tokens, start + 1);
        inside.end > start + 1 && is_text(tokens, inside.end, ")") && unit_at(tokens, inside.end + 1, how))
      size = {inside.size, inside.about, inside.end + 1};
  auto unit = unit_at(tokens, skip_unit_hyphen(tokens, size.end), how);
  if (unit && unit->kind == UnitWordKind::Vessel && !is_text(tokens, unit->end, "of") &&
      !is_package_size(tokens, unit->end, how))
    unit.reset();
  if (!unit) {
    if (article == Article::Told) return std::nullopt;
    // "half a lemon": the article belongs to the half.
    if (fraction && start > after && is_any(tokens, start - 1, "a|an")) found.end = start;
    if (is_plural_noun(tokens, after) || (is_word(tokens, after) && is_plural_noun(tokens, after + 1)))
      take_slashed_count(tokens, number, found.amount);
    return found;
  }
  set_number(found.amount, number, unit->factor);
  found.amount.unit = unit->unit;
  if (unit->plural && is_countable(*unit)) take_slashed_count(tokens, number, found.amount);
  found.has_unit = true;
  found.end = unit->end;
  if (size.size) found.amount.size = size.size;
  found.amount.about = found.amount.about || size.about;
  const bool package = unit->unit == Unit::Can || unit->unit == Unit::Jar || unit->unit == Unit::Packet ||
                       unit->kind == UnitWordKind::Vessel;
  if (is_length(unit->unit))
    take_length(tokens, found, how);
  else if (is_mass_or_volume(unit->unit))
    take_container(tokens, found, article, how);
  else if (package && !number.to && article == Article::None)
    take_package_size(tokens, found, how);
  return found;
}

// "pinch of salt", "tin of tomatoes", "teaspoon of salt" without an article.
Found bare_unit_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  if (at > 0 &&
      (tokens[at - 1].kind == TokenKind::Number || number_at(tokens, at - 1) ||
       is_any(tokens, at - 1,
              "a|an|the|this|that|my|your|each|every|per|another|of|these|those|whole|same|other|first|"
              "last|second|with|by")))
    return std::nullopt;
  const auto size = size_word_at(tokens, at);
  const auto unit = unit_at(tokens, size.end, how);
  if (!unit || unit->plural || unit->kind == UnitWordKind::Vessel) return std::nullopt;
  const auto kind = dimension_of(unit->unit);
  const bool of = is_text(tokens, unit->end, "of") &&
                  (unit->kind == UnitWordKind::Container || kind == Dimension::Volume) &&
                  !is_any(tokens, unit->end + 1, "the|that|this|it");
  // "hour and a half", "cup and a half" without their article.
  const bool whole_and_half = (unit->unit == Unit::Hour || is_mass_or_volume(unit->unit)) &&
                              is_text(tokens, unit->end, "and") && is_text(tokens, unit->end + 1, "a") &&
                              is_text(tokens, unit->end + 2, "half");
  const bool bare_word = kind == Dimension::Little || unit->unit == Unit::Bunch || unit->unit == Unit::Sprig;
  const bool starts_line =
      how == SpokenOrWritten::Written && at == 0 && bare_word && is_word(tokens, unit->end);
  if (!of && !whole_and_half && !starts_line) return std::nullopt;
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

// "a few sprigs", "overnight": a unit without a number.
Found unnumbered_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  ScannedAmount found;
  found.begin = at;
  found.has_unit = true;
  if (is_text(tokens, at, "overnight")) {
    found.amount.unit = Unit::Hour;
    found.end = at + 1;
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
  return found;
}

}  // namespace

std::optional<ScannedAmount> measured_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  const auto lead = lead_at(tokens, at);
  ScannedAmount found;
  found.begin = at;
  found.is_more = lead.more;
  found.amount.about = lead.about;
  found.amount.size = lead.size;
  if (const auto number = scan_number(tokens, lead.end))
    return numbered_at(tokens, found, *number, Article::None, how);
  const bool article = is_any(tokens, lead.end, "a|an");
  if (!article) return lead.more ? one_unit_at(tokens, at, lead, lead.end, how) : std::nullopt;
  // "a 400 g tin", "a 20 minute rest", "a good two tablespoons".
  const auto about = about_words_at(tokens, lead.end + 1);
  const auto size = size_word_at(tokens, about.end);
  if (const auto number = scan_number(tokens, size.end)) {
    found.amount.about = found.amount.about || about.about || size.about;
    found.amount.size = size.size;
    return numbered_at(tokens, std::move(found), *number, Article::Told, how);
  }
  return one_unit_at(tokens, at, lead, lead.end + 1, how);
}

std::optional<ScannedAmount> quantity_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  if (auto unnumbered = unnumbered_at(tokens, at, how)) return unnumbered;
  auto found = measured_at(tokens, at, how);
  if (!found) found = bare_unit_at(tokens, at, how);
  if (!found || !found->has_unit) return found;
  add_parts(tokens, *found, how);
  take_range_end(tokens, *found, how);
  return found;
}

}  // namespace panslate
