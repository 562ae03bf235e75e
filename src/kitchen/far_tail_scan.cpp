#include "kitchen/far_tail_scan.h"

#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/unit_scan.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

constexpr std::size_t kLongestFood = 4;  // words

bool ends_food(Tokens tokens, std::size_t at) {
  return !is_word(tokens, at) || number_at(tokens, at) ||
         is_any(tokens, at,
                "and|then|with|so|but|plus|into|to|for|until|because|if|or|while|when|that's|i|you|we|it|"
                "is|are|goes|go|over");
}

struct Tail {
  bool about = false, total = false, each = false;
};

Tail tail_at(Tokens tokens, std::size_t at) {
  Tail tail;
  tail.about =
      is_text(tokens, at, "give") && is_text(tokens, at + 1, "or") && is_text(tokens, at + 2, "take");
  tail.total =
      (is_text(tokens, at, "in") && is_any(tokens, at + 1, "total|all")) || is_text(tokens, at, "altogether");
  const bool each_at_end =
      is_text(tokens, at, "each") && (!is_word(tokens, at + 1) || is_any(tokens, at + 1, "and|so|then|but"));
  tail.each = is_text(tokens, at, "apiece") || each_at_end ||
              (is_text(tokens, at, "per") && is_any(tokens, at + 1, "person|portion|serving|head|guest"));
  return tail;
}

// "four garlic cloves", "a dozen basil leaves": what is counted stands behind its food.
void take_unit_behind_food(Tokens tokens, ScannedAmount& found) {
  const auto food = found.end;
  if (found.has_unit || found.is_share || !is_word(tokens, food) || !could_be_counted(tokens, food, food))
    return;
  const auto unit = unit_at(tokens, food + 1, SpokenOrWritten::Spoken);
  if (!unit || !unit->plural || unit_at(tokens, food, SpokenOrWritten::Spoken)) return;
  const auto counted = unit->unit;
  if (counted != Unit::Clove && counted != Unit::Leaf && counted != Unit::Sprig && counted != Unit::Rasher)
    return;
  // A bay leaf is a thing of its own, as an onion is.
  if (counted == Unit::Leaf && is_any(tokens, food, "bay|curry|lime|vine|fig|banana|pandan|lettuce|cabbage"))
    return;
  found.amount.unit = counted;
  found.has_unit = true;
}

bool is_bought_size(Unit unit) {
  return unit == Unit::Can || unit == Unit::Jar || unit == Unit::Packet || unit == Unit::Block;
}

}  // namespace

void read_far_tail(Tokens tokens, ScannedAmount& found) {
  take_unit_behind_food(tokens, found);
  auto at = found.end;
  if (is_text(tokens, at, "of")) ++at;
  for (std::size_t words = 0; words <= kLongestFood; ++words, ++at) {
    const auto tail = tail_at(tokens, at);
    if (words > 0 && (tail.about || tail.total || tail.each)) {
      found.amount.about = found.amount.about || tail.about;
      found.is_total = found.is_total || tail.total;
      found.is_each = found.is_each || tail.each;
      return;
    }
    if (ends_food(tokens, at)) return;
  }
}

void take_unit_told_before(Tokens tokens, const ScannedAmount& before, ScannedAmount& found) {
  constexpr int kLeast = 20;
  constexpr std::size_t kReach = 12;
  if (found.has_unit || found.is_share || found.is_length || !found.amount.value || found.amount.to ||
      *found.amount.value < Ratio(kLeast) || !is_text(tokens, found.end, "of") ||
      !is_word(tokens, found.end + 1) ||
      is_any(tokens, found.end + 1, "the|them|these|those|that|this|it|us|you|my|our|your|each|which|a|an"))
    return;
  // After a kilo or a litre hundreds are grams or millilitres.
  auto unit = before.amount.unit;
  constexpr int kLeastAfterLarge = 50;
  const bool large = unit == Unit::Kilogram || unit == Unit::Liter;
  if (large && *found.amount.value < Ratio(kLeastAfterLarge)) return;
  if (unit == Unit::Kilogram) unit = Unit::Gram;
  if (unit == Unit::Liter) unit = Unit::Milliliter;
  if ((unit != Unit::Gram && unit != Unit::Milliliter) || before.is_share || before.amount.each) return;
  if (before.end > found.begin || found.begin - before.end > kReach) return;
  for (auto i = before.end; i < found.begin; ++i)
    if (is_any(tokens, i, ".|?|!|;")) return;
  found.amount.unit = unit;
  found.has_unit = true;
}

bool is_rate_of(Tokens tokens, const ScannedAmount& before, const ScannedAmount& found) {
  const auto unit = found.amount.unit;
  if ((unit != Unit::Day && unit != Unit::Week && unit != Unit::Month) ||
      !is_text(tokens, found.begin, "a") || found.amount.value != Ratio(1) || found.amount.to)
    return false;
  const auto measured = dimension_of(before.amount.unit);
  if (measured == Dimension::Time || measured == Dimension::Temperature) return false;
  if (before.has_unit && before.end == found.begin) return true;  // "six tins a month"
  if (!is_text(tokens, before.end, "of")) return false;
  const auto food = before.end + 1;
  if (food >= found.begin || found.begin > food + kLongestFood) return false;
  for (auto i = food; i < found.begin; ++i)
    if (ends_food(tokens, i)) return false;
  return true;
}

bool take_size_told_after(Tokens tokens, ScannedAmount& packages, const ScannedAmount& size) {
  if (!is_bought_size(packages.amount.unit) || packages.amount.each || !size.is_each) return false;
  if (!size.amount.value || size.amount.to || !is_mass_or_volume(size.amount.unit)) return false;
  if (!is_text(tokens, packages.end, "of") || size.begin > packages.end + 1 + kLongestFood) return false;
  for (auto i = packages.end + 1; i < size.begin; ++i)
    if (ends_food(tokens, i) && !is_text(tokens, i, ",")) return false;
  packages.amount.each = Package{*size.amount.value, size.amount.unit};
  return true;
}

}  // namespace panslate
