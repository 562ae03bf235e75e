#include "check/unclaimed_amounts.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "panslate/kitchen/food.h"

#include "check/amount_reach.h"
#include "check/amount_reading.h"
#include "check/phrase.h"
#include "check/span_search.h"
#include "check/told_of_others.h"

namespace panslate {

namespace {

class Taking {
 public:
  Taking(Talk& talk, const std::vector<FoodTarget>& targets, const LineChoice& lines, const Recipe& recipe,
         const std::vector<Requirement>& requirements)
      : talk_(talk),
        text_(talk.text),
        targets_(targets),
        lines_(lines),
        recipe_(recipe),
        requirements_(requirements) {}

  void run() {
    std::vector<char> told(requirements_.size(), 0);
    const auto tell = [&](std::size_t sighting) {
      for (const auto target : lines_.targets_of[sighting]) told[targets_[target].requirement] = 1;
    };
    for (const auto& amount : talk_.amounts) {
      if (!amount.food || amount.taken_back || amount.suggested || amount.portion) continue;
      tell(*amount.food);
      for (const auto other : amount.also_foods) tell(other);
    }
    std::vector<char> taken(talk_.amounts.size(), 0);
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) {
      const auto food = food_of(a, told);
      if (!food) continue;
      tie_to(talk_, talk_.amounts[a], *food, Tie::Distant);
      taken[a] = 1;
      tell(*food);
    }
    auto& strange = talk_.strange;
    strange.erase(
        std::remove_if(strange.begin(), strange.end(), [&](const auto& s) { return taken[s.amount] != 0; }),
        strange.end());
  }

 private:
  [[nodiscard]] std::optional<std::size_t> food_of(std::size_t a, const std::vector<char>& told) const {
    const auto& amount = talk_.amounts[a];
    if (!may_be_taken(a)) return std::nullopt;
    const auto next = first_from(talk_.sightings, amount.span.begin);
    if (next == talk_.sightings.begin()) return std::nullopt;
    const auto food = static_cast<std::size_t>(next - talk_.sightings.begin()) - 1;
    const auto& left = lines_.targets_of[food];
    if (left.size() != 1 || talk_.sightings[food].strength == NameStrength::Category ||
        talk_.sightings[food].doubtful || talk_.sightings[food].suggested)
      return std::nullopt;
    const auto& requirement = requirements_[targets_[left.front()].requirement];
    if (told[targets_[left.front()].requirement] != 0 || requirement.amounts.empty() || !stands_near(food, a))
      return std::nullopt;
    const auto compared = compare_with_written(amount.scan.amount, amount.scan.alternates,
                                               requirement.amounts, recipe_.measures, requirement.name);
    return compared.sameness == Sameness::Same ? std::optional(food) : std::nullopt;
  }

  [[nodiscard]] bool may_be_taken(std::size_t a) const {
    const auto& amount = talk_.amounts[a];
    const auto dimension = dimension_of(amount.scan.amount.unit);
    return !amount.food && !amount.taken_back && !amount.suggested && !amount.portion && !amount.late &&
           !amount.beside && amount.scan.amount.value && !amount.scan.is_share && !amount.scan.is_more &&
           !amount.scan.is_each &&
           (!text_.is_word(amount.span.end, "of") || points_at_ones(amount.span.end)) &&
           (amount.scan.has_unit ? dimension <= Dimension::Volume || dimension == Dimension::Count
                                 : counts_alone(amount));
  }

  // "here come the shrimp, I got a pound of the large ones"
  [[nodiscard]] bool points_at_ones(std::size_t of) const {
    auto at = of + 1;
    if (text_.is_word(at, "the") || text_.is_word(at, "those")) ++at;
    while (at < text_.size() && is_descriptor(text_[at].text)) ++at;
    return text_.is_word(at, "ones");
  }

  // "Peaches, off the tree by the tank. I've got eight, ripe ones": a bare number that counts nothing else.
  [[nodiscard]] bool counts_alone(const SpokenAmount& amount) const {
    const auto end = amount.span.end;
    auto at = end;  // "three big ones"
    while (at < text_.size() && text_[at].kind == TokenKind::Word &&
           (is_descriptor(text_[at].text) || text_[at].text == "ones"))
      ++at;
    const bool over = at >= text_.size() || text_[at].kind == TokenKind::Mark;
    return over && *amount.scan.amount.value > Ratio(1);
  }

  // Right after the food, with no other food or amount between nor behind it.
  [[nodiscard]] bool stands_near(std::size_t food, std::size_t a) const {
    const std::size_t kReach = is_pointed_at(talk_.amounts[a]) ? 28 : 16;
    constexpr std::size_t kAhead = 6;
    constexpr std::size_t kSentences = 3;
    const auto& named = talk_.sightings[food].span;
    const auto& amount = talk_.amounts[a];
    if (named.end > amount.span.begin || amount.span.begin - named.end > kReach ||
        text_.sentence(amount.span.begin) - text_.sentence(named.begin) > kSentences)
      return false;
    if (!has_unit_or_follows(amount, named) || speaks_of_others(talk_, talk_.sightings[food], amount) ||
        !ends_plainly(talk_, amount) || is_gone_without(talk_, talk_.sightings[food]))
      return false;
    for (auto before = a; before-- > 0 && talk_.amounts[before].span.end > named.end;)
      if (!is_void(talk_.amounts[before], amount)) return false;
    if (turns_elsewhere({named.end, amount.span.begin})) return false;
    const auto other = first_from(talk_.other_foods, named.end);
    if (other != talk_.other_foods.end() && other->span.begin < amount.span.end + kAhead) return false;
    const auto next = first_from(talk_.sightings, amount.span.end);
    return next == talk_.sightings.end() || next->span.begin >= amount.span.end + kAhead ||
           text_.sentence(next->span.begin) != text_.sentence(amount.span.begin);
  }

  // A bare number only right behind the food, or in the next sentence and about it: "Peaches. I've got
  // eight".
  [[nodiscard]] bool has_unit_or_follows(const SpokenAmount& amount, TokenSpan named) const {
    if (amount.scan.has_unit) return true;
    const auto sentences = text_.sentence(amount.span.begin) - text_.sentence(named.begin);
    if (sentences > 1) return false;
    for (auto at = named.end; at < amount.span.begin; ++at)
      if (scan_number(text_.tokens(), at)) return false;
    constexpr std::size_t kFew = 4;
    constexpr std::array<std::string_view, 14> kOfIt{"i've", "i",    "it's",  "that's", "there's",
                                                     "we",   "you",  "about", "just",   "so",
                                                     "use",  "take", "got",   "need"};
    const auto own = sentence_around(text_, amount.span.begin, kFew);
    if (sentences == 0 || own.begin == amount.span.begin)
      return sentences == 1 || amount.span.begin - named.end <= kFew;
    return amount.span.begin - own.begin < kFew && is_any_word(text_, own.begin, kOfIt);
  }

  // "It's seven hundred and fifty grams."
  [[nodiscard]] bool is_pointed_at(const SpokenAmount& amount) const {
    constexpr std::array<std::string_view, 5> kPointing{"it's", "that's", "is", "its", "thats"};
    const auto begin = amount.span.begin;
    return begin > 0 && is_any_word(text_, begin - 1, kPointing);
  }

  // Taken back, of another matter, or the same number before its unit: "it's two hundred, two hundred grams".
  [[nodiscard]] static bool is_void(const SpokenAmount& other, const SpokenAmount& amount) {
    return other.taken_back || other.beside ||
           (!other.food && other.scan.amount.value == amount.scan.amount.value);
  }

  // "ginger must be fresh and in the other bowl I have 250 grams"
  [[nodiscard]] bool turns_elsewhere(TokenSpan span) const {
    constexpr std::array<std::string_view, 9> kElse{"other", "another", "next",    "second", "else",
                                                    "not",   "without", "instead", "than"};
    for (auto at = span.end; at-- > span.begin && text_.sentence(at) == text_.sentence(span.end);)
      if (is_any_word(text_, at, kElse)) return true;
    return false;
  }

  Talk& talk_;
  const SpokenText& text_;
  const std::vector<FoodTarget>& targets_;
  const LineChoice& lines_;
  const Recipe& recipe_;
  const std::vector<Requirement>& requirements_;
};

}  // namespace

void take_unclaimed_amounts(Talk& talk, const std::vector<FoodTarget>& targets, const LineChoice& lines,
                            const Recipe& recipe, const std::vector<Requirement>& requirements) {
  Taking(talk, targets, lines, recipe, requirements).run();
}

}  // namespace panslate
