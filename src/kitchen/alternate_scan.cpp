#include "kitchen/alternate_scan.h"

#include <cmath>
#include <utility>

#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/quantity_scan.h"
#include "kitchen/scan_words.h"
#include "kitchen/temperature_scan.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;
using Found = std::optional<ScannedAmount>;

constexpr std::size_t kMostAlternates = 6;
// How near two amounts must be to be one told twice: with only a comma between; and in so many words, where
// cooks round ("a kilo, so two pounds").
constexpr double kApposed = 0.06, kRounded = 0.16;

// What joins an amount and the same amount told otherwise.
struct Joint {
  std::size_t after = 0;
  bool bracket = false;
  bool apposed = false;  // nothing but a comma
};

std::optional<Joint> joint_at(Tokens tokens, std::size_t at) {
  if (is_any(tokens, at, "/|=|or") || is_text(tokens, at, "|")) return Joint{at + 1};
  if (is_text(tokens, at, "(")) return Joint{at + 1, true};
  auto i = at;
  const bool comma = is_any(tokens, i, ",|-");
  if (comma) ++i;
  if (is_text(tokens, i, "or")) return Joint{i + 1};
  if (is_any(tokens, i, "so|and") && is_text(tokens, i + 1, "that's")) ++i;
  if (is_any(tokens, i, "that's|thats|equals|aka")) return Joint{i + 1};
  if (is_any(tokens, i, "that|which|it|this") && is_any(tokens, i + 1, "is|makes|equals"))
    return Joint{i + 2};
  if (!comma) return std::nullopt;
  if (is_text(tokens, i, "so")) return Joint{i + 1};
  // "(270 g - 800 ml)": what a range cannot be.
  if (is_text(tokens, at, "-") || is_any(tokens, i, "about|roughly|around")) return Joint{i};
  return Joint{i, false, true};
}

bool can_be_alternate(const Amount& first, const Amount& other) {
  const auto dimension = dimension_of(first.unit);
  const auto other_dimension = dimension_of(other.unit);
  const auto measured = [](Dimension d) {
    return d == Dimension::Mass || d == Dimension::Volume || d == Dimension::Count || d == Dimension::Little;
  };
  if (dimension == Dimension::Time) return other_dimension == dimension && first.unit != other.unit;
  return measured(dimension) && measured(other_dimension) && first.unit != other.unit;
}

// "thirty mils, two tablespoons": one amount in two units, whosever spoons they are.
bool is_same_told_otherwise(const Amount& one, const Amount& other, double near) {
  if (!one.value || !other.value || one.to || other.to || one.unit == other.unit) return false;
  for (const auto measures : {Measures::Us, Measures::Metric, Measures::Au, Measures::Uk}) {
    const auto a = size_of(one.unit, measures);
    const auto b = size_of(other.unit, measures);
    if (!a || !b || dimension_of(one.unit) != dimension_of(other.unit)) return false;
    const double first = one.value->value() * a->size.value();
    const double second = other.value->value() * b->size.value();
    if (std::abs(first - second) <= near * first) return true;
  }
  return false;
}

Found alternate_at(Tokens tokens, const ScannedAmount& found, std::size_t at, SpokenOrWritten how) {
  if (skip_no_amount(tokens, at) != at) return std::nullopt;
  auto other = quantity_at(tokens, at, how);
  if (!other || !other->has_unit || other->is_more || other->is_length || !other->amount.value ||
      !can_be_alternate(found.amount, other->amount))
    return std::nullopt;
  read_tail(tokens, *other);
  if (other->is_each && !found.is_each) return std::nullopt;
  return other;
}

void take(ScannedAmount& found, ScannedAmount& other) {
  found.alternates.push_back(std::move(other.amount));
  for (auto& more : other.alternates) found.alternates.push_back(std::move(more));
}

// "1 can (400 g)": the size of the package, where the bracket tells no total.
void bracket_to_package(ScannedAmount& found) {
  auto& amount = found.amount;
  const bool package = amount.unit == Unit::Can || amount.unit == Unit::Jar || amount.unit == Unit::Packet;
  if (!package || amount.each || amount.to || found.alternates.empty()) return;
  if (!amount.value || *amount.value < Ratio(1)) return;
  const auto total = [](const Amount& other) {
    const auto size = size_of(other.unit, Measures::Us);
    return size && other.value ? other.value->times(size->size).value_or(Ratio(0)) : Ratio(0);
  };
  std::vector<Amount> packaged;
  for (const auto& other : found.alternates) {
    const auto dimension = dimension_of(other.unit);
    const bool measure = dimension == Dimension::Mass || dimension == Dimension::Volume;
    if (!measure || !other.value || other.to) return;
    // Two tins of 800 g in all are two of 400 g; tins beyond 500 g are rare: common practice, no source.
    if (*amount.value != Ratio(1) && Ratio(500) < total(other)) return;
    auto one = amount;
    one.each = Package{*other.value, other.unit};
    packaged.push_back(std::move(one));
  }
  amount = packaged.front();
  packaged.erase(packaged.begin());
  found.alternates = std::move(packaged);
}

bool tell_one_portion(Tokens tokens, std::size_t at) {
  return is_any(tokens, at, "serving|portion|person|head|side|kilo|pound");
}

// Index after words like "each", "per portion", "on each side"; `at` when none stand there.
std::size_t each_end(Tokens tokens, std::size_t at) {
  if (is_any(tokens, at, "each|apiece")) return is_text(tokens, at + 1, "side") ? at + 2 : at + 1;
  if (is_text(tokens, at, "for") && is_text(tokens, at + 1, "each")) return at + 2;
  if (is_text(tokens, at, "a") && tell_one_portion(tokens, at + 1)) return at + 2;
  if (is_text(tokens, at, "per") && at + 1 < tokens.size() && tokens[at + 1].kind == TokenKind::Word)
    return at + 2;
  if (is_any(tokens, at, "on|for|per") && is_any(tokens, at + 1, "each|either|a|the") &&
      is_text(tokens, at + 2, "side"))
    return at + 3;
  return at;
}

std::size_t total_end(Tokens tokens, std::size_t at) {
  if (is_any(tokens, at, "altogether|total|overall")) return at + 1;
  if (is_text(tokens, at, "in") && is_any(tokens, at + 1, "all|total")) return at + 2;
  if (is_text(tokens, at, "all") && is_any(tokens, at + 1, "together|told|in|up")) return at + 2;
  return at;
}

// "20 g more", "two tablespoons extra"; not "1 tbsp extra-virgin oil", "more than".
bool is_more_after(Tokens tokens, std::size_t at) {
  if (is_text(tokens, at, "more")) return !is_any(tokens, at + 1, "or|than");
  return is_text(tokens, at, "extra") &&
         (at + 1 >= tokens.size() ||
          is_any(tokens, at + 1, ",|.|;|)|for|if|just|to|on|here|now|in|at|because|and"));
}

}  // namespace

void read_tail(Tokens tokens, ScannedAmount& found) {
  constexpr int kMostWords = 3;
  for (int round = 0; round < kMostWords; ++round) {
    const auto at = found.end;
    if (const auto about = about_tail_at(tokens, at); about.about) {
      found.amount.about = true;
      found.end = about.end;
    } else if (const auto each = each_end(tokens, at); each > at) {
      found.is_each = true;
      found.end = each;
    } else if (const auto total = total_end(tokens, at); total > at) {
      found.is_total = true;
      found.end = total;
    } else if (found.has_unit && is_more_after(tokens, at)) {
      found.is_more = true;
      found.end = at + 1;
    } else {
      return;
    }
  }
}

void read_alternates(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  bool in_bracket = false;
  for (std::size_t count = 0; count < kMostAlternates; ++count) {
    const auto joint = joint_at(tokens, found.end);
    if (!joint || (in_bracket && joint->bracket)) break;
    auto other = alternate_at(tokens, found, joint->after, how);
    if (!other || (joint->apposed && !is_same_told_otherwise(found.amount, other->amount, kApposed))) break;
    // A bracket holds the alternates alone: "(2 cups)", not "(2 cups of it for the sauce)".
    in_bracket = in_bracket || joint->bracket;
    if (in_bracket && !is_any(tokens, other->end, ")|/|or|;|,")) break;
    found.is_total = found.is_total || other->is_total;
    take(found, *other);
    found.end = other->end;
    if (in_bracket && is_text(tokens, found.end, ")")) {
      ++found.end;
      in_bracket = false;
    }
  }
  bracket_to_package(found);
  if (!found.alternates.empty()) read_tail(tokens, found);
}

void read_retold(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  if (!found.has_unit || found.is_share || found.is_length || !found.amount.value ||
      !found.alternates.empty())
    return;
  const auto dimension = dimension_of(found.amount.unit);
  if (dimension == Dimension::Time || dimension == Dimension::Temperature) return;
  constexpr std::size_t kLongestFood = 5;
  auto at = found.end;
  if (is_text(tokens, at, "of")) ++at;
  const auto food = at;
  while (at < tokens.size() && at - food < kLongestFood && tokens[at].kind == TokenKind::Word &&
         !is_any(tokens, at, "or|that's|thats|which|that|so|and|with|then|in|into|for|to|the|a|it|is|plus"))
    ++at;
  if (at == food) return;
  const auto joint = joint_at(tokens, at);
  if (!joint || joint->bracket || joint->apposed || is_any(tokens, at, "/|-|=") || is_text(tokens, at, "|"))
    return;
  auto other = alternate_at(tokens, found, joint->after, how);
  if (!other || other->is_total) return;
  // "… or a cup of oats": another food.
  if (is_text(tokens, other->end, "of")) return;
  const bool clause_ends = other->end >= tokens.size() || tokens[other->end].kind == TokenKind::Mark ||
                           !could_be_counted(tokens, other->end, other->end);
  if (!clause_ends) return;
  // In one dimension only what is the same amount; "500 ml of stock, so a litre" would be another.
  if (dimension == dimension_of(other->amount.unit) &&
      !is_same_told_otherwise(found.amount, other->amount, kRounded))
    return;
  take(found, *other);
  found.retold_end = other->end;
}

Found temperatures_at(Tokens tokens, std::size_t at) {
  const auto first = temperature_at(tokens, at, BareTemperature::No);
  if (!first) return std::nullopt;
  ScannedAmount found;
  found.begin = at;
  found.end = first->end;
  found.amount = first->amount;
  found.has_unit = true;
  found.scale_inferred = first->scale_inferred;
  bool bracket = false;
  for (std::size_t count = 0; count < kMostAlternates; ++count) {
    constexpr int kMostJoints = 3;
    auto i = found.end;
    bool opened = false;
    bool closed = false;
    for (int k = 0; k < kMostJoints && is_any(tokens, i, "/|,|or|(|and|-|that's|which|is|=|)|for|;"); ++k) {
      if (is_text(tokens, i, ")") && !bracket) break;
      if (is_text(tokens, i, "and") && !is_text(tokens, i + 1, "gas")) break;
      if (is_text(tokens, i, "for") && !is_any(tokens, i + 1, "fan|a")) break;
      opened = opened || is_text(tokens, i, "(");
      closed = closed || is_text(tokens, i, ")");
      ++i;
    }
    const bool bound = i > found.end && is_any(tokens, i - 1, "/|(|or|that's|is|=");
    if (is_text(tokens, i, "a") && is_text(tokens, i + 1, "fan")) ++i;
    const auto next = temperature_at(tokens, i, bound ? BareTemperature::Yes : BareTemperature::No);
    if (!next || (next->amount.unit == found.amount.unit && next->amount.fan == found.amount.fan)) break;
    found.alternates.push_back(next->amount);
    found.end = next->end;
    bracket = (bracket && !closed) || opened;
    if (bracket && is_text(tokens, found.end, ")")) {
      ++found.end;
      bracket = false;
    }
  }
  if (const auto about = about_tail_at(tokens, found.end); about.about) {
    found.amount.about = true;
    found.end = about.end;
  }
  return found;
}

}  // namespace panslate
