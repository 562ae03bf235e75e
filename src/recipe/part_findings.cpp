#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/food.h"

#include "recipe/actions.h"
#include "recipe/findings.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// One time that the method names an ingredient.
struct Portion {
  std::size_t step = 0;
  std::size_t offset = 0;
  std::optional<Amount> amount;  // "100 g of the butter"
  std::optional<Ratio> share;    // "half the butter"
  bool rest = false;             // "the remaining butter", "the other half"
};

bool is_measured_unit(Unit unit) {
  const auto dimension = dimension_of(unit);
  return dimension == Dimension::Mass || dimension == Dimension::Volume;
}

class PortionReader {
 public:
  explicit PortionReader(const ReadContext& context) : context_(context) {
    portions_.resize(context.recipe.ingredients.size());
    vague_.resize(portions_.size(), false);
    for (std::size_t s = 0; s < context.words.size(); ++s) step(s);
  }

  [[nodiscard]] const std::vector<Portion>& of(std::size_t ingredient) const { return portions_[ingredient]; }
  /// The words do not tell how much is meant, or more than once.
  [[nodiscard]] bool vague(std::size_t ingredient) const { return vague_[ingredient]; }

 private:
  void step(std::size_t s) {
    const auto& words = context_.words[s];
    const bool has_figures = !context_.recipe.steps[s].amounts.empty();
    const auto amounts =
        has_figures ? scan_amounts(words.tokens, SpokenOrWritten::Written) : std::vector<ScannedAmount>{};
    for (const auto& food : words.foods) {
      if (food.perhaps_verb) continue;
      const bool sure = food.ingredients.size() == 1 && food.match != NameMatch::Category;
      for (const auto i : food.ingredients) {
        if (!sure) {
          vague_[i] = true;
          continue;
        }
        portions_[i].push_back(portion(s, food, amounts, i));
      }
    }
    // "lay half of the bacon on top … Do the same with the second pancake."
    if (is_done_again(words) || (s + 1 < context_.words.size() && is_done_again(context_.words[s + 1])))
      for (const auto& food : words.foods)
        for (const auto i : food.ingredients) vague_[i] = true;
    // A use that no name tells ("everything", "the dry ingredients") may be any amount.
    for (const auto& use : context_.flow().steps[s].uses)
      if (use.kind != UseKind::Named) vague_[use.ingredient] = true;
  }

  static bool is_done_again(const StepWords& words) {
    for (std::size_t at = 0; at + 3 < words.size(); ++at)
      if (words.is(at, {"do"}) && words.is(at + 1, {"the"}) && words.is(at + 2, {"same"}) &&
          words.is(at + 3, {"with", "again", "for"}))
        return true;
    return false;
  }

  Portion portion(std::size_t s, const StepFood& food, const std::vector<ScannedAmount>& amounts,
                  std::size_t ingredient) {
    const auto& words = context_.words[s];
    Portion found;
    found.step = s;
    found.offset = words.tokens[food.begin].begin;
    for (const auto& amount : amounts) {
      if (amount.end > food.begin || food.begin - amount.end > 6) continue;
      if (!leads_to(words, amount.end, food.begin)) continue;
      if (amount.is_share)
        found.share = amount.amount.value;
      else if (amount.amount.value)
        found.amount = amount.amount;
      found.offset = words.tokens[amount.begin].begin;
      if (amount.is_each || told_each(words, food.end)) vague_[ingredient] = true;
    }
    const auto first = words.clause_begin(food.begin);
    const auto sentence = words.sentence_begin(food.begin);
    for (auto at = food.begin; at-- > sentence && food.begin - at < 7;) {
      if (at < first && !words.is(at, {"and"})) break;
      if (words.is(at, {"remaining", "rest", "leftover", "other", "reserved", "last", "final", "remainder",
                        "second", "more", "extra", "another"}))
        found.rest = true;
    }
    if (in_doubt(words, food)) vague_[ingredient] = true;
    return found;
  }

  // Only small words and descriptions stand between the amount and the food.
  static bool leads_to(const StepWords& words, std::size_t from, std::size_t to) {
    for (auto at = from; at < to; ++at) {
      const bool small = words.is(at, {"of", "the", "your", "remaining", "reserved", "rest", "more", "that",
                                       "this", "other", ")", "-", "a", "each", "cold", "warm", "measured"});
      if (!small && !is_descriptor(words.word(at))) return false;
    }
    return true;
  }

  static bool told_each(const StepWords& words, std::size_t at) {
    for (auto i = at; i < words.size() && i < at + 6 && words.same_sentence(i, at); ++i)
      if (words.is(i, {"each", "per", "every", "time", "apiece"})) return true;
    return false;
  }

  // "add another 20 g if the dough is dry", "repeat with the rest": how much is left open.
  static bool in_doubt(const StepWords& words, const StepFood& food) {
    const auto end = words.sentence_end(food.begin);
    for (auto at = words.sentence_begin(food.begin); at < end; ++at)
      if (words.is(at, {"repeat", "divide", "between", "bowls",       "plates",      "each",
                        "per",    "batch",  "batches", "needed",      "necessary",   "enough",
                        "until",  "every",  "time",    "alternately", "alternating", "gradually",
                        "some",   "most",   "little",  "spoonful",    "ladle",       "ladleful",
                        "about",  "splash", "extra",   "desired",     "optional"}) &&
          !(words.is(at, {"until", "time"})))
        return true;
    return false;
  }

  const ReadContext& context_;
  std::vector<std::vector<Portion>> portions_;
  std::vector<char> vague_;
};

// The sum of what is taken, in parts of what is listed; empty where an amount cannot be compared.
std::optional<double> taken(const ReadContext& context, std::size_t i, const std::vector<Portion>& portions) {
  const auto& ingredient = context.recipe.ingredients[i];
  double sum = 0;
  for (const auto& portion : portions) {
    if (portion.share) sum += portion.share->value();
    if (!portion.amount) continue;
    std::optional<double> part;
    for (const auto& listed : ingredient.amounts) {
      if (!listed.value || !is_measured_unit(portion.amount->unit)) continue;
      auto whole = listed;
      whole.to.reset();
      const auto apart = distance_between(*portion.amount, whole, context.recipe.measures, ingredient.name);
      if (!apart) continue;
      part = apart->would_be / (whole.each ? whole.value->times(whole.each->value).value_or(Ratio(1)).value()
                                           : whole.value->value());
      if (portion.amount->unit == listed.unit) break;
    }
    if (!part) return std::nullopt;
    sum += *part;
  }
  return sum;
}

std::string sum_words(const std::vector<Portion>& portions) {
  std::string text;
  for (const auto& portion : portions) {
    if (!portion.amount && !portion.share) continue;
    if (!text.empty()) text += " + ";
    if (portion.amount) {
      text += to_text(*portion.amount);
    } else {
      Amount share;
      share.value = portion.share;
      text += to_text(share);
    }
  }
  return text;
}

bool is_open_ended(const Ingredient& ingredient) {
  const auto text = fold_accents(ingredient.text);
  for (const auto* const words : {"plus", "extra", "more", "about", "approx", "as needed", "each", "+"})
    if (text.find(words) != std::string::npos) return true;
  return ingredient.amounts.empty() || !ingredient.amounts.front().value || ingredient.amount_is_each ||
         ingredient.foods.size() > 1;
}

// "… and the other half over the potatoes": the rest is told without its name.
bool rest_follows(const ReadContext& context, const Portion& last) {
  for (auto s = last.step; s < context.words.size(); ++s) {
    const auto& words = context.words[s];
    const auto from = s == last.step ? words.token_at(last.offset) + 1 : 0;
    for (auto at = from; at < words.size(); ++at)
      if (words.is(at, {"rest", "remainder", "remaining", "other", "leftover", "second", "reserved"})) {
        const bool half = !words.is(at, {"other", "second"}) || words.is(at + 1, {"half", "third", "two"});
        if (half) return true;
      }
  }
  return false;
}

void check_sum(const ReadContext& context, const PortionReader& reader, std::size_t i) {
  const auto& ingredient = context.recipe.ingredients[i];
  const auto& portions = reader.of(i);
  if (is_open_ended(ingredient) || portions.empty()) return;
  const auto told =
      std::count_if(portions.begin(), portions.end(), [](const Portion& p) { return p.amount || p.share; });
  if (told == 0) return;
  const auto sum = taken(context, i, portions);
  if (!sum) return;
  const bool bare =
      std::any_of(portions.begin(), portions.end(), [](const Portion& p) { return !p.amount && !p.share; });
  const bool shares = std::any_of(portions.begin(), portions.end(), [](const Portion& p) { return p.share; });
  constexpr double kSlack = 0.03, kSlackOfUnits = 0.08;
  const bool one_unit = std::all_of(portions.begin(), portions.end(), [&](const Portion& p) {
    return !p.amount || std::any_of(ingredient.amounts.begin(), ingredient.amounts.end(),
                                    [&](const Amount& a) { return a.unit == p.amount->unit; });
  });
  const double slack = one_unit ? kSlack : kSlackOfUnits;
  const auto& listed = ingredient.amounts.front();
  const double most = listed.to ? listed.to->value() / listed.value->value() : 1.0;
  const bool too_much = *sum > most + slack;
  // What is taken last "the rest" of need not be told; a share may be told again ("fold in the half …").
  const bool too_little =
      *sum < 1 - slack && !bare && !reader.vague(i) && !rest_follows(context, portions.back());
  if (!too_much && !too_little) return;
  if (too_much && (reader.vague(i) || (shares && told > 3))) return;
  const auto& last =
      *std::find_if(portions.rbegin(), portions.rend(), [](const Portion& p) { return p.amount || p.share; });
  auto& finding =
      context.in_step(last.step, last.offset, "parts-do-not-add-up", ReadLevel::Error,
                      "The method takes " + sum_words(portions) + " of the " + ingredient.name + ", " +
                          (too_much ? "more" : "less") + " than the " + to_text(listed) + " listed" +
                          (ingredient.line > 0 ? " on " + line_name(ingredient.line) : std::string{}) + ".");
  finding.advice =
      too_much ? "List as much as the method takes, or take less." : "Say where the rest goes, or list less.";
}

void check_divided(const ReadContext& context, const PortionReader& reader, std::size_t i) {
  const auto& ingredient = context.recipe.ingredients[i];
  const auto text = fold_accents(ingredient.text);
  if (text.find("divided") == std::string::npos) return;
  if (reader.vague(i) || reader.of(i).size() != 1 || context.flow().used_in[i].size() != 1) return;
  const auto& only = reader.of(i).front();
  if (only.amount || only.share) return;
  auto& finding = context.at_ingredient(
      i, "never-divided", ReadLevel::Warning,
      "The list says that the " + ingredient.name + " is divided, but the method takes all of it at once.");
  finding.advice = "Say in the method how much goes where, or take out \"divided\".";
}

}  // namespace

void find_part_faults(const ReadContext& context) {
  const PortionReader reader(context);
  for (std::size_t i = 0; i < context.recipe.ingredients.size(); ++i) {
    check_sum(context, reader, i);
    check_divided(context, reader, i);
  }
}

}  // namespace panslate
