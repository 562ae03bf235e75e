#include "check/unsaid_amounts.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/kitchen/food.h"

#include "check/filler_words.h"
#include "check/phrase.h"
#include "check/span_search.h"

namespace panslate {

namespace {

class Unsaid {
 public:
  Unsaid(Talk& talk, const std::vector<FoodTarget>& targets)
      : talk_(talk), text_(talk.text), targets_(targets), reach_(talk, targets) {}

  // "an onion", "both eggs": amounts for foods that are written as a count.
  void add_articles() {
    std::vector<SpokenAmount> found;
    for (std::size_t s = 0; s < talk_.sightings.size(); ++s) {
      const auto& sighting = talk_.sightings[s];
      if (auto one = one_told_behind(sighting)) {
        tie_to(talk_, *one, s, Tie::Behind);
        found.push_back(*std::move(one));
      }
      const bool counted = std::any_of(sighting.targets.begin(), sighting.targets.end(),
                                       [&](std::size_t t) { return targets_[t].counted; });
      if (!counted) continue;
      std::size_t at = sighting.span.begin;
      while (at > 0 && sighting.span.begin - at < 4 && text_[at - 1].kind == TokenKind::Word &&
             is_descriptor(text_[at - 1].text))
        --at;
      if (at == 0 || text_.sentence(at - 1) != text_.sentence(sighting.span.begin)) continue;
      const auto& word = text_[at - 1].text;
      const bool article = word == "a" || word == "an" || word == "one";
      // "The second onion I'm slicing.": one more of those counted.
      const bool further = at > 1 && text_.is_word(at - 2, "the") &&
                           (word == "second" || word == "other" || word == "last" || word == "third");
      const bool single = !text_[sighting.span.end - 1].text.ends_with('s');
      if (!article && word != "both" && !(further && single)) continue;
      const TokenSpan span{at - 1, at};
      if (any_overlaps(talk_.amounts, span) || (article && only_speaks_of(sighting, at - 1))) continue;
      SpokenAmount amount;
      amount.span = span;
      amount.scan.begin = span.begin;
      amount.scan.end = span.end;
      amount.scan.amount.value = Ratio(word == "both" ? 2 : 1);
      amount.scan.is_more = further;
      amount.late = span.begin >= text_.farewell();
      found.push_back(std::move(amount));
    }
    talk_.amounts.insert(talk_.amounts.end(), std::make_move_iterator(found.begin()),
                         std::make_move_iterator(found.end()));
    std::sort(talk_.amounts.begin(), talk_.amounts.end(),
              [](const auto& a, const auto& b) { return a.span.begin < b.span.begin; });
  }

  // "a chicken came to visit" for drumsticks, "a vegetable", "put a clock on an onion": speaks of such a
  // thing, and counts none.
  [[nodiscard]] bool only_speaks_of(const FoodSighting& sighting, std::size_t article) const {
    constexpr std::array<std::string_view, 2> kLike{"as", "than"};
    if (text_.is_word(article, "one")) return false;
    // "a soft-boiled egg at the side", "everybody gets an egg"
    constexpr std::array<std::string_view, 3> kServed{"at the side", "on the side", "alongside"};
    const TokenSpan after{sighting.span.end, std::min(text_.size(), sighting.span.end + 1)};
    if (holds_phrase(text_, after, kServed) ||
        (article > 1 && text_.is_word(article - 1, "gets") &&
         (text_.is_word(article - 2, "everybody") || text_.is_word(article - 2, "everyone"))))
      return true;
    if (article > 0 && is_any_word(text_, article - 1, kLike)) return true;
    if (sighting.strength == NameStrength::Full) return false;
    const auto noun = name_stem(text_[sighting.span.end - 1].text);
    return std::none_of(sighting.targets.begin(), sighting.targets.end(), [&](std::size_t t) {
      const auto& words = targets_[t].words;
      return !words.empty() && name_stem(words.back()) == noun;
    });
  }

  // "Onion, one.", "Onion next. Just the one, a big one.": a lone "one" counts where a counted food is told.
  [[nodiscard]] std::optional<SpokenAmount> one_told_behind(const FoodSighting& sighting) const {
    constexpr std::size_t kReach = 6;
    constexpr std::array<std::string_view, 20> kBetween{",",    ".",   ":",    "-",  "next", "now",   "just",
                                                        "only", "the", "goes", "in", "here", "you",   "need",
                                                        "want", "i",   "use",  "we", "it's", "that's"};
    constexpr std::array<std::string_view, 3> kGoesOn{"and", "then", "so"};
    // "two limes, one for squeezing", "two tablespoons of whiskey. That's one. And that's two": counted
    // already
    const auto before = sighting.span.begin;
    const auto own = first_from(talk_.amounts, before - std::min<std::size_t>(kReach, before));
    if (own != talk_.amounts.end() && own->span.begin < before &&
        text_.sentence(own->span.begin) == text_.sentence(before) &&
        !any_overlaps(talk_.sightings, {own->span.end, before}))
      return std::nullopt;
    const bool counted = std::any_of(sighting.targets.begin(), sighting.targets.end(),
                                     [&](std::size_t t) { return targets_[t].counted; });
    // "Soy, two. Rice vinegar, one.", "and one of rice vinegar": of what was measured last
    const auto index = static_cast<std::size_t>(&sighting - talk_.sightings.data());
    const auto measure = counted ? std::nullopt : measure_told_before(sighting.span.begin, index);
    if (!counted && !measure) return std::nullopt;
    // "and a bay leaf, just the one": counted by the article already. "Sugar's a third of a cup, the caster
    // one": which, not how many.
    auto named = before;
    while (named > 0 && before - named < 4 && text_[named - 1].kind == TokenKind::Word &&
           is_descriptor(text_[named - 1].text))
      --named;
    if (named > 0 &&
        (text_.is_word(named - 1, "a") || text_.is_word(named - 1, "an") || text_.is_word(named - 1, "one") ||
         (text_.is_word(named - 1, "the") && text_.is_word(sighting.span.end, "one"))))
      return std::nullopt;
    if (measure && sighting.span.begin >= 3 && text_.is_word(sighting.span.begin - 1, "of") &&
        (text_.is_word(sighting.span.begin - 3, "and") || text_.is_word(sighting.span.begin - 3, ",")) &&
        !any_overlaps(talk_.amounts, {sighting.span.begin - 2, sighting.span.begin - 1})) {
      const auto number = sighting.span.begin - 2;
      if (text_.is_word(number, "one")) return one_at(number, measure);
      if (text_.is_word(number, "half")) return one_at(number, measure, *Ratio::make(1, 2));
    }
    for (auto at = sighting.span.end; at < text_.size() && at < sighting.span.end + kReach; ++at) {
      if (is_any_word(text_, at, kBetween)) continue;
      if (!text_.is_word(at, "one") || any_overlaps(talk_.amounts, {at, at + 1})) return std::nullopt;
      const auto next = reach_.next_sighting(at + 1);
      const bool over = at + 1 >= text_.size() || text_[at + 1].kind == TokenKind::Mark ||
                        text_.sentence(at + 1) != text_.sentence(at) || is_any_word(text_, at + 1, kGoesOn) ||
                        (next && talk_.sightings[*next].span.begin == at + 1);
      // "the onion, the one.": which, not how many
      const bool which =
          text_.is_word(at - 1, "the") && !text_.is_word(at - 2, "just") && !text_.is_word(at - 2, "only");
      // "one... one minute, let me see her diary"
      const bool broken_off = at + 2 < text_.size() && text_[at + 1].kind == TokenKind::Mark &&
                              (text_[at + 2].kind == TokenKind::Mark || text_.is_word(at + 2, "one"));
      if (!over || which || broken_off || text_.is_word(at + 1, "-")) return std::nullopt;
      return one_at(at, measure);
    }
    return std::nullopt;
  }

  [[nodiscard]] SpokenAmount one_at(std::size_t at, std::optional<Unit> measure,
                                    const Ratio& value = 1) const {
    SpokenAmount amount;
    amount.span = {at, at + 1};
    amount.scan.begin = at;
    amount.scan.end = at + 1;
    amount.scan.amount.value = value;
    amount.scan.has_unit = measure.has_value();
    if (measure) amount.scan.amount.unit = *measure;
    amount.late = at >= text_.farewell();
    return amount;
  }

  // "butter, melted, three tablespoons, now stir that, and then three more"
  void take_unit_of_first(SpokenAmount& amount, const SpokenAmount& last) const {
    constexpr std::size_t kReach = 14;
    if (amount.scan.has_unit || !last.scan.has_unit || !last.food || last.taken_back ||
        dimension_of(last.scan.amount.unit) > Dimension::Volume || amount.span.begin - last.span.end > kReach)
      return;
    const auto first = std::max(last.span.end, talk_.sightings[*last.food].span.end);
    const auto next = reach_.next_sighting(first);
    constexpr std::size_t kItsOwn = 3;  // "three more eggs"
    if (next && talk_.sightings[*next].span.begin < amount.span.end + kItsOwn) return;
    amount.scan.amount.unit = last.scan.amount.unit;
    amount.scan.has_unit = amount.scan.is_more = true;
    amount.food = last.food;
    amount.tie = Tie::Behind;
  }

  // "150 ml in the jug, and 75 of it goes in now".
  void take_unit_of_last(std::size_t index) {
    auto& amount = talk_.amounts[index];
    if (index > 0 && text_.is_word(amount.span.end, "more"))
      take_unit_of_first(amount, talk_.amounts[index - 1]);
    if (amount.scan.has_unit || index == 0 || !text_.is_word(amount.span.end, "of") ||
        !text_.is_word(amount.span.end + 1, "it"))
      return;
    const auto& last = talk_.amounts[index - 1];
    if (!last.scan.has_unit || !last.food || amount.span.begin - last.span.end > kDistantReach ||
        dimension_of(last.scan.amount.unit) > Dimension::Volume)
      return;
    amount.scan.amount.unit = last.scan.amount.unit;
    amount.scan.has_unit = true;
  }

  // The measure told last before a token, where a food is written in it and not counted: the "two" of "three
  // tablespoons of peanut butter, two of soy sauce" are tablespoons.
  [[nodiscard]] std::optional<Unit> measure_told_before(std::size_t at, std::size_t food) const {
    constexpr std::size_t kReach = 30;
    const auto first = first_from(talk_.amounts, at);
    for (auto before = first; before != talk_.amounts.begin();) {
      --before;
      if (at - before->span.end > kReach) break;
      const auto dimension = dimension_of(before->scan.amount.unit);
      if (!before->scan.has_unit || dimension > Dimension::Volume) continue;
      const auto unit = before->scan.amount.unit;
      const auto& targets = talk_.sightings[food].targets;
      const bool written = std::all_of(targets.begin(), targets.end(), [&](std::size_t t) {
        const auto& units = targets_[t].units;
        return !targets_[t].counted && std::find(units.begin(), units.end(), unit) != units.end();
      });
      return written ? std::optional(unit) : std::nullopt;
    }
    return std::nullopt;
  }

  // "two of soy sauce", "Soy, two."
  void take_measure_told_before(SpokenAmount& amount) const {
    constexpr std::size_t kNear = 3;
    const Ratio most = 12;
    if (amount.scan.has_unit || amount.scan.is_share || !amount.scan.amount.value ||
        most < *amount.scan.amount.value)
      return;
    std::optional<std::size_t> food;
    const auto end = amount.span.end;
    constexpr std::array<std::string_view, 5> kPointers{"them", "it", "these", "those", "each"};
    if (text_.is_word(end, "of")) {
      if (is_any_word(text_, end + 1, kPointers)) return;
      food = reach_.next_sighting(end);
      if (food && talk_.sightings[*food].span.begin - end > kNear) food.reset();
    } else if (const auto behind = reach_.sighting_before(amount.span.begin)) {
      const auto named = talk_.sightings[*behind].span.end;
      const bool over =
          end >= text_.size() || text_[end].kind == TokenKind::Mark || text_.is_word(end, "and");
      if (over && amount.span.begin == named + 1 && text_.is_word(named, ",")) food = behind;
    }
    const auto unit = food ? measure_told_before(amount.span.begin, *food) : std::nullopt;
    if (!unit) return;
    amount.scan.amount.unit = *unit;
    amount.scan.has_unit = true;
  }

  // "fifty grams of butter, and fifty of plain flour": what the recipe weighs is not counted.
  void take_written_unit(SpokenAmount& amount) const {
    constexpr std::size_t kNear = 4;
    const Ratio least = 10;
    if (amount.scan.has_unit || !amount.scan.amount.value || *amount.scan.amount.value < least) return;
    if (const auto behind = reach_.sighting_before(amount.span.begin);
        behind && is_bare_measure(amount, *behind)) {
      take_unit_of(amount, *behind);
      if (amount.scan.has_unit) return;
    }
    const auto ahead = reach_.next_sighting(amount.span.end);
    // "so two fifty flour and two hundred sugar"
    const Ratio surely_weighed = 50;
    if (ahead && talk_.sightings[*ahead].span.begin == amount.span.end &&
        amount.scan.amount.value->is_whole() && surely_weighed <= *amount.scan.amount.value &&
        amount.scan.amount.value->num() % 5 == 0 &&
        !text_[talk_.sightings[*ahead].span.end - 1].text.ends_with('s'))
      return take_unit_of(amount, *ahead);
    if (!text_.is_word(amount.span.end, "of")) return;
    if (!ahead || talk_.sightings[*ahead].span.begin - amount.span.end > kNear) return;
    // "twenty of the almonds" counts almonds, whatever the recipe weighs.
    const auto& name = text_[talk_.sightings[*ahead].span.end - 1].text;
    const Ratio surely = 50;  // hardly so many are counted
    if (name.ends_with('s') && !name.ends_with("ss") &&
        (*amount.scan.amount.value < surely || text_.is_word(amount.span.end + 1, "the")))
      return;
    take_unit_of(amount, *ahead);
  }

  // The unit that the recipe weighs or measures a food in.
  void take_unit_of(SpokenAmount& amount, std::size_t food) const {
    std::optional<Unit> unit;
    for (const auto t : talk_.sightings[food].targets)
      for (const auto written : targets_[t].units) {
        if (written == Unit::Piece) return;
        if (!unit && (written == Unit::Gram || written == Unit::Milliliter)) unit = written;
      }
    if (!unit) return;
    amount.scan.amount.unit = *unit;
    amount.scan.has_unit = true;
  }

  // "flour 250, sugar 100 and butter 150": read out as a list, right behind its food and counting nothing.
  [[nodiscard]] bool is_bare_measure(const SpokenAmount& amount, std::size_t behind) const {
    const Ratio least = 20;
    const auto& value = *amount.scan.amount.value;
    const auto named = talk_.sightings[behind].span.end;
    const auto end = amount.span.end;
    const bool right_behind = amount.span.begin == named ||
                              (amount.span.begin == named + 1 && text_[named].kind == TokenKind::Mark);
    if (!right_behind || value < least || !value.is_whole() || value.num() % 5 != 0) return false;
    if (end >= text_.size() || text_[end].kind != TokenKind::Word ||
        text_.sentence(end) != text_.sentence(end - 1))
      return true;
    constexpr std::array<std::string_view, 4> kNotAfter{"of", "per", "times", "or"};
    if (is_any_word(text_, end, kNotAfter)) return false;
    const auto next = reach_.next_sighting(end);
    return is_filler(text_[end].text) || (next && talk_.sightings[*next].span.begin == end);
  }

 private:
  Talk& talk_;
  const SpokenText& text_;
  const std::vector<FoodTarget>& targets_;
  AmountReach reach_;
};

}  // namespace

void add_told_by_article(Talk& talk, const std::vector<FoodTarget>& targets) {
  Unsaid(talk, targets).add_articles();
}

void take_unsaid_unit(Talk& talk, const std::vector<FoodTarget>& targets, std::size_t index) {
  Unsaid unsaid(talk, targets);
  unsaid.take_unit_of_last(index);
  unsaid.take_written_unit(talk.amounts[index]);
  unsaid.take_measure_told_before(talk.amounts[index]);
}

}  // namespace panslate
