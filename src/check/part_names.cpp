#include "check/part_names.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "panslate/kitchen/food.h"

#include "check/action_words.h"
#include "check/amount_reach.h"
#include "check/filler_words.h"
#include "check/phrase.h"
#include "check/span_search.h"

namespace panslate {

namespace {

class PartNames {
 public:
  PartNames(Talk& talk, const std::vector<FoodTarget>& targets)
      : talk_(talk), text_(talk.text), targets_(targets) {}

  void run() {
    std::vector<FoodSighting> found;
    for (const auto& amount : talk_.amounts) {
      if (!is_food_amount(amount.scan)) continue;
      auto named = named_after(amount);
      if (!named) named = named_before(amount);
      if (named && (found.empty() || !found.back().span.overlaps(named->span)))
        found.push_back(*std::move(named));
    }
    if (found.empty()) return;
    std::erase_if(talk_.other_foods,
                  [&](const FoodSighting& other) { return any_overlaps(found, other.span); });
    talk_.sightings.insert(talk_.sightings.end(), std::make_move_iterator(found.begin()),
                           std::make_move_iterator(found.end()));
    std::sort(talk_.sightings.begin(), talk_.sightings.end(),
              [](const auto& a, const auto& b) { return a.span.begin < b.span.begin; });
  }

 private:
  [[nodiscard]] bool is_article(std::size_t at) const {
    constexpr std::array<std::string_view, 6> kArticles{"the", "that", "this", "my", "our", "your"};
    return is_any_word(text_, at, kArticles);
  }

  // "… of the white alongside it", "… of rye."
  [[nodiscard]] std::optional<FoodSighting> named_after(const SpokenAmount& amount) const {
    auto at = amount.span.end;
    if (!text_.is_word(at, "of")) return std::nullopt;
    ++at;
    const bool article = is_article(at);
    return named_at(article ? at + 1 : at, amount, article);
  }

  // "the wholemeal, three hundred and fifty grams"
  [[nodiscard]] std::optional<FoodSighting> named_before(const SpokenAmount& amount) const {
    auto end = amount.span.begin;
    if (end == 0 || !amount.scan.has_unit || text_.is_word(amount.span.end, "of")) return std::nullopt;
    if (text_.is_word(end - 1, ",")) --end;
    for (auto begin = end; begin-- > 0 && end - begin <= kLongest;)
      if (is_article(begin)) {
        auto found = named_at(begin + 1, amount, true);
        if (found && found->span.end == end) return found;
        break;
      }
    // "Curry, one tablespoon.": where a sentence or a turn of a list begins.
    if (end == 0 || text_[end - 1].kind != TokenKind::Word) return std::nullopt;
    constexpr std::array<std::string_view, 5> kTurns{"and", "then", "now", "some", "next"};
    const auto before = end - 1;
    const bool begins = before == 0 || text_[before - 1].kind == TokenKind::Mark ||
                        text_.sentence(before - 1) != text_.sentence(before) ||
                        is_any_word(text_, before - 1, kTurns);
    if (!begins) return std::nullopt;
    auto found = named_at(before, amount, false);
    return found && found->span.end == end ? found : std::nullopt;
  }

  // "self-raising"
  [[nodiscard]] bool is_inner_hyphen(std::size_t at) const {
    return text_.is_word(at, "-") && !text_[at].space_before && at + 1 < text_.size() &&
           !text_[at + 1].space_before;
  }

  // Lines whose name has all these words before its last, and no other has one of them.
  [[nodiscard]] std::vector<std::size_t> lines_with(TokenSpan span) const {
    std::vector<std::size_t> lines;
    for (std::size_t t = 0; t < targets_.size(); ++t) {
      const auto& words = targets_[t].words;
      const auto has = [&](std::size_t i) {
        return words.size() > 1 &&
               std::find(words.begin(), words.end() - 1, text_[i].text) != words.end() - 1;
      };
      bool all = true;
      for (auto i = span.begin; i < span.end; ++i) all = all && (has(i) || is_inner_hyphen(i));
      if (all) lines.push_back(t);
    }
    return lines;
  }

  [[nodiscard]] std::optional<FoodSighting> named_at(std::size_t at, const SpokenAmount& amount,
                                                     bool article) const {
    FoodSighting named;
    named.span = {at, at};
    while (named.span.end < text_.size() && named.span.end - at < kLongest &&
           (text_[named.span.end].kind == TokenKind::Word || is_inner_hyphen(named.span.end)) &&
           text_.sentence(named.span.end) == text_.sentence(amount.span.begin)) {
      auto lines = lines_with({at, named.span.end + 1});
      if (lines.empty()) break;
      named.targets = std::move(lines);
      ++named.span.end;
    }
    if (named.span.empty() || any_overlaps(talk_.sightings, named.span) || !is_over(named.span.end))
      return std::nullopt;
    // Without an article a word that only describes names nothing, and another food is that food, unless it
    // is measured as the line is: "a tablespoon of rye".
    const bool known = any_overlaps(talk_.other_foods, named.span);
    if (known || !article) {
      const bool describes = is_descriptor(text_[named.span.end - 1].text);
      std::erase_if(named.targets, [&](std::size_t t) {
        const auto& units = targets_[t].units;
        return std::find(units.begin(), units.end(), amount.scan.amount.unit) == units.end();
      });
      // "eighty-five grams of granulated, not caster"
      const auto end = named.span.end;
      const bool over = end >= text_.size() || text_[end].kind == TokenKind::Mark;
      if ((describes && !over) || named.targets.empty()) return std::nullopt;
    }
    std::set<std::size_t> lines;
    for (const auto t : named.targets) lines.insert(targets_[t].requirement);
    if (lines.size() != 1) return std::nullopt;
    named.strength = NameStrength::Head;
    named.doubtful = known;  // "half a cup of rice" may be rice, and not the rice vinegar
    return named;
  }

  // No noun follows that the words would describe: "the white alongside it", not "white fish".
  [[nodiscard]] bool is_over(std::size_t end) const {
    if (end >= text_.size() || text_.sentence(end) != text_.sentence(end - 1)) return true;
    const auto& next = text_[end];
    if (next.kind != TokenKind::Word) return next.text != "-";
    constexpr std::array<std::string_view, 3> kNoun{"one", "ones", "stuff"};
    if (std::find(kNoun.begin(), kNoun.end(), next.text) != kNoun.end()) return false;
    constexpr std::array<std::string_view, 7> kGoesOn{"alongside", "goes",  "along", "beside",
                                                      "plus",      "first", "mixed"};
    const auto amount = first_from(talk_.amounts, end);
    return is_filler(next.text) || is_action_word(next.text) ||
           std::find(kGoesOn.begin(), kGoesOn.end(), next.text) != kGoesOn.end() ||
           (amount != talk_.amounts.end() && amount->span.begin == end);
  }

  static constexpr std::size_t kLongest = 3;  // words

  Talk& talk_;
  const SpokenText& text_;
  const std::vector<FoodTarget>& targets_;
};

}  // namespace

void find_part_names(Talk& talk, const std::vector<FoodTarget>& targets) {
  PartNames(talk, targets).run();
}

}  // namespace panslate
