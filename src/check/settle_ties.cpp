#include <algorithm>
#include <array>
#include <map>
#include <string_view>
#include <utility>
#include <vector>

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
    share_between_neighbours();
    join_told_equals();
    join_told_sizes();
    for (std::size_t i = 1; i < talk_.amounts.size(); ++i)
      inherit_from_correction(talk_.amounts[i - 1], talk_.amounts[i]);
    correct_what_was_told();
  }

 private:
  // "two hundred grams of flour, sorry, three hundred": the correction speaks of the same food.
  void inherit_from_correction(const SpokenAmount& before, SpokenAmount& amount) {
    constexpr std::size_t kReach = 18;  // "a hundred and, what is it, a hundred and fifty, no, tell a lie, …"
    if (amount.portion || !before.taken_back || !before.food || amount.span.begin - before.span.end > kReach)
      return;
    if (amount.food && talk_.sightings[*amount.food].targets != talk_.sightings[*before.food].targets) return;
    if (!amount.scan.has_unit && before.scan.has_unit) amount.scan.amount.unit = before.scan.amount.unit;
    if (amount.food || !is_food_amount(amount.scan)) return;
    amount.food = before.food;
    amount.tie = before.tie;
  }

  // "chicken thighs, you want 800 grams onions two of them": an amount between two foods goes to the first
  // where the second has one of its own kind behind it. Kinds decide, never values.
  void share_between_neighbours() {
    std::vector<std::vector<std::size_t>> amounts_of(talk_.sightings.size());
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a)
      if (talk_.amounts[a].food && !talk_.amounts[a].taken_back)
        amounts_of[*talk_.amounts[a].food].push_back(a);
    for (std::size_t second = 1; second < amounts_of.size(); ++second) {
      const auto& own = amounts_of[second];
      if (own.size() != 2 || !amounts_of[second - 1].empty() || !is_the_first_ones(second, own[0], own[1]))
        continue;
      tie_to(talk_, talk_.amounts[own[0]], second - 1, Tie::Behind);
    }
  }

  [[nodiscard]] bool is_the_first_ones(std::size_t second, std::size_t between, std::size_t behind) const {
    const auto& food = talk_.sightings[second];
    const auto& neighbour = talk_.sightings[second - 1];
    const auto& amount = talk_.amounts[between];
    const auto& own = talk_.amounts[behind];
    constexpr std::size_t kNear = kDistantReach / 2;
    const bool stands_between = amount.tie == Tie::Before && amount.span.begin >= neighbour.span.end &&
                                amount.span.end <= food.span.begin &&
                                amount.span.begin - neighbour.span.end <= kNear &&
                                text_.sentence(amount.span.begin) == text_.sentence(neighbour.span.begin);
    const bool stands_behind = own.span.begin >= food.span.end && own.span.begin <= food.span.end + 1;
    return stands_between && stands_behind && !reach_.is_written_in_kind(food, amount) &&
           reach_.is_written_in_kind(food, own) && reach_.is_written_in_kind(neighbour, amount);
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

  // "…, that's the five hundred mil bottle": not another bottle.
  [[nodiscard]] bool points_back(std::size_t begin) const {
    constexpr std::array<std::string_view, 8> kPointing{"that's", "thats",   "it's", "its",
                                                        "the",    "they're", "is",   "those"};
    return begin > 0 && is_any_word(text_, begin - 1, kPointing);
  }

  // "a bottle of ale, that's the five hundred mil bottle", "two tins of beans, the 400 gram ones": how big
  // each is.
  void join_told_sizes() {
    constexpr std::array<std::string_view, 13> kHolders{"bottle", "bottles", "tin",  "tins",   "can",
                                                        "cans",   "jar",     "jars", "packet", "pack",
                                                        "one",    "ones",    "size"};
    constexpr std::size_t kReach = 5;
    for (std::size_t a = 0; a + 1 < talk_.amounts.size(); ++a) {
      auto& holder = talk_.amounts[a];
      auto& size = talk_.amounts[a + 1];
      // "… that's the five hundred mil bottle", read as a bottle of its own
      const auto& again = size.scan.amount;
      if (holder.food && !holder.scan.amount.each && again.each && again.value == Ratio(1) &&
          again.unit == holder.scan.amount.unit && size.food == holder.food && !size.scan.is_more &&
          points_back(size.span.begin)) {
        holder.scan.amount.each = again.each;
        size.food.reset();
        size.portion = true;
        continue;
      }
      if (!holder.food || holder.tie != Tie::Before || holder.scan.amount.each || !size.scan.has_unit ||
          !size.scan.amount.value || dimension_of(size.scan.amount.unit) > Dimension::Volume ||
          dimension_of(holder.scan.amount.unit) != Dimension::Count || !holder.scan.has_unit)
        continue;
      const auto named = talk_.sightings[*holder.food].span.end;
      const bool held = is_any_word(text_, size.span.end, kHolders);
      if (size.span.begin < named || size.span.begin - named > kReach || !held ||
          !text_.is_word(size.span.begin - 1, "the"))
        continue;
      holder.scan.amount.each = Package{*size.scan.amount.value, size.scan.amount.unit};
      size.food.reset();
      size.tie = Tie::None;
      size.portion = true;
    }
  }

  // "Green chillies. I said three, no? I've taken one back. Make that two green chillies": she comes back to
  // an amount of the same food that she told before, and says that she did.
  void correct_what_was_told() {
    constexpr std::size_t kReach = 32;     // tokens from her saying so to the new amount
    constexpr std::size_t kAWhileAgo = 8;  // tokens; nearer ones are told in one breath
    constexpr std::array<std::string_view, 16> kTold{
        "off wrong", "read that wrong", "got that wrong", "said that wrong", "told you wrong", "i was wrong",
        "misread",   "i said",          "you said",       "i told you",      "i told y'all",   "did i say",
        "i did say", "said before",     "make that",      "i must have said"};
    std::map<std::vector<std::size_t>, std::vector<std::size_t>> told;  // amounts by the lines they are for
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) {
      auto& amount = talk_.amounts[a];
      if (!amount.food || amount.taken_back) continue;
      auto& earlier = told[talk_.sightings[*amount.food].targets];
      const TokenSpan lead{amount.span.begin - std::min(kReach, amount.span.begin), amount.span.begin};
      const bool whole = !amount.scan.is_more && !amount.scan.is_share && amount.scan.amount.value;
      if (whole && holds_phrase(text_, lead, kTold))
        amount.corrects = amount.corrects || std::any_of(earlier.begin(), earlier.end(), [&](std::size_t e) {
                            const auto& before = talk_.amounts[e];
                            return before.span.end + kAWhileAgo <= amount.span.begin &&
                                   !(before.scan.amount == amount.scan.amount);
                          });
      earlier.push_back(a);
    }
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
