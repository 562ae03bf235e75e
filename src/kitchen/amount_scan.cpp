#include "panslate/kitchen/amount_scan.h"

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

// "or so", "each", "in all" after the amount.
void read_tail(Tokens tokens, ScannedAmount& found) {
  for (int round = 0; round < 3; ++round) {
    const auto at = found.end;
    if (const auto about = about_tail_at(tokens, at); about.about) {
      found.amount.about = true;
      found.end = about.end;
    } else if (is_any(tokens, at, "each|apiece")) {
      found.is_each = true;
      found.end = is_text(tokens, at + 1, "side") ? at + 2 : at + 1;
    } else if ((is_any(tokens, at, "per|a|for") &&
                is_any(tokens, at + 1, "serving|portion|person|head|side|kilo|pound")) ||
               (is_any(tokens, at, "for") && is_text(tokens, at + 1, "each"))) {
      if (is_text(tokens, at, "for") && !is_text(tokens, at + 1, "each")) return;
      found.is_each = true;
      found.end = at + 2;
    } else if (is_any(tokens, at, "on|for|per") && is_any(tokens, at + 1, "each|either|a|the") &&
               is_text(tokens, at + 2, "side")) {
      found.is_each = true;
      found.end = at + 3;
    } else if (is_any(tokens, at, "in") && is_any(tokens, at + 1, "all|total")) {
      found.is_total = true;
      found.end = at + 2;
    } else if (is_any(tokens, at, "altogether|total|overall")) {
      found.is_total = true;
      found.end = at + 1;
    } else if (is_text(tokens, at, "all") && is_any(tokens, at + 1, "together|told|in")) {
      found.is_total = true;
      found.end = at + 2;
    } else if (found.has_unit && (is_text(tokens, at, "more") || is_text(tokens, at, "extra")) &&
               !is_any(tokens, at + 1, "or|than") &&
               (is_text(tokens, at, "more") || at + 1 >= tokens.size() ||
                is_any(tokens, at + 1, ",|.|;|)|for|if|just|to|on|here|now|in|at|because|and"))) {
      found.is_more = true;
      found.end = at + 1;
    } else {
      return;
    }
  }
}

// What joins an amount and the same amount told otherwise; index after it.
struct Joint {
  std::size_t after = 0;
  bool bracket = false;
};

std::optional<Joint> joint_at(Tokens tokens, std::size_t at) {
  if (is_any(tokens, at, "/|=|or") || is_text(tokens, at, "|")) return Joint{at + 1, false};
  if (is_text(tokens, at, "(")) return Joint{at + 1, true};
  auto i = at;
  const bool comma = is_any(tokens, i, ",|-");
  if (comma) ++i;
  if (is_text(tokens, i, "or")) return Joint{i + 1, false};
  if (is_any(tokens, i, "so|and") && is_any(tokens, i + 1, "that's")) ++i;
  if (is_any(tokens, i, "that's|thats|equals|aka")) return Joint{i + 1, false};
  if (is_any(tokens, i, "that|which|it|this") && is_any(tokens, i + 1, "is|makes|equals|would"))
    return Joint{i + 2, false};
  if (is_text(tokens, i, "which's")) return Joint{i + 1, false};
  // "(270 g - 800 ml)": what a range cannot be.
  if (comma && is_text(tokens, i, "so")) return Joint{i + 1, false};
  if (comma && (is_text(tokens, at, "-") || is_any(tokens, i, "about|roughly|around")))
    return Joint{i, false};
  return std::nullopt;
}

bool can_be_alternate(const ScannedAmount& found, const Amount& other) {
  const auto& first = found.amount;
  const auto dimension = dimension_of(first.unit);
  const auto other_dimension = dimension_of(other.unit);
  const auto measured = [](Dimension d) {
    return d == Dimension::Mass || d == Dimension::Volume || d == Dimension::Count || d == Dimension::Little;
  };
  if (dimension == Dimension::Time || other_dimension == Dimension::Time)
    return dimension == other_dimension && first.unit != other.unit;
  if (!measured(dimension) || !measured(other_dimension)) return false;
  if (first.unit != other.unit) return true;
  return false;
}

bool in_brackets_only(Tokens tokens, std::size_t end) {
  return is_any(tokens, end, ")|/|or|;|,");
}

// "thirty mils, two tablespoons": the same amount in another unit, without a word between.
bool is_same_told_otherwise(const Amount& one, const Amount& other) {
  if (!one.value || !other.value || one.to || other.to || one.unit == other.unit) return false;
  constexpr double kNear = 0.06;
  for (const auto measures : {Measures::Us, Measures::Metric, Measures::Au, Measures::Uk}) {
    const auto a = size_of(one.unit, measures);
    const auto b = size_of(other.unit, measures);
    if (!a || !b || dimension_of(one.unit) != dimension_of(other.unit)) return false;
    const double first = one.value->value() * a->size.value();
    const double second = other.value->value() * b->size.value();
    if (std::abs(first - second) <= kNear * first) return true;
  }
  return false;
}

void read_alternates(Tokens tokens, ScannedAmount& found, SpokenOrWritten how) {
  bool in_bracket = false;
  for (std::size_t count = 0; count < kMostAlternates; ++count) {
    auto joint = joint_at(tokens, found.end);
    const bool apposed = !joint && is_text(tokens, found.end, ",");
    if (apposed) joint = Joint{found.end + 1, false};
    if (!joint) break;
    auto at = joint->after;
    if (in_bracket && joint->bracket) break;
    if (skip_no_amount(tokens, at) != at) break;
    auto lead = at;
    if (is_any(tokens, lead, "about|roughly|around|approx|approximately")) ++lead;
    auto other = quantity_at(tokens, at, how);
    if (!other || !other->has_unit || other->is_more || !other->amount.value ||
        !can_be_alternate(found, other->amount))
      break;
    if (apposed && !is_same_told_otherwise(found.amount, other->amount)) break;
    read_tail(tokens, *other);
    if (other->is_total || (other->is_each && !found.is_each)) {
      if (!(other->is_total)) break;
    }
    // "1 cup or 2 tins of tomatoes"? Both are told of one food; a bracket must close.
    if ((joint->bracket || in_bracket) && !in_brackets_only(tokens, other->end)) break;
    found.alternates.push_back(other->amount);
    for (auto& more : other->alternates) found.alternates.push_back(std::move(more));
    found.end = other->end;
    if (joint->bracket) in_bracket = true;
    if (in_bracket && is_text(tokens, found.end, ")")) {
      ++found.end;
      in_bracket = false;
    }
  }
}

// "1 can (400 g)": the size of the package, where the bracket tells no total.
void bracket_to_package(ScannedAmount& found) {
  auto& amount = found.amount;
  if (amount.value && *amount.value < Ratio(1)) return;
  const bool package = amount.unit == Unit::Can || amount.unit == Unit::Jar || amount.unit == Unit::Packet;
  if (!package || amount.each || amount.to || !amount.value || found.alternates.empty()) return;
  const auto total = [&](const Amount& other) {
    const auto size = size_of(other.unit, Measures::Us);
    return size && other.value ? other.value->times(size->size).value_or(Ratio(0)) : Ratio(0);
  };
  std::vector<Amount> rest;
  for (const auto& other : found.alternates) {
    const auto dimension = dimension_of(other.unit);
    const bool measure = dimension == Dimension::Mass || dimension == Dimension::Volume;
    if (!measure || !other.value || other.to) return;
    // Two tins of 800 g in all are two of 400 g; tins beyond 500 g are rare: common practice, no source.
    if (*amount.value != Ratio(1) && Ratio(500) < total(other)) return;
    auto packaged = amount;
    packaged.each = Package{*other.value, other.unit};
    rest.push_back(std::move(packaged));
  }
  amount = rest.front();
  rest.erase(rest.begin());
  found.alternates = std::move(rest);
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
    auto i = found.end;
    bool opened = false;
    bool joined = false;
    for (int k = 0; k < 3 && is_any(tokens, i, "/|,|or|(|and|-|that's|which|is|=|)|for|;"); ++k) {
      if (is_text(tokens, i, ")")) {
        if (!bracket) break;
        bracket = false;
      }
      if (is_text(tokens, i, "(")) opened = true;
      if (is_text(tokens, i, "and") && !is_any(tokens, i + 1, "gas")) break;
      if (is_text(tokens, i, "for") && !(is_any(tokens, i + 1, "fan|a"))) break;
      joined = true;
      ++i;
    }
    if (is_text(tokens, i, "a") && is_text(tokens, i + 1, "fan")) ++i;
    const bool slash = joined && is_any(tokens, i - 1, "/|(|or|that's|is|=");
    const auto next = temperature_at(tokens, i, slash ? BareTemperature::Yes : BareTemperature::No);
    const bool same = next && next->amount.unit == found.amount.unit && next->amount.fan == found.amount.fan;
    if (!next || same) break;
    found.alternates.push_back(next->amount);
    found.end = next->end;
    if (opened) bracket = true;
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

// "half the leeks", "two thirds of it", "the rest of the stock".
Found share_at(Tokens tokens, std::size_t at) {
  ScannedAmount found;
  found.begin = at;
  found.is_share = true;
  auto i = at;
  if (is_text(tokens, i, "the") && is_any(tokens, i + 1, "rest|remainder")) {
    found.end = is_text(tokens, i + 2, "of") ? i + 3 : i + 2;
    if (is_any(tokens, found.end, "the|that|your|my|our")) ++found.end;
    return found;
  }
  if (is_any(tokens, i, "rest|remainder") && is_text(tokens, i + 1, "of") &&
      is_any(tokens, i + 2, "the|your|that")) {
    found.end = i + 3;
    return found;
  }
  const auto remaining = is_text(tokens, i, "the") ? i + 1 : i;
  if (is_text(tokens, remaining, "remaining") && remaining + 1 < tokens.size() &&
      tokens[remaining + 1].kind == TokenKind::Word && !number_at(tokens, remaining + 1) &&
      !is_any(tokens, remaining + 1, "time|a|about")) {
    found.end = remaining + 1;
    return found;
  }
  const auto lead = about_words_at(tokens, at);
  const auto part = number_at(tokens, lead.end);
  if (!part || Ratio(1) <= part->value || part->value.is_zero()) return std::nullopt;
  i = part->end;
  const bool of = is_text(tokens, i, "of");
  if (of) ++i;
  if (!is_any(tokens, i,
              of ? "the|it|them|that|this|those|these|your|my|our|his|her|each|all|what"
                 : "the|that|this|those|these|your|my|our|it"))
    return std::nullopt;
  if (is_any(tokens, i, "it|them")) {
    found.end = i + 1;
  } else {
    found.end = i + 1;
  }
  found.amount.value = part->value;
  found.amount.about = lead.about;
  return found;
}

// A bare "one" or "half" counts only what could be a thing.
bool counts_nothing(Tokens tokens, const ScannedAmount& found) {
  if (found.has_unit || found.is_share || found.is_length) return false;
  auto at = found.begin;
  at = about_words_at(tokens, at).end;
  if (is_any(tokens, at, "another|further|extra|additional")) return is_text(tokens, at + 1, "one");
  const bool one = is_text(tokens, at, "one") && found.amount.value == Ratio(1) && !found.amount.to;
  const bool half = is_any(tokens, at, "half") && found.amount.value == *Ratio::make(1, 2);
  if (!one && !half) return found.amount.value->is_zero();
  if (half && is_any(tokens, found.end - 1, "a|an")) return false;
  return !could_be_counted(tokens, at, found.end);
}

// "a second", "in a minute", "one day": turns of speech, unless "or two" follows or a duration is asked for.
bool is_turn_of_speech(Tokens tokens, const ScannedAmount& found) {
  if (dimension_of(found.amount.unit) != Dimension::Time || found.amount.value != Ratio(1) || found.amount.to)
    return is_text(tokens, found.end - 1, "head") && is_text(tokens, found.end, "start");
  const auto at = found.begin;
  const bool article = is_any(tokens, at, "a|one");
  if (!article) return false;
  if (found.amount.unit == Unit::Second) return !(at > 0 && is_any(tokens, at - 1, "for|about|another"));
  if (at == 0) return found.amount.unit == Unit::Day;
  if (found.amount.unit == Unit::Minute)
    return is_any(tokens, at - 1, "in|wait|me|just|on|up|got|take|have|spare|where|when");
  if (found.amount.unit == Unit::Day)
    return is_text(tokens, at, "one") && !is_any(tokens, at - 1, "for|least|about|after|to|last");
  return false;
}

}  // namespace

std::optional<ScannedAmount> scan_amount(Tokens tokens, std::size_t at, SpokenOrWritten how) {
  if (at >= tokens.size()) return std::nullopt;
  if (auto temperature = temperatures_at(tokens, at)) return temperature;
  if (skip_no_amount(tokens, at) != at) return std::nullopt;
  if (auto share = share_at(tokens, at)) return share;
  auto found = quantity_at(tokens, at, how);
  if (!found) return std::nullopt;
  if (!found->amount.value) return found;
  if (is_turn_of_speech(tokens, *found) || counts_nothing(tokens, *found)) return std::nullopt;
  read_tail(tokens, *found);
  if (found->has_unit || found->amount.value) read_alternates(tokens, *found, how);
  bracket_to_package(*found);
  if (!found->alternates.empty()) read_tail(tokens, *found);
  return found;
}

std::vector<ScannedAmount> scan_amounts(Tokens tokens, SpokenOrWritten how) {
  std::vector<ScannedAmount> found;
  for (std::size_t at = 0; at < tokens.size();) {
    auto amount = scan_amount(tokens, at, how);
    if (amount && amount->end > at) {
      at = amount->end;
      found.push_back(std::move(*amount));
      continue;
    }
    const auto skipped = skip_no_amount(tokens, at);
    at = skipped > at ? skipped : at + 1;
  }
  return found;
}

}  // namespace panslate
