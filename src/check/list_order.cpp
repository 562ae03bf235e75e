#include "check/list_order.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "check/phrase.h"
#include "check/span_search.h"

namespace panslate {

namespace {

// Tied to the food before it already, and so not to this one: "kerisik eighty grams, tamarind …".
bool is_told_of_another(const Talk& talk, const SpokenAmount& amount, std::size_t food) {
  if (!amount.food || amount.tie != Tie::Behind) return false;
  const auto& own = talk.sightings[*amount.food].targets;
  const auto& other = talk.sightings[food].targets;
  return std::find_first_of(own.begin(), own.end(), other.begin(), other.end()) == own.end();
}

// "beans eighty grams, peas fifty grams, frozen is okay, turmeric quarter teaspoon salt": as she has told
// the last ones.
bool names_come_first(const Talk& talk, std::size_t index) {
  constexpr std::size_t kFew = 3;
  constexpr std::size_t kReach = 40;
  std::size_t told = 0;
  for (auto i = index; i-- > 0 && told < kFew;) {
    const auto& before = talk.amounts[i];
    if (talk.amounts[index].span.begin - before.span.end > kReach) break;
    if (!before.food) continue;
    if (before.tie != Tie::Behind) return false;
    ++told;
  }
  return told == kFew;
}

}  // namespace

bool amounts_come_first(const Talk& talk, const AmountReach& reach, std::size_t index) {
  std::size_t begin = talk.amounts[index].span.begin;
  bool begins_with_amount = true;
  for (std::size_t i = index;;) {
    const auto food = reach.sighting_before(begin);
    if (!food || !reach.reaches_backward(talk.amounts[i], talk.sightings[*food])) break;
    begin = talk.sightings[*food].span.begin;
    begins_with_amount = false;
    // "My wife would put six, God rest her. Mustard seeds one teaspoon": no part of the list.
    if (i == 0 || talk.amounts[i - 1].span.end > begin || talk.amounts[i - 1].beside ||
        is_told_of_another(talk, talk.amounts[i - 1], *food) ||
        reach.reaches_forward(talk.amounts[i - 1], talk.sightings[*food]) == 0)
      break;
    --i;
    begin = talk.amounts[i].span.begin;
    begins_with_amount = true;
  }
  if (begins_with_amount) return true;
  // It begins with a food; if it also ends with one, "of" or nearness had to decide, and forwards is the
  // commoner way.
  std::size_t end = talk.amounts[index].span.end;
  for (std::size_t i = index;;) {
    const auto food = reach.next_sighting(end);
    if (!food || reach.reaches_forward(talk.amounts[i], talk.sightings[*food]) == 0) return false;
    end = talk.sightings[*food].span.end;
    if (i + 1 >= talk.amounts.size() || !reach.reaches_backward(talk.amounts[i + 1], talk.sightings[*food]))
      return !names_come_first(talk, index);
    ++i;
    end = talk.amounts[i].span.end;
  }
}

bool is_odd_count(const Talk& talk, const std::vector<FoodTarget>& targets, const SpokenAmount& amount,
                  std::size_t food) {
  if (amount.scan.has_unit || amount.scan.is_share || talk.text.is_word(amount.span.end, "of")) return false;
  const auto& named = talk.sightings[food].targets;
  return std::all_of(named.begin(), named.end(), [&](std::size_t t) {
    const auto& units = targets[t].units;
    return !units.empty() && std::all_of(units.begin(), units.end(), [](Unit unit) {
      return unit == Unit::Teaspoon || unit == Unit::Tablespoon;
    });
  });
}

bool is_first_of_list(const Talk& talk, const AmountReach& reach, std::size_t food, std::size_t index) {
  constexpr std::size_t kFew = 6;
  const auto& named = talk.sightings[food].span;
  const auto& amount = talk.amounts[index];
  const bool first = index == 0 || talk.amounts[index - 1].span.end <= named.begin;
  const auto other = first_from(talk.other_foods, named.end);
  // The food ahead has its own amount behind it: so runs the list.
  const auto ahead = reach.next_sighting(amount.span.end);
  const auto next = ahead ? first_from(talk.amounts, talk.sightings[*ahead].span.end) : talk.amounts.end();
  if (next == talk.amounts.end() || next->span.begin > talk.sightings[*ahead].span.end + 1) return false;
  constexpr std::array<std::string_view, 6> kNone{"leave", "without", "skip", "no", "not", "never"};
  for (auto at = named.end; at < amount.span.begin; ++at)
    if (is_any_word(talk.text, at, kNone)) return false;
  return first && amount.span.begin - named.end <= kFew &&
         talk.text.sentence(named.begin) == talk.text.sentence(amount.span.begin) &&
         (other == talk.other_foods.end() || other->span.begin >= amount.span.begin) &&
         !talk.text.is_word(amount.span.begin - 1, "and");
}

}  // namespace panslate
