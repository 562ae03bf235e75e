#include "panslate/kitchen/amount_scan.h"

#include <utility>

#include "kitchen/alternate_scan.h"
#include "kitchen/far_tail_scan.h"
#include "kitchen/first_words.h"
#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/quantity_scan.h"
#include "kitchen/scan_words.h"
#include "kitchen/share_scan.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

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
  // "three times a week".
  if (found.begin > 0 && is_any(tokens, found.begin - 1, "times|once|twice")) return true;
  // "In a pinch you can use yoghurt."
  if (found.amount.unit == Unit::Pinch && found.begin > 0 && is_any(tokens, found.begin - 1, "in|at"))
    return !is_text(tokens, found.end, "of");
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
  if (at >= tokens.size() || !may_start_amount(tokens, at)) return std::nullopt;
  if (auto temperature = temperatures_at(tokens, at)) return temperature;
  if (skip_no_amount(tokens, at) != at) return std::nullopt;
  if (auto share = share_at(tokens, at)) return share;
  auto found = quantity_at(tokens, at, how);
  if (!found || !found->amount.value) return found;
  if (is_turn_of_speech(tokens, *found) || counts_nothing(tokens, *found)) return std::nullopt;
  read_tail(tokens, *found);
  read_alternates(tokens, *found, how);
  return found;
}

std::vector<ScannedAmount> scan_amounts(Tokens tokens, SpokenOrWritten how) {
  std::vector<ScannedAmount> amounts;
  // Where an amount already told as an alternate ends: it is not found again.
  std::size_t retold_end = 0;
  for (std::size_t at = 0; at < tokens.size();) {
    if (!may_start_amount(tokens, at)) {
      ++at;
      continue;
    }
    auto found = scan_amount(tokens, at, how);
    if (!found || found->end <= at) {
      const auto skipped = skip_no_amount(tokens, at);
      at = skipped > at ? skipped : at + 1;
      continue;
    }
    at = found->end;
    if (found->end <= retold_end) continue;
    if (how == SpokenOrWritten::Spoken) {
      if (!amounts.empty() && is_rate_of(tokens, amounts.back(), *found)) continue;
      if (!amounts.empty() && take_size_told_after(tokens, amounts.back(), *found)) continue;
      if (!amounts.empty()) take_unit_told_before(tokens, amounts.back(), *found);
      read_retold(tokens, *found, how);
      read_far_tail(tokens, *found);
      if (found->retold_end) retold_end = *found->retold_end;
    }
    amounts.push_back(std::move(*found));
  }
  return amounts;
}

}  // namespace panslate
