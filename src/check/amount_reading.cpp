#include "check/amount_reading.h"

#include <algorithm>
#include <cmath>

namespace panslate {

namespace {

bool is_little(const Amount& amount) {
  return dimension_of(amount.unit) == Dimension::Little;
}

bool is_measured(const Amount& amount) {
  return amount.value && !is_little(amount);
}

bool is_same(Sameness s) {
  return s == Sameness::Same || s == Sameness::SameLoosely;
}

// Higher is closer to the written amount.
int rank(Sameness s) {
  switch (s) {
    case Sameness::Same:
      return 4;
    case Sameness::SameLoosely:
      return 3;
    case Sameness::SameInOtherMeasures:
      return 2;
    case Sameness::CannotTell:
      return 1;
    case Sameness::Different:
      return 0;
  }
  return 0;
}

// Measured in a unit that is written, an amount is held against that alone: of "1 lb (450 g)", 460 g is not
// the pound, though it is near one.
bool has_its_unit(const Amount& said, const std::vector<Amount>& written) {
  const auto dimension = dimension_of(said.unit);
  return (dimension == Dimension::Mass || dimension == Dimension::Volume) && !said.each &&
         std::any_of(written.begin(), written.end(), [&](const Amount& amount) {
           return amount.value && amount.unit == said.unit && !amount.each;
         });
}

Comparison best_of(const Amount& said, const std::vector<Amount>& written, Measures measures,
                   std::string_view food, bool by_unit) {
  Comparison best;
  bool first = true;
  for (const auto& amount : written) {
    if (by_unit && (amount.unit != said.unit || amount.each)) continue;
    auto comparison = compare(said, amount, measures, food);
    if (first || rank(comparison.sameness) > rank(best.sameness)) best = std::move(comparison);
    first = false;
  }
  // One alternate that cannot be compared says nothing against another that can: "180 g (1 cup)", said "200
  // grams".
  if (best.sameness == Sameness::CannotTell) {
    for (const auto& amount : written)
      if (dimension_of(said.unit) == dimension_of(amount.unit) &&
          compare(said, amount, measures, food).sameness == Sameness::Different)
        return compare(said, amount, measures, food);
  }
  return best;
}

// The sum of two amounts of a kind in the first's unit; empty where they do not add up.
std::optional<Amount> sum_of(const Amount& a, const Amount& b, Measures measures) {
  if (!a.value || !b.value || a.to || b.to) return std::nullopt;
  Amount sum = a;
  if (a.unit == b.unit && a.each == b.each && a.noun == b.noun) {
    sum.value = a.value->plus(*b.value);
    return sum.value ? std::optional(sum) : std::nullopt;
  }
  if (a.each || b.each || dimension_of(a.unit) != dimension_of(b.unit)) return std::nullopt;
  const auto size_a = size_of(a.unit, measures);
  const auto size_b = size_of(b.unit, measures);
  if (!size_a || !size_b) return std::nullopt;
  const auto in_base = b.value->times(size_b->size);
  const auto in_unit = in_base ? in_base->over(size_a->size) : std::nullopt;
  sum.value = in_unit ? a.value->plus(*in_unit) : std::nullopt;
  return sum.value ? std::optional(sum) : std::nullopt;
}

double rough_size(const Amount& amount, Measures measures) {
  if (!amount.value) return 0.0;
  const auto size = size_of(amount.unit, measures);
  double each = amount.each ? amount.each->value.value() : 1.0;
  return amount.value->value() * (size ? size->size.value() : 1.0) * each;
}

class Reader {
 public:
  Reader(const std::vector<SaidAmount>& said, const std::vector<Amount>& written, Measures measures,
         std::string_view food)
      : said_(said), written_(written), measures_(measures), food_(food) {}

  Reading run() {
    drop_corrected();
    const bool states_number = std::any_of(written_.begin(), written_.end(), is_measured);
    if (!states_number) return without_number();
    std::vector<std::size_t> parts;
    std::vector<std::size_t> totals;
    for (std::size_t i = first_; i < said_.size(); ++i) {
      const auto& s = said_[i];
      if (s.is_share || !s.amount->value || is_little(*s.amount)) continue;
      (s.is_total ? totals : parts).push_back(i);
    }
    if (parts.empty() && totals.empty()) return {};
    return judge(parts, totals);
  }

 private:
  void drop_corrected() {
    for (std::size_t i = 0; i < said_.size(); ++i)
      if (said_[i].corrects) first_ = i;
  }

  // Written without a number: naming it is enough, unless a measured amount is said.
  Reading without_number() const {
    Reading reading;
    reading.verdict = Verdict::Match;
    for (std::size_t i = first_; i < said_.size(); ++i) {
      if (said_[i].is_share || said_[i].is_more || !is_measured(*said_[i].amount)) continue;
      reading.verdict = Verdict::Differs;
      reading.deciding = i;
      reading.how = "the recipe gives no measured amount";
      return reading;
    }
    return reading;
  }

  [[nodiscard]] Comparison comparison(std::size_t i) const {
    return compare_with_written(*said_[i].amount, *said_[i].alternates, written_, measures_, food_);
  }

  [[nodiscard]] bool equals_earlier(std::size_t i, const std::vector<std::size_t>& parts) const {
    return std::any_of(parts.begin(), parts.end(), [&](std::size_t k) {
      return k < i &&
             compare(*said_[i].amount, *said_[k].amount, measures_, food_).sameness == Sameness::Same;
    });
  }

  Reading judge(const std::vector<std::size_t>& parts, const std::vector<std::size_t>& totals) {
    if (auto whole = one_is_whole(parts)) return *whole;
    if (auto sum = parts_add_up(parts)) return *sum;
    for (const auto i : totals) {
      const auto compared = comparison(i);
      if (is_same(compared.sameness)) {
        // A total that is right over parts that are not: her words contradict each other.
        const bool parts_stand_against = parts.size() > 1 && !parts_add_up(parts);
        return reading(parts_stand_against ? Verdict::Unsure : Verdict::Match, i, compared,
                       parts_stand_against ? "the total is as written, the parts said are not" : "");
      }
    }
    return nothing_fits(parts.empty() ? totals : parts);
  }

  // One amount is the written one; the rest must be explained by it.
  std::optional<Reading> one_is_whole(const std::vector<std::size_t>& parts) {
    for (const auto i : parts) {
      const auto compared = comparison(i);
      // "another 80 grams" is an amount of its own where nothing else is said.
      if (!is_same(compared.sameness) || (said_[i].is_more && parts.size() > 1)) continue;
      std::vector<std::size_t> extra;
      const double whole = rough_size(*said_[i].amount, measures_);
      bool contradicted = false;
      bool unexplained = false;
      double before = 0.0;
      for (const auto k : parts) {
        if (k == i) continue;
        const auto sameness = comparison(k).sameness;
        const bool same_kind = dimension_of(said_[k].amount->unit) == dimension_of(said_[i].amount->unit);
        if (is_same(sameness) && !said_[k].is_more) continue;  // told again
        // "Half a teaspoon of soda. My scale can only tell a gram": hardly an amount of it.
        if (said_[k].loose_tie && !said_[i].loose_tie &&
            (!same_kind || rough_size(*said_[k].amount, measures_) < whole))
          continue;
        // "a kilo of potatoes, that's about six": counted besides, where the recipe weighs.
        if (said_[k].amount->unit != said_[i].amount->unit && sameness == Sameness::CannotTell &&
            !said_[k].is_more && dimension_of(said_[k].amount->unit) == Dimension::Count &&
            !said_[k].amount->each)
          continue;
        if (said_[k].is_more && !said_[k].partitive && k > i && !is_given_out(parts, i, k)) {
          extra.push_back(k);
          continue;
        }
        if (same_kind) before += rough_size(*said_[k].amount, measures_);
        // A part of it being used is told as one ("of the butter", "the rest"), or the parts give the whole;
        // anything else contradicts it.
        if (!same_kind ? sameness == Sameness::Different
                       : rough_size(*said_[k].amount, measures_) > whole * 1.001)
          contradicted = true;
        if (!said_[k].partitive && !said_[k].is_more) unexplained = true;
      }
      const bool parts_give_whole = before > whole * 0.98 && before < whole * 1.02;
      const bool rest_is_told =
          std::any_of(said_.begin(), said_.end(), [](const SaidAmount& s) { return s.is_share; });
      if (before > whole * 1.02 || (unexplained && !parts_give_whole && !rest_is_told)) contradicted = true;
      auto result = reading(contradicted ? Verdict::Unsure : Verdict::Match, i, compared,
                            contradicted ? "another amount is said for it too" : "");
      result.extra = std::move(extra);
      return result;
    }
    return std::nullopt;
  }

  // "another 50 g" after a smaller part is the rest being used, not something on top.
  [[nodiscard]] bool is_given_out(const std::vector<std::size_t>& parts, std::size_t whole,
                                  std::size_t more) const {
    return std::any_of(parts.begin(), parts.end(), [&](std::size_t k) {
      return k != whole && k < more && !is_same(comparison(k).sameness);
    });
  }

  std::optional<Reading> parts_add_up(const std::vector<std::size_t>& parts) const {
    std::optional<Amount> sum;
    std::size_t count = 0;
    std::size_t last = 0;
    // Told in several units, what they come to is exact in none.
    bool mixed = false;
    const auto compared_sum = [&] {
      return best_of(*sum, written_, measures_, food_, !mixed && has_its_unit(*sum, written_));
    };
    for (const auto i : parts) {
      if (said_[i].repeated && equals_earlier(i, parts)) continue;
      if (sum && said_[i].is_more) {
        // What comes on top of the written amount is an extra; what completes it is a part.
        if (is_same(compared_sum().sameness)) break;
      }
      const auto next = sum ? sum_of(*sum, *said_[i].amount, measures_) : std::optional(*said_[i].amount);
      if (!next) return std::nullopt;
      mixed = mixed || next->unit != said_[i].amount->unit;
      sum = next;
      last = i;
      ++count;
    }
    if (!sum || count < 2) return std::nullopt;
    const auto compared = compared_sum();
    if (!is_same(compared.sameness)) return std::nullopt;
    auto result =
        reading(Verdict::Match, parts.front(), compared, "said in " + std::to_string(count) + " parts");
    for (const auto i : parts)
      if (i > last) result.extra.push_back(i);
    return result;
  }

  Reading nothing_fits(const std::vector<std::size_t>& among) const {
    // The last one said is what she ended on; a doubt about any of them is told as a doubt.
    for (const auto i : among) {
      const auto compared = comparison(i);
      if (compared.sameness == Sameness::SameInOtherMeasures || compared.sameness == Sameness::CannotTell)
        return reading(Verdict::Unsure, i, compared, "");
    }
    const auto i = among.back();
    const bool all_loose =
        std::all_of(among.begin(), among.end(), [&](std::size_t k) { return said_[k].loose_tie; });
    if (all_loose)
      return reading(Verdict::Unsure, i, comparison(i), "the amount may belong to something else");
    const auto compared = comparison(i);
    // "and put in the other half litre": how much went in before was not made out.
    if (among.size() == 1 && said_[i].is_more)
      return reading(Verdict::Unsure, i, compared, "how much was said before it is not clear");
    return reading(Verdict::Differs, i, compared,
                   is_same(compared.sameness) ? "more of it is said besides" : "");
  }

  [[nodiscard]] Reading reading(Verdict verdict, std::size_t deciding, const Comparison& compared,
                                const std::string& how) const {
    Reading r;
    r.verdict = verdict;
    r.deciding = deciding;
    r.how = how.empty() ? compared.how : how;
    r.loose_pair = compared.sameness == Sameness::SameLoosely;
    const auto& said = *said_[deciding].amount;
    const auto& size = written_.front().size;
    r.size_differs = is_same(compared.sameness) && said.unit == written_.front().unit &&
                     said.size.value_or(SpoonSize::Level) != size.value_or(SpoonSize::Level);
    return r;
  }

  const std::vector<SaidAmount>& said_;
  const std::vector<Amount>& written_;
  Measures measures_;
  std::string_view food_;
  std::size_t first_ = 0;
};

}  // namespace

Comparison compare_with_written(const Amount& said, const std::vector<Amount>& alternates,
                                const std::vector<Amount>& written, Measures measures,
                                std::string_view food) {
  auto worst = best_of(said, written, measures, food, has_its_unit(said, written));
  for (const auto& alternate : alternates) {
    // "one and a half cups, 350 millilitres": what she adds need only be near.
    auto other = best_of(alternate, written, measures, food, false);
    // "250 grams of butter, that's one block": how it is sold says nothing against its weight.
    if (other.sameness == Sameness::CannotTell && dimension_of(alternate.unit) == Dimension::Count &&
        !alternate.each)
      continue;
    if (rank(other.sameness) < rank(worst.sameness)) worst = std::move(other);
  }
  return worst;
}

Reading read_amounts(const std::vector<SaidAmount>& said, const std::vector<Amount>& written,
                     Measures measures, std::string_view food) {
  return Reader(said, written, measures, food).run();
}

}  // namespace panslate
