#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/food.h"

#include "recipe/actions.h"
#include "recipe/findings.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

struct Count {
  Ratio least, most;
  int line = 0;
};

Count count_of(const Amount& amount, int line) {
  return {*amount.value, amount.to.value_or(*amount.value), line};
}

std::string count_words(const Count& count) {
  Amount amount;
  amount.value = count.least;
  if (count.least < count.most) amount.to = count.most;
  return to_text(amount);
}

// "3 each", "two per person", "(3 brownies each)", "2 pasties a head".
std::optional<Count> pieces_each(std::string_view text, int line) {
  constexpr std::size_t kLongestLine = 400;
  if (text.size() > kLongestLine) return std::nullopt;
  const auto tokens = tokenize(text);
  const auto word = [&](std::size_t at) {
    return at < tokens.size() ? std::string_view(tokens[at].text) : std::string_view{};
  };
  for (std::size_t at = 0; at < tokens.size(); ++at) {
    const auto number = scan_number(tokens, at);
    if (!number) continue;
    const auto measured = scan_amount(tokens, at, SpokenOrWritten::Written);
    const bool measure = measured && measured->has_unit &&
                         dimension_of(measured->amount.unit) != Dimension::Count &&
                         dimension_of(measured->amount.unit) != Dimension::Yield;
    for (auto i = number->end; !measure && i < number->end + 4 && i < tokens.size(); ++i) {
      const bool each = word(i) == "each" || word(i) == "apiece";
      const bool per = word(i) == "per" && is_one_of(word(i + 1), {"person", "serving", "portion", "head",
                                                                   "plate", "guest", "adult"});
      const bool a_head = word(i) == "a" && is_one_of(word(i + 1), {"head", "person", "serving", "portion"});
      if (each || per || a_head) return Count{number->value, number->to.value_or(number->value), line};
      if (tokens[i].kind != TokenKind::Word) break;
    }
    at = number->end - 1;
  }
  return std::nullopt;
}

bool is_piece_word(std::string_view word) {
  return is_one_of(word, {"piece", "ball", "portion", "round", "square", "circle", "bar", "slice", "bun",
                          "roll", "disc", "finger", "wedge", "triangle", "strip", "patty", "cake", "mound"});
}

class YieldCheck {
 public:
  explicit YieldCheck(const ReadContext& context) : context_(context), recipe_(context.recipe) {
    for (const auto& yield : recipe_.yields) {
      if (!yield.amount.value) continue;
      if (yield.kind == RecipeYield::Kind::Serves) {
        if (!serves_) serves_ = count_of(yield.amount, yield.line);
      } else if (!makes_ && (yield.amount.unit == Unit::Other || yield.amount.unit == Unit::Piece)) {
        makes_ = count_of(yield.amount, yield.line);
        noun_ = yield.amount.noun;
      }
    }
    const auto look_in = [&](const std::vector<RecipeNote>& notes) {
      for (const auto& note : notes)
        if (!each_) each_ = pieces_each(note.text, note.line);
    };
    look_in(recipe_.header_lines);
    look_in(recipe_.introduction);
    look_in(recipe_.placed_notes);
  }

  void run() const {
    multiply_out();
    if (makes_ && makes_->least.is_whole()) cut_into();
  }

 private:
  void multiply_out() const {
    if (!serves_ || !makes_ || !each_) return;
    const auto least = serves_->least.times(each_->least);
    const auto most = serves_->most.times(each_->most);
    if (!least || !most || (*least <= makes_->most && makes_->least <= *most)) return;
    auto& finding =
        context_.at_line(makes_->line, "yield-disagrees", ReadLevel::Error,
                         "Serving " + count_words(*serves_) + " with " + count_words(*each_) +
                             " each takes " + count_words({*least, *most, 0}) + ", but the recipe makes " +
                             count_words(*makes_) + (noun_.empty() ? std::string{} : " " + noun_) + ".");
    finding.advice = "Put right the servings, the pieces, or the pieces for each.";
  }

  // "Divide into 20 balls" where the recipe makes 24: told where there is one such number only.
  void cut_into() const {
    std::optional<ReadFinding> found;
    int told = 0;
    for (std::size_t s = 0; s < context_.words.size(); ++s) {
      const auto& words = context_.words[s];
      for (std::size_t at = 1; at < words.size(); ++at) {
        if (!words.is(at - 1, {"into", "out"})) continue;
        const auto number = scan_number(words.tokens, at);
        if (!number || !names_pieces(words, number->end)) continue;
        ++told;
        if (in_turns(words, at) || number->about) continue;
        const Count count{number->value, number->to.value_or(number->value), 0};
        if (!count.least.is_whole() || count.least <= Ratio(2)) continue;
        const bool meets = count.least <= makes_->most && makes_->least <= count.most;
        const bool part = makes_->least.num() % count.least.num() == 0;
        // "divide the butter into 3 portions" of a dough for 24: far from what is made.
        const bool near =
            *makes_->least.over(Ratio(2)) <= count.least && count.least <= *makes_->most.times(Ratio(2));
        if (meets || part || !near || count.least.num() % std::max<std::int64_t>(makes_->least.num(), 1) == 0)
          continue;
        ReadFinding& finding = found.emplace();
        const auto place = place_in(recipe_.steps[s], words.tokens[at].begin);
        finding.line = place.line;
        finding.column = place.line > 0 ? place.column : 0;
        finding.message = "Step " + std::to_string(recipe_.steps[s].number) + " makes " + count_words(count) +
                          ", but the recipe makes " + count_words(*makes_) +
                          (noun_.empty() ? std::string{} : " " + noun_) + ".";
      }
    }
    if (!found || told != 1) return;
    auto& finding = context_.at_line(found->line, "yield-disagrees", ReadLevel::Error, found->message);
    finding.column = found->column;
    finding.advice = "Put right the one that is wrong.";
  }

  bool names_pieces(const StepWords& words, std::size_t at) const {
    while (words.is(at, {"equal", "even", "small", "large", "neat", "little", "equal-sized", "-", "sized"}))
      ++at;
    if (at >= words.size() || words.tokens[at].kind != TokenKind::Word) return false;
    const auto& stem = words.stems[at];
    if (is_piece_word(stem)) return true;
    const auto tokens = tokenize(noun_);
    return !tokens.empty() && name_stem(tokens.back().text) == stem;
  }

  static bool in_turns(const StepWords& words, std::size_t at) {
    const auto end = words.sentence_end(at);
    for (auto i = words.sentence_begin(at); i < end; ++i)
      if (words.is(i, {"each", "every", "half", "per", "both", "quarter"})) return true;
    return false;
  }

  const ReadContext& context_;
  const Recipe& recipe_;
  std::optional<Count> serves_, makes_, each_;
  std::string noun_;
};

void serving_amounts(const ReadContext& context) {
  auto servings = servings_of(context.recipe);
  if (!servings) servings = context.options.serves;
  if (!servings || !(Ratio(0) < *servings)) return;
  for (std::size_t i = 0; i < context.recipe.ingredients.size(); ++i) {
    const auto& ingredient = context.recipe.ingredients[i];
    if (ingredient.amounts.empty() || !ingredient.amounts.front().value) continue;
    auto amount = ingredient.amounts.front();
    if (dimension_of(amount.unit) == Dimension::Little) continue;
    if (amount.each) {
      // A tin's contents can be shared out; the tin cannot.
      const auto all = amount.value->times(amount.each->value);
      const auto most = amount.to ? amount.to->times(amount.each->value) : std::nullopt;
      if (!all) continue;
      const auto unit = amount.each->unit;
      amount = Amount{};
      amount.value = all;
      amount.to = most;
      amount.unit = unit;
    }
    const auto value = amount.value->over(*servings);
    if (!value) continue;
    amount.value = value;
    if (amount.to) {
      const auto to = amount.to->over(*servings);
      if (!to) continue;
      amount.to = to;
    }
    amount.about = false;
    context.reading.per_serving.push_back({i, std::move(amount), std::nullopt, std::nullopt, {}});
  }
}

}  // namespace

void find_yield_faults(const ReadContext& context) {
  YieldCheck(context).run();
  serving_amounts(context);
}

}  // namespace panslate
