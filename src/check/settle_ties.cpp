#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "check/amount_reach.h"
#include "check/phrase.h"
#include "check/talk.h"

/// What amounts tied to foods tell about each other: neighbours share by their kinds, equals told after a
/// food are one amount, a correction takes over the food of what it corrects.
namespace panslate {

namespace {

class Settling {
 public:
  Settling(Talk& talk, const std::vector<FoodTarget>& targets)
      : talk_(talk), text_(talk.text), reach_(talk, targets) {}

  void run() {
    for (std::size_t f = 1; f < talk_.sightings.size(); ++f) share_between_neighbours(f);
    join_told_equals();
    for (auto& amount : talk_.amounts) inherit_from_correction(amount);
    for (std::size_t i = 0; i < talk_.amounts.size(); ++i) correct_what_was_told(i);
  }

 private:
  // "two hundred grams of flour, sorry, three hundred": the correction speaks of the same food.
  void inherit_from_correction(SpokenAmount& amount) {
    if (amount.taken_back || amount.portion) return;
    const auto index = static_cast<std::size_t>(&amount - talk_.amounts.data());
    if (index == 0) return;
    const auto& before = talk_.amounts[index - 1];
    if (!before.taken_back || !before.food || amount.span.begin - before.span.end > 12) return;
    if (amount.food && talk_.sightings[*amount.food].targets != talk_.sightings[*before.food].targets) return;
    if (!amount.scan.has_unit && before.scan.has_unit) amount.scan.amount.unit = before.scan.amount.unit;
    if (amount.food || !is_food_amount(amount.scan)) return;
    amount.food = before.food;
    amount.tie = before.tie;
  }

  [[nodiscard]] bool is_written_in_kind(const FoodSighting& food, const SpokenAmount& amount) const {
    return reach_.is_written_in_kind(food, amount);
  }

  // "chicken thighs, you want 800 grams onions two of them": an amount between two foods goes to the first
  // where the second has one of its own kind behind it. Kinds decide, never values.
  void share_between_neighbours(std::size_t second) {
    SpokenAmount* between = nullptr;
    SpokenAmount* behind = nullptr;
    bool first_has_one = false;
    for (auto& amount : talk_.amounts) {
      if (amount.food == second - 1) first_has_one = true;
      if (amount.food != second || amount.taken_back) continue;
      (amount.span.end <= talk_.sightings[second].span.begin ? between : behind) = &amount;
    }
    const auto& food = talk_.sightings[second];
    const auto& neighbour = talk_.sightings[second - 1];
    if (first_has_one || between == nullptr || behind == nullptr || between->tie != Tie::Before ||
        behind->span.begin > food.span.end + 1 || between->span.begin < neighbour.span.end ||
        between->span.begin - neighbour.span.end > kDistantReach / 2 ||
        text_.sentence(between->span.begin) != text_.sentence(neighbour.span.begin))
      return;
    if (is_written_in_kind(food, *between) || !is_written_in_kind(food, *behind) ||
        !is_written_in_kind(neighbour, *between))
      return;
    set(*between, second - 1, Tie::Behind);
  }

  // "four ounces of Monterey Jack, which is two hundred grams": the same amount in other measures.
  void join_told_equals() {
    constexpr std::array<std::string_view, 5> kEquals{"which is", "which s", "that's", "that is", "thats"};
    std::vector<SpokenAmount> kept;
    for (auto& amount : talk_.amounts) {
      auto* last = kept.empty() ? nullptr : &kept.back();
      const bool open = last != nullptr && last->food && last->tie == Tie::Before && !last->taken_back &&
                        last->scan.has_unit && amount.scan.has_unit && amount.scan.amount.value &&
                        (!amount.food || amount.food == last->food) &&
                        dimension_of(amount.scan.amount.unit) <= Dimension::Volume &&
                        dimension_of(last->scan.amount.unit) <= Dimension::Volume &&
                        amount.scan.amount.unit != last->scan.amount.unit &&
                        !text_.is_word(amount.span.end, "of");
      if (open) {
        auto at = talk_.sightings[*last->food].span.end;
        if (text_.is_word(at, ",")) ++at;
        const bool equal = std::any_of(kEquals.begin(), kEquals.end(), [&](const auto phrase) {
          return match_phrase(text_, at, phrase) == amount.span.begin && amount.span.begin > at;
        });
        if (equal) {
          last->scan.alternates.push_back(amount.scan.amount);
          continue;
        }
      }
      kept.push_back(std::move(amount));
    }
    talk_.amounts = std::move(kept);
  }

  // "Green chillies. I said three, no? I've taken one back. Make that two green chillies": she comes back to
  // an amount of the same food that she told before, and says that she did.
  void correct_what_was_told(std::size_t index) {
    auto& amount = talk_.amounts[index];
    if (!amount.food || amount.taken_back || amount.scan.is_more || amount.scan.is_share ||
        !amount.scan.amount.value)
      return;
    constexpr std::size_t kReach = 32;
    constexpr std::array<std::string_view, 9> kTold{"i said",       "you said",  "i told you",
                                                    "i told y'all", "did i say", "i did say",
                                                    "said before",  "make that", "i must have said"};
    const TokenSpan lead{amount.span.begin - std::min(kReach, amount.span.begin), amount.span.begin};
    if (!holds_phrase(text_, lead, kTold)) return;
    bool other_before = false;
    for (std::size_t k = 0; k < index; ++k) {
      const auto& before = talk_.amounts[k];
      if (!before.food || before.taken_back || before.span.end + kReach / 4 > amount.span.begin) continue;
      if (talk_.sightings[*before.food].targets != talk_.sightings[*amount.food].targets) continue;
      // A food of its own between the words and the amount is another matter.
      other_before = other_before || !(before.scan.amount == amount.scan.amount);
    }
    if (other_before) amount.corrects = true;
  }

  void set(SpokenAmount& amount, std::size_t food, Tie tie) {
    amount.food = food;
    amount.tie = tie;
    amount.suggested = talk_.sightings[food].suggested;
  }

  Talk& talk_;
  const SpokenText& text_;
  AmountReach reach_;
};

}  // namespace

void settle_ties(Talk& talk, const std::vector<FoodTarget>& targets) {
  Settling(talk, targets).run();
}

}  // namespace panslate
