#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"

#include "check/amount_reading.h"
#include "check/food_verdict.h"
#include "check/line_words.h"
#include "check/phrase.h"
#include "check/span_search.h"

namespace panslate {

namespace {

class Choosing {
 public:
  Choosing(const Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe,
           const std::vector<Requirement>& requirements, const StepAlignment& steps)
      : talk_(talk), targets_(targets), recipe_(recipe), requirements_(requirements), steps_(steps) {}

  LineChoice run() {
    LineChoice choice;
    choice.targets_of.reserve(talk_.sightings.size());
    for (const auto& ingredient : recipe_.ingredients) {
      parts_.push_back(part_of(ingredient));
      line_stems_.push_back(telling_stems(ingredient));
      if (!parts_.back().empty()) part_stems_.try_emplace(parts_.back(), stems_of(parts_.back()));
    }
    amounts_of_.resize(talk_.sightings.size());
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a)
      if (talk_.amounts[a].food) amounts_of_[*talk_.amounts[a].food].push_back(a);
    for (std::size_t i = 0; i < talk_.sightings.size(); ++i) choice.targets_of.push_back(settle(i));
    settle_by_order(choice);
    settle_leftover(choice);
    return choice;
  }

 private:
  std::vector<std::size_t> settle(std::size_t index) {
    const auto& sighting = talk_.sightings[index];
    auto left = sighting.targets;
    if (left.size() > 1 && sighting.strength != NameStrength::Full) left = by_fuller_name(index, left);
    if (left.size() > 1) left = by_group(index, left);
    if (left.size() > 1) left = by_form(sighting, left);
    if (left.size() > 1) left = by_step(sighting, left);
    if (sighting.strength == NameStrength::Full && left.size() == 1)
      last_full_[left.front()] = sighting.span.begin;
    return left;
  }

  // "the red onion … and the onion": the one named in full shortly before.
  std::vector<std::size_t> by_fuller_name(std::size_t index, const std::vector<std::size_t>& among) const {
    constexpr std::size_t kShortly = 40;
    const auto at = talk_.sightings[index].span.begin;
    std::vector<std::size_t> recent;
    for (const auto target : among) {
      const auto found = last_full_.find(target);
      if (found != last_full_.end() && at - found->second <= kShortly) recent.push_back(target);
    }
    return recent.size() == 1 ? recent : among;
  }

  // "Six cloves of garlic, sliced thin", "garlic in here too, grated": what is done with one of them only.
  [[nodiscard]] std::vector<std::size_t> by_form(const FoodSighting& sighting,
                                                 const std::vector<std::size_t>& among) const {
    constexpr std::size_t kBefore = 5;
    constexpr std::size_t kAfter = 14;
    std::map<std::string, std::set<std::size_t>> lines_with;
    for (const auto target : among)
      if (ingredient_of(target) != nullptr)
        for (const auto& word : line_stems_[requirements_[targets_[target].requirement].index])
          lines_with[word].insert(target);
    const auto& text = talk_.text;
    const auto own = text.sentence(sighting.span.begin);
    const auto is_other_food = [&](std::size_t at) {
      const auto found = first_from(talk_.sightings, at);
      return found != talk_.sightings.end() && found->span.begin == at;
    };
    std::set<std::size_t> told;
    const auto look = [&](std::size_t at) {
      if (text[at].kind != TokenKind::Word) return;
      const auto found = lines_with.find(stem(text[at].text));
      if (found != lines_with.end() && found->second.size() == 1) told.insert(*found->second.begin());
    };
    for (auto at = sighting.span.begin;
         at > 0 && sighting.span.begin - at < kBefore && text.sentence(at - 1) == own;) {
      --at;
      const auto before = first_from(talk_.sightings, at);
      if (before != talk_.sightings.end() && before->span.begin == at) break;
      look(at);
    }
    // "Water. Boiling. A hundred and thirty mil.": a word that stands alone right behind.
    constexpr std::size_t kOneWord = 2;
    const auto next = sighting.span.end + 1;
    if (next < text.size() && text[next - 1].kind == TokenKind::Mark && text.sentence(next) != own) {
      const auto alone = sentence_around(text, next, kOneWord);
      if (alone.end - alone.begin <= kOneWord && !is_other_food(next)) look(next);
    }
    for (auto at = sighting.span.end; at < text.size() && at < sighting.span.end + kAfter &&
                                      text.sentence(at) == own && !is_other_food(at);
         ++at) {
      auto named = at;  // "…, plus the softened butter": said of that one
      while (named < text.size() && is_descriptor(text[named].text)) ++named;
      if (named > at && is_other_food(named)) break;
      if (text.is_word(at, "and") && (begins_amount_in({at + 1, at + 2}) || text.is_word(at + 1, "for")))
        break;  // "and for the glaze sixty grams": of another line
      look(at);
    }
    return told.size() == 1 ? std::vector<std::size_t>{*told.begin()} : among;
  }

  // The group it is listed in, and what it is for: "60 g sugar, for the glaze".
  [[nodiscard]] static std::string part_of(const Ingredient& ingredient) {
    const auto text = fold_case(ingredient.text);
    const auto purpose = text.find("for the ");
    if (purpose == std::string::npos) return ingredient.group;
    const auto words = text.substr(purpose, text.find_first_of(",;(", purpose) - purpose);
    return ingredient.group.empty() ? words : ingredient.group + ' ' + words;
  }

  [[nodiscard]] const std::string& part_of_target(std::size_t target) const {
    static const std::string kNone;
    const auto& requirement = requirements_[targets_[target].requirement];
    return requirement.kind == RequirementKind::Ingredient ? parts_[requirement.index] : kNone;
  }

  [[nodiscard]] const Ingredient* ingredient_of(std::size_t target) const {
    const auto& requirement = requirements_[targets_[target].requirement];
    return requirement.kind == RequirementKind::Ingredient ? &recipe_.ingredients[requirement.index]
                                                           : nullptr;
  }

  // "for the pastry, 200 grams of flour", "Now the dough. 350 grams of flour", "two spoons for the glaze".
  std::vector<std::size_t> by_group(std::size_t index, const std::vector<std::size_t>& among) const {
    const auto* group = group_spoken_of(index, among);
    if (group == nullptr) return among;
    std::vector<std::size_t> fitting;
    for (const auto target : among) {
      if (part_of_target(target) == *group) fitting.push_back(target);
    }
    return fitting.size() == 1 ? fitting : among;
  }

  // The part of the dish that was named last before the food, or after it with "for the …".
  [[nodiscard]] const std::string* group_spoken_of(std::size_t index,
                                                   const std::vector<std::size_t>& among) const {
    const auto& sighting = talk_.sightings[index];
    constexpr std::size_t kAhead = 14;
    constexpr std::size_t kBack = 60;
    const auto& text = talk_.text;
    const auto own = text.sentence(sighting.span.begin);
    for (auto i = sighting.span.end;
         i < text.size() && i < sighting.span.end + kAhead && text.sentence(i) == own; ++i) {
      const bool for_the = i >= 2 && text.is_word(i - 1, "the") && text.is_word(i - 2, "for");
      if (for_the && i >= 3 && (text.is_word(i - 3, "and") || text.is_word(i - 3, "then")))
        break;  // "and for the glaze sixty grams": what comes is for the glaze
      if (const auto* group = for_the ? group_named(i, among) : nullptr) return group;
      if (begins_amount_in({i, i + 1})) break;  // the next food's
    }
    const auto first = end_of_last_telling(index);
    for (auto i = sighting.span.begin; i > first && sighting.span.begin - i < kBack;) {
      --i;
      const auto* group = group_named(i, among);
      if (group == nullptr || is_put_into(i)) continue;
      constexpr std::size_t kClose = 20;
      if (text.sentence(i) == own && sighting.span.begin - i <= kClose) return group;
      if (heads_a_part(i)) return fits_only_elsewhere(index, among, *group) ? nullptr : group;
    }
    return nullptr;
  }

  // Where the same food was measured last: a part named before that was named for that amount.
  [[nodiscard]] std::size_t end_of_last_telling(std::size_t index) const {
    constexpr std::size_t kFew = 12;
    for (std::size_t back = 1; back <= kFew && back <= index; ++back) {
      const auto& before = talk_.sightings[index - back];
      if (before.targets == talk_.sightings[index].targets && !amounts_of_[index - back].empty())
        return before.span.end;
    }
    return 0;
  }

  // A part named a while ago does not hold against an amount that is written for another part only.
  [[nodiscard]] bool fits_only_elsewhere(std::size_t index, const std::vector<std::size_t>& among,
                                         const std::string& group) const {
    bool here = false;
    bool elsewhere = false;
    for (const auto a : amounts_of_[index])
      for (const auto target : among) {
        if (!fits(talk_.amounts[a].scan.amount, target)) continue;
        (part_of_target(target) == group ? here : elsewhere) = true;
      }
    return elsewhere && !here;
  }

  [[nodiscard]] bool begins_amount_in(TokenSpan span) const {
    const auto amount = first_from(talk_.amounts, span.begin);
    return amount != talk_.amounts.end() && amount->span.begin < span.end;
  }

  // The one group among these lines that a word names.
  [[nodiscard]] const std::string* group_named(std::size_t at, const std::vector<std::size_t>& among) const {
    if (talk_.text[at].kind != TokenKind::Word) return nullptr;
    const auto word = stem(talk_.text[at].text);
    const std::string* found = nullptr;
    for (const auto target : among) {
      const auto& part = part_of_target(target);
      if (part.empty() || !part_stems_.at(part).contains(word)) continue;
      if (found != nullptr && *found != part) return nullptr;
      found = &part;
    }
    return found;
  }

  // "in with the sponge go 350 grams": the part it goes into is not the part it is listed for.
  [[nodiscard]] bool is_put_into(std::size_t at) const {
    constexpr std::array<std::string_view, 7> kInto{"with", "into", "in", "to", "over", "onto", "of"};
    const auto& text = talk_.text;
    if (at < 2) return false;
    const bool article =
        text.is_word(at - 1, "the") || text.is_word(at - 1, "your") || text.is_word(at - 1, "our");
    if (!article) return false;
    if (at >= 3 && text.is_word(at - 2, "to") && text.is_word(at - 3, "on"))
      return false;  // "on to the filling"
    if (at >= 4 && text.is_word(at - 2, "with") &&
        (text.is_word(at - 3, "start") || text.is_word(at - 3, "begin")))
      return false;
    return is_any_word(text, at - 2, kInto);
  }

  // "Now the dough.", "so for the filling", "on to the sauce": what follows is of that part.
  [[nodiscard]] bool heads_a_part(std::size_t at) const {
    constexpr std::size_t kShort = 7;
    constexpr std::array<std::string_view, 12> kTurns{"for",    "now",   "next", "then", "meanwhile", "make",
                                                      "making", "start", "with", "to",   "first",     "do"};
    const auto sentence = sentence_around(talk_.text, at, kShort + 1);
    if (sentence.end - sentence.begin <= kShort && !begins_amount_in(sentence)) return true;
    if (at < 2) return false;
    return is_any_word(talk_.text, at - 2, kTurns);
  }

  std::vector<std::size_t> by_step(const FoodSighting& sighting,
                                   const std::vector<std::size_t>& among) const {
    const auto step = steps_.step_at(sighting.span.begin);
    if (!step || !steps_.is_grounded(talk_.text.utterance_of(sighting.span.begin))) return among;
    std::vector<std::size_t> used;
    for (const auto target : among) {
      const auto& requirement = requirements_[targets_[target].requirement];
      if (requirement.kind == RequirementKind::MethodAmount) {
        if (requirement.index == *step) used.push_back(target);
        continue;
      }
      const auto& uses = recipe_.steps[*step].uses;
      const auto* ingredient = ingredient_of(target);
      const bool in_step = std::find(uses.begin(), uses.end(), requirement.index) != uses.end();
      const bool of_part = ingredient != nullptr && !ingredient->group.empty() &&
                           !recipe_.steps[*step].part.empty() &&
                           shares_word(ingredient->group, recipe_.steps[*step].part);
      if (in_step && (of_part || !any_of_part(among, *step))) used.push_back(target);
    }
    if (!is_placed_by_others(sighting, *step) && are_one_food(among)) return among;
    if (used.size() > 1) used = without_those_of_other_steps(used, *step);
    return used.size() == 1 ? used : among;
  }

  // Words beside the food's own name say that she is in this step.
  [[nodiscard]] bool is_placed_by_others(const FoodSighting& sighting, std::size_t step) const {
    constexpr double kEnough = 0.3;
    const auto utterance = talk_.text.utterance_of(sighting.span.begin);
    double own = 0.0;
    for (auto at = sighting.span.begin; at < sighting.span.end; ++at) own += steps_.word_weight(at, step);
    return steps_.support(utterance, step) - own >= kEnough;
  }

  // "stir in the butter … spread with the softened butter": a line that another step has alone is not meant
  // where a step may mean several.
  [[nodiscard]] std::vector<std::size_t> without_those_of_other_steps(const std::vector<std::size_t>& used,
                                                                      std::size_t step) const {
    std::vector<std::size_t> left;
    const auto is_in = [&](std::size_t target, std::size_t s) {
      const auto& requirement = requirements_[targets_[target].requirement];
      const auto& uses = recipe_.steps[s].uses;
      return requirement.kind == RequirementKind::Ingredient &&
             std::find(uses.begin(), uses.end(), requirement.index) != uses.end();
    };
    for (const auto target : used) {
      bool alone_elsewhere = false;
      for (std::size_t s = 0; s < recipe_.steps.size(); ++s)
        alone_elsewhere =
            alone_elsewhere ||
            (s != step && is_in(target, s) &&
             std::none_of(used.begin(), used.end(), [&](auto t) { return t != target && is_in(t, s); }));
      if (!alone_elsewhere) left.push_back(target);
    }
    return left;
  }

  [[nodiscard]] bool any_of_part(const std::vector<std::size_t>& among, std::size_t step) const {
    return std::any_of(among.begin(), among.end(), [&](std::size_t target) {
      const auto* ingredient = ingredient_of(target);
      return ingredient != nullptr && !ingredient->group.empty() &&
             shares_word(ingredient->group, recipe_.steps[step].part);
    });
  }

  [[nodiscard]] static bool shares_word(const std::string& a, const std::string& b) {
    const auto first = stems_of(a);
    const auto second = stems_of(b);
    return std::any_of(first.begin(), first.end(), [&](const auto& word) { return second.contains(word); });
  }

  struct OpenAmount {
    const Amount* amount;
    std::vector<std::size_t> sightings;
  };

  // Amounts of one food that several lines list and nothing has settled, each once.
  [[nodiscard]] std::map<std::vector<std::size_t>, std::vector<OpenAmount>> open_amounts(
      const LineChoice& choice) const {
    std::map<std::vector<std::size_t>, std::vector<OpenAmount>> open;
    for (const auto& amount : talk_.amounts) {
      if (!amount.food || amount.taken_back || amount.suggested || amount.portion || amount.late ||
          amount.scan.is_share || !amount.scan.amount.value)
        continue;
      std::vector<std::size_t> foods{*amount.food};
      if (!amount.shared_with_next)  // "250 grams each of butter and sugar"
        foods.insert(foods.end(), amount.also_foods.begin(), amount.also_foods.end());
      for (const auto food : foods) {
        const auto& left = choice.targets_of[food];
        if (left.size() < 2 || !(talk_.sightings[food].strength == NameStrength::Full || are_one_food(left)))
          continue;
        auto& known = open[left];
        const auto again = std::find_if(known.begin(), known.end(), [&](const OpenAmount& one) {
          return *one.amount == amount.scan.amount;
        });
        if (again != known.end())
          again->sightings.push_back(food);
        else
          known.push_back({&amount.scan.amount, {food}});
      }
    }
    return open;
  }

  [[nodiscard]] bool are_one_food(const std::vector<std::size_t>& targets) const {
    return std::all_of(targets.begin(), targets.end(), [&](std::size_t t) {
      return fold_case(targets_[t].name) == fold_case(targets_[targets.front()].name);
    });
  }

  [[nodiscard]] bool fits(const Amount& said, std::size_t target) const {
    const auto& written = requirements_[targets_[target].requirement].amounts;
    if (written.empty()) return false;
    const auto sameness =
        compare_with_written(said, {}, written, recipe_.measures, targets_[target].name).sameness;
    return sameness == Sameness::Same || sameness == Sameness::SameLoosely;
  }

  // Two lines of one food and nothing else to go by: the order of the recipe, as she reads it out, where
  // every amount is as written so, or where they are told one after the other. Amounts that would fit only in
  // another order may be swapped, and stay open.
  void settle_by_order(LineChoice& choice) const {
    for (const auto& [targets, amounts] : open_amounts(choice)) {
      std::vector<std::size_t> free;
      for (const auto target : targets)
        if (!is_taken(choice, target)) free.push_back(target);
      if (amounts.size() != free.size() || free.size() > 4) continue;
      if (free.size() < targets.size()) {
        settle_last(choice, targets, free, amounts);
        continue;
      }
      bool all_fit = true;
      for (std::size_t k = 0; k < free.size(); ++k) all_fit = all_fit && fits(*amounts[k].amount, free[k]);
      if (all_fit || (are_near(amounts) && !fit_otherwise(amounts, free))) assign(choice, amounts, free);
    }
  }

  // One line is settled and one amount is left: it is for the line that is left, unless it only tells the
  // settled one again.
  void settle_last(LineChoice& choice, const std::vector<std::size_t>& targets,
                   const std::vector<std::size_t>& free, const std::vector<OpenAmount>& amounts) const {
    if (free.size() != 1) return;
    const bool retold = std::any_of(targets.begin(), targets.end(), [&](std::size_t target) {
      return target != free.front() && fits(*amounts.front().amount, target);
    });
    if (!retold && fits(*amounts.front().amount, free.front())) assign(choice, amounts, free);
  }

  // Two amounts were laid on one line, of which one is as written, and none on another line of the same food:
  // the other amount is for that one.
  void settle_leftover(LineChoice& choice) const {
    std::vector<char> whole_told(targets_.size(), 0);
    for (const auto& amount : talk_.amounts)
      if (is_settled_amount(choice, amount)) {
        const auto own = choice.targets_of[*amount.food].front();
        if (!whole_told[own] && fits(amount.scan.amount, own)) whole_told[own] = 1;
      }
    std::vector<char> named(targets_.size(), 0);
    for (const auto& left : choice.targets_of)
      for (const auto target : left) named[target] = 1;
    for (const auto& amount : talk_.amounts) {
      if (!is_settled_amount(choice, amount) || amount.scan.is_more || amount.scan.is_share ||
          is_part_told(amount))
        continue;
      const auto& meant = talk_.sightings[*amount.food].targets;
      const auto own = choice.targets_of[*amount.food].front();
      if (meant.size() != 2 || !whole_told[own] || fits(amount.scan.amount, own)) continue;
      const auto other = meant[meant.front() == own ? 1 : 0];
      if (named[other]) continue;
      // As written for the other line, the two may be swapped: that is not settled.
      choice.targets_of[*amount.food] = fits(amount.scan.amount, other) ? meant : std::vector{other};
      named[other] = 1;
    }
  }

  [[nodiscard]] static bool is_settled_amount(const LineChoice& choice, const SpokenAmount& amount) {
    return amount.food && !amount.taken_back && !amount.suggested && !amount.portion && !amount.late &&
           amount.scan.amount.value && choice.targets_of[*amount.food].size() == 1;
  }

  // "50 grams of the butter"
  [[nodiscard]] bool is_part_told(const SpokenAmount& amount) const {
    return talk_.text.is_word(amount.span.end, "of") && talk_.text.is_word(amount.span.end + 1, "the");
  }

  [[nodiscard]] bool is_taken(const LineChoice& choice, std::size_t target) const {
    return std::any_of(talk_.amounts.begin(), talk_.amounts.end(), [&](const SpokenAmount& amount) {
      if (!amount.food || amount.taken_back || amount.suggested || amount.portion) return false;
      const auto& left = choice.targets_of[*amount.food];
      return left.size() == 1 && left.front() == target;
    });
  }

  [[nodiscard]] bool are_near(const std::vector<OpenAmount>& amounts) const {
    constexpr std::size_t kNear = 60;
    for (std::size_t k = 1; k < amounts.size(); ++k)
      if (talk_.sightings[amounts[k].sightings.front()].span.begin -
              talk_.sightings[amounts[k - 1].sightings.front()].span.end >
          kNear)
        return false;
    return true;
  }

  [[nodiscard]] bool fit_otherwise(const std::vector<OpenAmount>& amounts,
                                   const std::vector<std::size_t>& targets) const {
    for (std::size_t k = 0; k < amounts.size(); ++k)
      for (std::size_t t = 0; t < targets.size(); ++t)
        if (t != k && fits(*amounts[k].amount, targets[t])) return true;
    return false;
  }

  static void assign(LineChoice& choice, const std::vector<OpenAmount>& amounts,
                     const std::vector<std::size_t>& targets) {
    for (std::size_t k = 0; k < amounts.size(); ++k)
      for (const auto sighting : amounts[k].sightings) choice.targets_of[sighting] = {targets[k]};
  }

  const Talk& talk_;
  const std::vector<FoodTarget>& targets_;
  const Recipe& recipe_;
  const std::vector<Requirement>& requirements_;
  const StepAlignment& steps_;
  std::vector<std::vector<std::size_t>> amounts_of_;  ///< by sighting
  std::map<std::size_t, std::size_t> last_full_;
  std::vector<std::string> parts_;                 ///< by ingredient; empty for those of no part
  std::vector<std::set<std::string>> line_stems_;  ///< by ingredient: of the whole line
  std::map<std::string, std::set<std::string>> part_stems_;
};

}  // namespace

LineChoice choose_lines(const Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe,
                        const std::vector<Requirement>& requirements, const StepAlignment& steps) {
  return Choosing(talk, targets, recipe, requirements, steps).run();
}

}  // namespace panslate
