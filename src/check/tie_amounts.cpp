#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "panslate/kitchen/food.h"

#include "check/amount_reach.h"
#include "check/list_order.h"
#include "check/phrase.h"
#include "check/span_search.h"
#include "check/talk.h"
#include "check/told_of_others.h"
#include "check/unsaid_amounts.h"

/// Which food an amount belongs to. "180 grams of freekeh" ties forwards, "the freekeh, you need 180 grams"
/// backwards; in a list without commas ("flour 200 grams sugar 100 grams") the way the list begins and ends
/// decides. What has no reason is not tied.
namespace panslate {

namespace {

class Tying {
 public:
  Tying(Talk& talk, const std::vector<FoodTarget>& targets)
      : talk_(talk), text_(talk.text), targets_(targets), reach_(talk, targets) {}

  void run() {
    add_told_by_article(talk_, targets_);
    for (std::size_t i = 0; i < talk_.amounts.size(); ++i) mark_portion(talk_.amounts[i]);
    for (std::size_t i = 0; i < talk_.amounts.size(); ++i)
      if (is_food_amount(talk_.amounts[i].scan) && !talk_.amounts[i].portion && !talk_.amounts[i].beside &&
          !talk_.amounts[i].food)
        tie(i);
  }

 private:
  void mark_portion(SpokenAmount& amount) {
    constexpr std::array<std::string_view, 16> kPortions{
        "a glass",  "a bowl",   "a serving", "a portion", "a person",  "each person",
        "apiece",   "on each",  "into each", "in each",   "onto each", "to each",
        "for each", "in every", "on every",  "into every"};
    constexpr std::array<std::string_view, 4> kPlaces{"in", "into", "on", "onto"};
    const TokenSpan after{amount.span.end, std::min(text_.size(), amount.span.end + 7)};
    const TokenSpan near{after.begin, sentence_end(after)};
    for (std::size_t i = near.begin; i < near.end; ++i) {
      // "twenty grams in a bowl" is no portion, "twenty grams a bowl" is.
      const bool place =
          i > 0 && (text_.is_word(i, "a") || text_.is_word(i, "an")) && is_any_word(text_, i - 1, kPlaces);
      // "two tablespoons of tomato purée, and a glass of wine": the glass holds another food.
      const bool holds = text_.is_word(i + 2, "of");
      if (!place && !holds && holds_phrase(text_, {i, i + 1}, kPortions)) amount.portion = true;
      // "half a cup per bowl", but "a hundred per cent"
      // nor "salt as per your taste".
      if (text_.is_word(i, "per") && !text_.is_word(i + 1, "cent") && !text_.is_word(i - 1, "as"))
        amount.portion = true;
    }
    // "everybody gets half a loaf"
    constexpr std::array<std::string_view, 6> kGets{"everybody gets", "everyone gets", "everybody has",
                                                    "each gets",      "you each get",  "person gets"};
    constexpr std::size_t kGetsReach = 3;
    const auto first = amount.span.begin - std::min(kGetsReach, amount.span.begin);
    if (holds_phrase(text_, {first, amount.span.begin}, kGets)) amount.portion = true;
    if (amount.scan.is_each && !each_names_foods(amount)) amount.portion = true;
    // "that's one pear each"
    for (std::size_t i = near.begin; !amount.scan.has_unit && i < near.end && i < near.begin + 3; ++i)
      if (text_.is_word(i, "each") && reach_.sighting_before(i) &&
          talk_.sightings[*reach_.sighting_before(i)].span.end == i)
        amount.portion = true;
  }

  [[nodiscard]] std::size_t sentence_end(TokenSpan span) const {
    std::size_t end = span.begin;
    while (end < span.end &&
           (end == 0 || text_.sentence(end) == text_.sentence(span.begin == 0 ? 0 : span.begin - 1)))
      ++end;
    return end;
  }

  // "100 grams each of flour and butter", "flour and butter, 100 grams each"
  [[nodiscard]] bool each_names_foods(const SpokenAmount& amount) const {
    return !coordinated(amount, true).empty() || coordinated(amount, false).size() > 1;
  }

  // Foods joined by commas and "and" right after or right before an amount.
  [[nodiscard]] std::vector<std::size_t> coordinated(const SpokenAmount& amount, bool forward) const {
    std::vector<std::size_t> group;
    if (forward) {
      auto next = reach_.next_sighting(amount.span.end);
      std::size_t at = amount.span.end;
      while (next && joins(at, talk_.sightings[*next].span.begin) &&
             (group.empty() || is_connected(at, talk_.sightings[*next].span.begin))) {
        group.push_back(*next);
        at = talk_.sightings[*next].span.end;
        next = reach_.next_sighting(at);
      }
      return group;
    }
    auto before = reach_.sighting_before(amount.span.begin);
    std::size_t at = amount.span.begin;
    // "Cumin seeds. Mustard seeds. A teaspoon of each.": told in fragments
    const auto is_fragment = [&](std::size_t end) {
      if (!says_of_each(amount) || end + 1 != at || !text_.is_word(end, ".")) return false;
      const auto sentence = sentence_around(text_, end - 1, kDistantReach);
      return !any_overlaps(talk_.amounts, sentence);
    };
    while (before && (is_fragment(talk_.sightings[*before].span.end) ||
                      (joins(talk_.sightings[*before].span.end, at) &&
                       (group.empty() || is_connected(talk_.sightings[*before].span.end, at))))) {
      group.insert(group.begin(), *before);
      at = talk_.sightings[*before].span.begin;
      before = reach_.sighting_before(at);
    }
    return group;
  }

  // "dill and mint", but not "mint chopped, chopped salt".
  [[nodiscard]] bool is_connected(std::size_t begin, std::size_t end) const {
    for (std::size_t i = begin; i < end; ++i)
      if (text_.is_word(i, "and") || text_.is_word(i, ",") || text_.is_word(i, "&")) return true;
    return false;
  }

  [[nodiscard]] bool joins(std::size_t begin, std::size_t end) const {
    if (end - begin > 6) return false;
    for (std::size_t i = begin; i < end; ++i) {
      const auto& token = text_[i];
      const bool mark =
          token.kind == TokenKind::Mark && (token.text == "," || token.text == "&" || token.text == ":");
      const bool word =
          token.kind == TokenKind::Word &&
          (token.text == "and" || token.text == "of" || token.text == "the" || token.text == "each" ||
           token.text == "both" || token.text == "a" || is_descriptor(token.text));
      if (!mark && !word) return false;
    }
    return true;
  }

  // Does something follow that the amount is of, though no listed food? "200 grams of coconut sugar"
  [[nodiscard]] bool is_of_something_else(const SpokenAmount& amount) const {
    if (!text_.is_word(amount.span.end, "of") || text_.is_word(amount.span.end + 2, "ones") ||
        reach_.tells_its_size(amount.span.end))
      return false;
    // "I've weighed out the chook, that's a kilo and a half of drummies": a pet name after "that's".
    const bool that_is = amount.span.begin > 0 && (text_.is_word(amount.span.begin - 1, "that's") ||
                                                   text_.is_word(amount.span.begin - 1, "thats"));
    const auto noun = amount.span.end + 1;
    if (that_is && noun < text_.size() && text_[noun].kind == TokenKind::Word &&
        !is_food_word(text_[noun].text))
      return false;
    if (const auto behind = reach_.sighting_before(amount.span.begin))
      if (reach_.is_of_its_kind(amount, *behind)) return false;
    return !reach_.points_back(amount);
  }

  [[nodiscard]] bool is_written_in_kind(const FoodSighting& food, const SpokenAmount& amount) const {
    return reach_.is_written_in_kind(food, amount);
  }

  // "four green peppers, twelve to fill": the food has its count.
  [[nodiscard]] bool is_counted_already(std::size_t index, std::size_t food) const {
    if (talk_.amounts[index].scan.has_unit || index == 0) return false;
    const auto& last = talk_.amounts[index - 1];
    return last.food == food && last.tie == Tie::Before && !last.taken_back;
  }

  // "garlic 4 cloves, one scotch bonnet": the cloves are the four.
  [[nodiscard]] bool is_what_was_counted(std::size_t index, std::size_t food) const {
    if (index == 0 || talk_.amounts[index].scan.has_unit) return false;
    const auto& last = talk_.amounts[index - 1];
    return last.food && !last.taken_back && last.span.end == talk_.sightings[food].span.begin &&
           talk_.sightings[*last.food].targets == talk_.sightings[food].targets;
  }

  // "coriander and ginger, a teaspoon of each"
  [[nodiscard]] bool is_of_each(const SpokenAmount& amount) const {
    return says_of_each(amount) && coordinated(amount, false).size() > 1;
  }

  [[nodiscard]] bool says_of_each(const SpokenAmount& amount) const {
    return text_.is_word(amount.span.end, "of") && text_.is_word(amount.span.end + 1, "each");
  }

  void tie(std::size_t index) {
    auto& amount = talk_.amounts[index];
    if (reach_.is_vessel_or_subject(amount) || reach_.comes_out_of(amount)) return;
    take_unsaid_unit(talk_, targets_, index);
    if (amount.food) return;
    if (const auto kind = reach_.pointed_at_by_kind(amount)) {
      tie_to(talk_, amount, *kind, Tie::Behind);
      return;
    }
    if (amount.scan.is_each || is_of_each(amount)) {
      // "100 grams each of flour and butter" against "flour and butter, 100 grams each, and sugar"
      auto group = coordinated(amount, false);
      const bool names_follow = text_.is_word(amount.span.end, "of") && !is_of_each(amount);
      if (group.size() < 2 || names_follow) {
        auto ahead = coordinated(amount, true);
        if (!ahead.empty()) group = std::move(ahead);
      }
      if (!group.empty()) {
        tie_to(talk_, amount, group.front(), Tie::Before);
        amount.also_foods.assign(group.begin() + 1, group.end());
        return;
      }
    }
    const auto ahead = reach_.next_sighting(amount.span.end);
    auto behind = reach_.sighting_before(amount.span.begin);
    if (ahead && behind && reach_.is_flanked(amount, *behind, *ahead)) {
      tie_to(talk_, amount, *ahead, Tie::Before);
      return;
    }
    if (const auto meant = behind ? reach_.meant_for(amount, *behind) : std::nullopt) behind = meant;
    const bool back_pointer = reach_.points_back(amount);
    const int forward = ahead && !back_pointer ? reach_.reaches_forward(amount, talk_.sightings[*ahead]) : 0;
    const bool backward = behind && reach_.reaches_backward(amount, talk_.sightings[*behind]) &&
                          !is_what_was_counted(index, *behind);
    const bool of = text_.is_word(amount.span.end, "of");
    // "garlic 2 cloves crushed ginger one tablespoon": cloves are how the garlic is written, not the ginger.
    const bool by_kind = forward > 0 &&
                         (backward || (behind && is_first_of_list(talk_, reach_, *behind, index))) && !of &&
                         amount.scan.has_unit && is_written_in_kind(talk_.sightings[*behind], amount) &&
                         !is_written_in_kind(talk_.sightings[*ahead], amount);
    if (forward > 0 && !by_kind && !is_odd_count(talk_, targets_, amount, *ahead) &&
        (of || !backward || amounts_come_first(talk_, reach_, index))) {
      tie_to(talk_, amount, *ahead, Tie::Before);
      note_shared_amount(amount, *ahead);
    } else if (behind &&
               (by_kind ||
                (backward && !is_of_something_else(amount) && may_count(amount, *behind) &&
                 !is_counted_already(index, *behind)) ||
                (back_pointer && may_count(amount, *behind) && !names_other_food_between(*behind, amount) &&
                 !(counts_them(amount) && index > 0 &&
                   talk_.amounts[index - 1].span.begin >= talk_.sightings[*behind].span.end) &&
                 amount.span.begin - talk_.sightings[*behind].span.end <= 2 * kDistantReach) ||
                (reach_.is_of_its_kind(amount, *behind) &&
                 amount.span.begin - talk_.sightings[*behind].span.end <= 2 * kDistantReach) ||
                is_whole_of(amount, *behind) || reach_.sums_up(amount, *behind) ||
                puts_last_right(index, *behind))) {
      tie_to(talk_, amount, *behind, Tie::Behind);
    } else if (continues_last(index) || counts_on(index)) {
      tie_to(talk_, amount, *talk_.amounts[index - 1].food, Tie::Behind);
    } else if (const auto begun = behind && completes(amount) ? food_begun_before(index) : std::nullopt) {
      tie_to(talk_, amount, *begun, Tie::Behind);
      amount.scan.is_more = true;
    } else if (behind && (measures_alone(amount) || counts_alone(amount, *behind)) &&
               may_be_distant(amount, *behind)) {
      // "The vegan butter, very cold. One hundred and fifty grams." says nothing else.
      // Nor does "Next the freekeh. You need 180 grams."
      const bool fragment = reach_.only_tells(amount);
      tie_to(talk_, amount, *behind, fragment ? Tie::Behind : Tie::Distant);
    } else if (behind && reach_.presents(amount, *behind)) {
      tie_to(talk_, amount, *behind, Tie::Distant);
    }
  }

  // "two of them"
  [[nodiscard]] static bool counts_them(const SpokenAmount& amount) { return !amount.scan.has_unit; }

  // "chilli padi, two of them": not of the food told before that.
  [[nodiscard]] bool names_other_food_between(std::size_t food, const SpokenAmount& amount) const {
    auto other = first_from(talk_.other_foods, talk_.sightings[food].span.end);
    while (other != talk_.other_foods.end() &&
           reach_.is_written_with(talk_.sightings[food], text_[other->span.begin].text))
      ++other;  // "flour: I'm using a gluten-free one"
    return other != talk_.other_foods.end() && other->span.end <= amount.span.begin;
  }

  // "Three hundred mil of water. No, wait till I see. … Three hundred and fifty.": of the same food, where no
  // other has been named since.
  [[nodiscard]] bool puts_last_right(std::size_t index, std::size_t behind) const {
    if (index == 0) return false;
    const auto& last = talk_.amounts[index - 1];
    return last.taken_back && last.food &&
           talk_.sightings[*last.food].targets == talk_.sightings[behind].targets &&
           dimension_of(last.scan.amount.unit) == dimension_of(talk_.amounts[index].scan.amount.unit) &&
           !is_of_something_else(talk_.amounts[index]);
  }

  // A bare number told after a food counts it only where the recipe counts it: "the peanut butter, the smooth
  // one" and "the tempeh goes in, I have two pans" give no amount. Text on the picture is too short to speak
  // of anything else.
  [[nodiscard]] bool may_count(const SpokenAmount& amount, std::size_t food) const {
    if (amount.scan.has_unit || text_.kind() == TextKind::OnPicture) return true;
    const auto& names = talk_.sightings[food].targets;
    return std::any_of(names.begin(), names.end(), [&](std::size_t t) { return targets_[t].counted; });
  }

  // "coriander over the top, the whole bunch": in one sentence with no other food between.
  [[nodiscard]] bool is_whole_of(const SpokenAmount& amount, std::size_t food) const {
    const auto& named = talk_.sightings[food].span;
    return text_.is_word(amount.span.begin, "whole") && !is_of_something_else(amount) &&
           text_.sentence(named.begin) == text_.sentence(amount.span.begin) &&
           amount.span.begin - named.end <= kDistantReach;
  }

  // "sugar, 50 grams now and 50 grams later"
  [[nodiscard]] bool continues_last(std::size_t index) const {
    if (index == 0 || is_of_something_else(talk_.amounts[index])) return false;
    const auto& before = talk_.amounts[index - 1];
    const auto& amount = talk_.amounts[index];
    constexpr std::size_t kReach = 5;
    if (!before.food || before.taken_back || before.tie == Tie::Distant || !amount.scan.has_unit)
      return false;
    const std::size_t after = std::max(before.span.end, talk_.sightings[*before.food].span.end);
    if (after > amount.span.begin || amount.span.begin - after > kReach ||
        text_.sentence(amount.span.begin) != text_.sentence(before.span.begin))
      return false;
    if (dimension_of(before.scan.amount.unit) != dimension_of(amount.scan.amount.unit)) return false;
    constexpr std::array<std::string_view, 10> kJoining{"and",   "now",  "then", "first", "plus",
                                                        "later", "here", "for",  "the",   "base"};
    bool joined = false;
    for (std::size_t i = after; i < amount.span.begin; ++i) {
      joined = joined || text_.is_word(i, "and") || text_.is_word(i, "then") || text_.is_word(i, "plus");
      if (text_[i].kind == TokenKind::Word &&
          std::find(kJoining.begin(), kJoining.end(), text_[i].text) == kJoining.end())
        return false;
    }
    return joined;
  }

  // "Peppers, I've got two red and one green": counted kind by kind.
  [[nodiscard]] bool counts_on(std::size_t index) const {
    constexpr std::array<std::string_view, 12> kKinds{"red",   "green", "yellow", "orange",
                                                      "white", "brown", "black",  "big",
                                                      "small", "large", "little", "medium"};
    const auto is_kind = [&](std::size_t at) { return is_any_word(text_, at, kKinds); };
    if (index == 0) return false;
    const auto& before = talk_.amounts[index - 1];
    const auto& amount = talk_.amounts[index];
    const auto between = before.span.end;
    const bool joined = text_.is_word(between + 1, "and") || text_.is_word(between + 1, ",");
    const auto after = amount.span.end + 1;
    const bool over = after >= text_.size() || text_[after].kind == TokenKind::Mark ||
                      text_.sentence(after) != text_.sentence(amount.span.begin) ||
                      text_.is_word(after, "and");
    return before.food && !before.taken_back && !before.scan.has_unit && !amount.scan.has_unit &&
           is_kind(between) && joined && amount.span.begin == between + 2 && is_kind(amount.span.end) && over;
  }

  // "the other 50 grams", "the remaining 75 ml", "the last spoonful": completes an amount begun before.
  [[nodiscard]] bool completes(const SpokenAmount& amount) const {
    if (is_of_something_else(amount)) return false;
    constexpr std::array<std::string_view, 7> kCompleting{"other",   "remaining", "another", "last",
                                                          "further", "second",    "final"};
    const auto begin = amount.span.begin;
    const auto names = [&](std::size_t at) { return is_any_word(text_, at, kCompleting); };
    return names(begin) || (begin > 0 && names(begin - 1));
  }

  // The food that the last amount of this kind before was told for.
  [[nodiscard]] std::optional<std::size_t> food_begun_before(std::size_t index) const {
    constexpr std::size_t kReach = 60;
    const auto& amount = talk_.amounts[index];
    for (std::size_t i = index; i-- > 0;) {
      const auto& before = talk_.amounts[i];
      if (amount.span.begin - before.span.end > kReach) break;
      if (before.taken_back || !before.food) continue;
      return dimension_of(before.scan.amount.unit) == dimension_of(amount.scan.amount.unit) ? before.food
                                                                                            : std::nullopt;
    }
    return std::nullopt;
  }

  [[nodiscard]] static bool measures_alone(const SpokenAmount& amount) {
    return amount.scan.has_unit && amount.scan.amount.unit != Unit::Piece;
  }

  // "Celeriac. One big ugly one."
  [[nodiscard]] bool counts_alone(const SpokenAmount& amount, std::size_t behind) const {
    constexpr std::size_t kFewWords = 6;
    const auto sentence = sentence_around(text_, amount.span.begin, kDistantReach);
    const auto& targets = talk_.sightings[behind].targets;
    // "Onions first. I've got two."
    const bool alone = sentence.begin == amount.span.begin || reach_.only_tells(amount);
    return !amount.scan.has_unit && alone && sentence.end - sentence.begin <= kFewWords &&
           std::any_of(targets.begin(), targets.end(), [&](std::size_t t) { return targets_[t].counted; });
  }

  // "Next the freekeh. You need 180 grams." One food in the sentence before, none in this one.
  [[nodiscard]] bool may_be_distant(const SpokenAmount& amount, std::size_t behind) const {
    const auto& food = talk_.sightings[behind];
    // Farther where nothing else is spoken of: "Pumpkin. I've got one here, … you're looking at 600 grams."
    const auto reach = is_written_in_kind(food, amount) ? 2 * kDistantReach : kDistantReach;
    if (amount.span.begin - food.span.end > reach || is_of_something_else(amount) ||
        is_gone_without(talk_, food) || is_quoted(talk_, amount))
      return false;
    const auto sentence = sentence_around(text_, amount.span.begin, kDistantReach);
    const auto other = first_from(talk_.other_foods, food.span.end);
    // "Stock's in the billy. One litre, beef.": which of the food named is told after it.
    const auto told_after = [&](TokenSpan span) {
      const bool that_is = text_.is_word(amount.span.end + 1, "and") &&
                           (text_.is_word(amount.span.end + 2, "that's") ||
                            text_.is_word(amount.span.end + 2, "it's"));  // "500 grams, and that's beef"
      return text_.is_word(amount.span.end, ",") && span.begin == amount.span.end + (that_is ? 3 : 1) &&
             span.end == span.begin + 1 && reach_.is_written_with(food, text_[span.begin].text);
    };
    if (other != talk_.other_foods.end() && other->span.begin < sentence.end && !told_after(other->span))
      return false;
    const auto next = reach_.next_sighting(amount.span.begin);
    // "Oil. Two tablespoons for the egg.": what it is for, where the food alone was said.
    constexpr std::size_t kAlone = 3;
    const auto own = sentence_around(text_, food.span.begin, 2 * kAlone);
    const auto is_purpose = [&](TokenSpan span) {
      return own.end - own.begin <= kAlone && text_.is_word(amount.span.end, "for") &&
             span.begin == amount.span.end + 2 &&
             (text_.is_word(span.begin - 1, "the") || text_.is_word(span.begin - 1, "my"));
    };
    if (next && talk_.sightings[*next].span.begin < sentence.end &&
        !(told_after(talk_.sightings[*next].span) && talk_.sightings[*next].targets == food.targets) &&
        !is_purpose(talk_.sightings[*next].span))
      return false;
    if (text_.sentence(food.span.begin) == text_.sentence(amount.span.begin)) {
      // In one sentence without punctuation only when nothing else is done in between.
      return false;
    }
    if (text_.sentence(amount.span.begin) - text_.sentence(food.span.begin) > 1 &&
        !(is_written_in_kind(food, amount) && amount.span.begin - sentence.begin <= 2 &&
          reach_.only_fragments_between(food.span.end, amount.span.begin)))
      return false;
    // "Pepper goes in, and a handful of sugar snaps. Well, it's a hundred grams": of the one that is weighed.
    const auto& neighbour = talk_.sightings[behind == 0 ? 0 : behind - 1];
    return behind == 0 || text_.sentence(neighbour.span.begin) != text_.sentence(food.span.begin) ||
           (reach_.points_at_last(amount, sentence) && is_written_in_kind(food, amount)) ||
           neighbour.targets == food.targets ||
           (amount.scan.has_unit && is_written_in_kind(food, amount) &&
            !is_written_in_kind(neighbour, amount));
  }

  // "two spoons of oil and vinegar" measures both or the first: the words do not say.
  void note_shared_amount(SpokenAmount& amount, std::size_t ahead) {
    if (ahead + 1 >= talk_.sightings.size() || dimension_of(amount.scan.amount.unit) == Dimension::Little)
      return;
    const auto& first = talk_.sightings[ahead];
    const auto& second = talk_.sightings[ahead + 1];
    const bool joined = second.span.begin == first.span.end + 1 && text_.is_word(first.span.end, "and");
    if (!joined || first.targets == second.targets) return;
    const auto measured = [&](const FoodSighting& s) {
      return std::any_of(s.targets.begin(), s.targets.end(),
                         [&](std::size_t t) { return targets_[t].measured; });
    };
    // "two stock cubes and salt", "six cloves of garlic and ginger": what is counted is not what is measured.
    const bool counted = dimension_of(amount.scan.amount.unit) == Dimension::Count;
    if (!measured(second) || (counted && !is_written_in_kind(second, amount))) return;
    // "a teaspoon of sugar and salt, one and a half teaspoons": the second has an amount of its own.
    const auto own = first_from(talk_.amounts, second.span.end);
    constexpr std::size_t kRightBehind = 5;  // "oregano, I'm gonna do a teaspoon"
    if (own != talk_.amounts.end() && own->span.begin - second.span.end <= kRightBehind &&
        !own->scan.is_each && reach_.reaches_backward(*own, second))
      return;
    // "two cups of cold water and coconut milk the kind in the carton a cup and a half of coconut milk"
    constexpr std::size_t kSoon = 12;
    const auto named = own == talk_.amounts.end() ? std::nullopt : reach_.next_sighting(own->span.end);
    if (named && own->span.begin - second.span.end <= kSoon &&
        talk_.sightings[*named].targets == second.targets &&
        reach_.reaches_forward(*own, talk_.sightings[*named]) > 0 &&
        !any_overlaps(talk_.sightings, {second.span.end, own->span.begin}))
      return;
    // An amount after the second food is its own ("oil and vinegar, a spoon each" is no such case: is_each).
    amount.also_foods.push_back(ahead + 1);
    amount.shared_with_next = true;
  }

  Talk& talk_;
  const SpokenText& text_;
  const std::vector<FoodTarget>& targets_;
  AmountReach reach_;
};

}  // namespace

void tie_amounts(Talk& talk, const std::vector<FoodTarget>& targets) {
  Tying(talk, targets).run();
}

}  // namespace panslate
