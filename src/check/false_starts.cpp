#include "check/false_starts.h"

#include "check/span_search.h"

namespace panslate {

namespace {

// A bare number behind another with nothing but marks between them.
bool follows_at_once(const Talk& talk, std::size_t index) {
  if (index == 0) return false;
  const auto& before = talk.amounts[index - 1];
  const auto& here = talk.amounts[index];
  for (auto at = before.span.end; at < here.span.begin; ++at)
    if (talk.text[at].kind != TokenKind::Mark) return false;
  return true;
}

bool is_bare(const Talk& talk, std::size_t index) {
  const auto& scan = talk.amounts[index].scan;
  return !scan.has_unit && scan.amount.value && !scan.amount.to;
}

// The next in the row of whole numbers.
bool counts_on(const Talk& talk, std::size_t index) {
  if (!follows_at_once(talk, index) || !is_bare(talk, index) || !is_bare(talk, index - 1)) return false;
  const auto next = talk.amounts[index - 1].scan.amount.value->plus(Ratio(1));
  return next && talk.amounts[index].scan.amount.value == *next;
}

}  // namespace

bool is_begun_again(const Talk& talk, std::size_t index) {
  constexpr std::size_t kReach = 7;
  const auto& text = talk.text;
  const auto& amount = talk.amounts[index];
  const auto end = amount.span.end;
  if (!text.is_word(end, "and") || end + 1 >= text.size() || text[end + 1].kind != TokenKind::Mark ||
      index + 1 >= talk.amounts.size())
    return false;
  const auto& next = talk.amounts[index + 1];
  return next.span.begin - end <= kReach && !any_overlaps(talk.sightings, {end, next.span.begin}) &&
         text.sentence(next.span.begin) == text.sentence(end);
}

bool is_counted_aloud(const Talk& talk, std::size_t index) {
  constexpr std::size_t kFewest = 3;  // "one, two onions" may be one or two
  constexpr std::size_t kMost = 30;   // nobody counts more for a film
  if (!is_bare(talk, index)) return false;
  auto first = index;
  while (first > 0 && index - first < kMost && counts_on(talk, first)) --first;
  auto last = index;
  while (last + 1 < talk.amounts.size() && last - first < kMost && counts_on(talk, last + 1)) ++last;
  if (last - first + 1 < kFewest || talk.amounts[first].scan.amount.value != Ratio(1)) return false;
  if (index < last) return true;
  // The last of them holds where it is not said once more.
  return last + 1 < talk.amounts.size() && follows_at_once(talk, last + 1) &&
         talk.amounts[last + 1].scan.amount.value == talk.amounts[last].scan.amount.value;
}

}  // namespace panslate
