#include "kitchen/package_scan.h"

#include <utility>
#include <vector>

#include "panslate/kitchen/food.h"

#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_scan.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;
using Found = std::optional<ScannedAmount>;

// Words that are a package only when they are counted or followed by "of": "150 g fillet steak" is a steak.
bool names_a_food_too(Unit unit) {
  return unit == Unit::Fillet || unit == Unit::Leaf || unit == Unit::Sheet || unit == Unit::Clove ||
         unit == Unit::Slice || unit == Unit::Rasher || unit == Unit::Stalk || unit == Unit::Sprig;
}

struct PackageSize {
  Package size;
  std::size_t end = 0;
};

std::optional<PackageSize> package_size_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  const auto lead = about_words_at(tokens, at);
  const auto number = number_at(tokens, lead.end);
  if (!number) return std::nullopt;
  const auto unit = unit_at(tokens, skip_unit_hyphen(tokens, number->end), how);
  if (!unit || !is_mass_or_volume(unit->unit)) return std::nullopt;
  return PackageSize{{number->value.times(unit->factor).value_or(number->value), unit->unit}, unit->end};
}

// The size of a package in one or several measures: "400g/14oz", "15-ounce / 425 g".
std::vector<PackageSize> package_sizes_at(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  constexpr std::size_t kMostSizes = 3;
  std::vector<PackageSize> sizes;
  auto next = at;
  while (sizes.size() < kMostSizes) {
    const auto size = package_size_at(tokens, next, how);
    if (!size) break;
    sizes.push_back(*size);
    const bool bracket = is_text(tokens, size->end, "(") && package_size_at(tokens, size->end + 1, how);
    if (!bracket && !is_any(tokens, size->end, "/|or|,")) break;
    next = size->end + 1;
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

}  // namespace

bool is_package_size(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  return package_size_at(tokens, at, how).has_value();
}

Found packages_at(Tokens tokens, ScannedAmount found, std::size_t at, SpokenOrWritten how) {
  auto i = at;
  const bool times = is_any(tokens, i, "×|*|by|times|x|lots") && i + 1 < tokens.size();
  if (times) ++i;
  if (times && is_text(tokens, i, "of")) ++i;
  const bool bracket = !times && is_text(tokens, i, "(");
  if (bracket) ++i;
  // "1 - 15 oz can".
  if (!times && !bracket && is_text(tokens, i, "-") && i + 1 < tokens.size() && tokens[i].space_before &&
      tokens[i + 1].space_before)
    ++i;
  const auto sizes = package_sizes_at(tokens, i, how);
  if (sizes.empty()) return std::nullopt;
  // "8 (about 1.2 kg) drumsticks": what they weigh together.
  const bool together = bracket && about_words_at(tokens, i).about;
  auto end = sizes.back().end;
  const bool each = is_text(tokens, end, "each");
  if (each) ++end;
  if (bracket && !is_text(tokens, end, ")")) return std::nullopt;
  if (is_text(tokens, end, ")")) ++end;
  const auto container = unit_at(tokens, size_word_at(tokens, skip_unit_hyphen(tokens, end)).end, how);
  if (container && is_countable(*container)) {
    found.amount.unit = container->unit;
    found.end = container->end;
  } else if (times || (bracket && (each || (is_word(tokens, end) && !together)))) {
    // "2 x 200 g salmon fillets", "4 (6-ounce) chops": so many pieces.
    found.end = end;
  } else {
    return std::nullopt;
  }
  found.has_unit = true;
  add_sizes(found, sizes);
  return found;
}

void take_package_size(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  const bool bracket = is_text(tokens, found.end, "(");
  const auto at = bracket ? found.end + 1 : found.end;
  if (at >= tokens.size() || tokens[at].kind != TokenKind::Number) return;
  const auto sizes = package_sizes_at(tokens, at, how);
  if (sizes.empty()) return;
  auto end = sizes.back().end;
  // "(400 g each)"; a bracket without the word may hold the total.
  if (bracket && !(is_text(tokens, end, "each") && is_text(tokens, end + 1, ")"))) return;
  if (bracket) end += 2;
  add_sizes(found, sizes);
  found.end = end;
}

namespace {

// "300 g bottle gourd": no bottle.
bool begins_a_food(Tokens tokens, std::size_t begin, std::size_t end) {
  if (end != begin + 1 || !is_word(tokens, end)) return false;
  const auto* whole = find_food(tokens[begin].text + " " + tokens[end].text);
  return whole != nullptr && whole != find_food(tokens[end].text);
}

}  // namespace

void take_container(Tokens tokens, ScannedAmount& found, Article article, SpokenOrWritten how) {
  const auto size = found.amount;
  if (!size.value || size.to) return;
  const auto begin = size_word_at(tokens, skip_unit_hyphen(tokens, found.end)).end;
  const auto container = unit_at(tokens, begin, how);
  const bool told = article == Article::Told;
  // "a ninety gram portion": so much for each.
  if (container && container->unit == Unit::Serving && !container->plural) {
    found.is_each = true;
    found.end = container->end;
    return;
  }
  const bool fits = container && is_countable(*container) && !container->plural &&
                    !begins_a_food(tokens, begin, container->end) &&
                    (!names_a_food_too(container->unit) || is_text(tokens, container->end, "of") || told);
  const bool thing = told && is_word(tokens, found.end) && could_be_counted(tokens, found.end, found.end);
  if (!fits && !thing) return;
  found.amount = {};
  found.amount.value = Ratio(1);
  found.amount.each = Package{*size.value, size.unit};
  if (!fits) return;
  found.amount.unit = container->unit;
  found.end = container->end;
}

void take_length(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  found.is_length = true;
  found.has_unit = true;
  found.amount = {};
  found.amount.value = Ratio(1);
  constexpr int kMostSides = 2;
  for (int side = 0; side < kMostSides && is_any(tokens, found.end, "×|by|x"); ++side) {
    const auto number = number_at(tokens, found.end + 1);
    if (!number) break;
    found.end = number->end;
    if (const auto unit = unit_at(tokens, skip_unit_hyphen(tokens, number->end), how);
        unit && is_length(unit->unit))
      found.end = unit->end;
  }
  // "an inch and a half of ginger" is one piece as well.
  if (is_text(tokens, found.end, "and"))
    if (const auto part = number_at(tokens, found.end + 1); part && part->value < Ratio(1))
      found.end = part->end;
  auto at = skip_unit_hyphen(tokens, found.end);
  if (is_any(tokens, at, "long|thick|wide|sized|square|round")) ++at;
  // "a 10 cm length of lemongrass".
  if (is_any(tokens, at, "length|lengths")) {
    found.end = at + 1;
    return;
  }
  const auto container = unit_at(tokens, at, how);
  if (!container || container->kind == UnitWordKind::Measure) return;
  found.amount.unit = container->unit;
  found.end = container->end;
}

}  // namespace panslate
