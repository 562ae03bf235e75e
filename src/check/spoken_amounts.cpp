#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/kitchen/food.h"

#include "check/filler_words.h"
#include "check/phrase.h"
#include "check/talk.h"

/// Every amount of a talk: those that `scan_amounts` reads, those told without a number, and what the words
/// around them make of them.
namespace panslate {

namespace {

// "the last tablespoon", "the whole bunch": one of it, though no number is said.
std::vector<ScannedAmount> unnumbered_amounts(const SpokenText& text) {
  constexpr std::array<std::string_view, 6> kOne{"last", "other", "final", "remaining", "whole", "second"};
  constexpr std::size_t kReach = 4;
  std::vector<ScannedAmount> found;
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    // "last tablespoon of oil in the pot here" leaves the article out.
    const bool pointed = text.is_word(i - 1, "the") || (text.is_word(i, "last") && text.is_word(i + 2, "of"));
    const bool one = pointed && is_any_word(text, i, kOne);
    if (!one || text.sentence(i + 1) != text.sentence(i)) continue;
    const auto end = std::min(text.size(), i + kReach);
    std::vector<Token> tokens(text.tokens().begin() + static_cast<std::ptrdiff_t>(i),
                              text.tokens().begin() + static_cast<std::ptrdiff_t>(end));
    tokens.front().text = tokens.front().raw = "a";
    auto scan = scan_amount(tokens, 0, SpokenOrWritten::Spoken);
    if (!scan || !scan->has_unit || scan->amount.value != Ratio(1)) continue;
    const auto dimension = dimension_of(scan->amount.unit);
    if (dimension != Dimension::Volume && dimension != Dimension::Count) continue;
    scan->is_more = !text.is_word(i, "whole");
    scan->begin = i;
    scan->end += i;
    found.push_back(*std::move(scan));
  }
  return found;
}

// "the light one and a third of a cup of honey": the one is the oil, and a third of a cup is the amount.
void leave_pronoun_out(const SpokenText& text, ScannedAmount& scan) {
  if (scan.begin < 2 || !text.is_word(scan.begin, "one") || !text.is_word(scan.begin + 1, "and")) return;
  constexpr std::array<std::string_view, 7> kCounting{"other", "last",  "final", "remaining",
                                                      "first", "whole", "next"};
  const auto& kind = text[scan.begin - 1];
  const bool pronoun = (text.is_word(scan.begin - 2, "the") || text.is_word(scan.begin - 2, "this")) &&
                       kind.kind == TokenKind::Word && is_descriptor(kind.text) &&
                       std::find(kCounting.begin(), kCounting.end(), kind.text) == kCounting.end();
  if (!pronoun) return;
  const std::vector<Token> rest(text.tokens().begin() + static_cast<std::ptrdiff_t>(scan.begin) + 2,
                                text.tokens().begin() + static_cast<std::ptrdiff_t>(scan.end));
  auto part = scan_amount(rest, 0, SpokenOrWritten::Spoken);
  if (!part || !part->has_unit) return;
  part->end += scan.begin + 2;
  part->begin = scan.begin + 2;
  scan = *std::move(part);
}

// "apricot jam so that's one two three tablespoons": counted up while they go in, and no two to three.
void take_last_counted(const SpokenText& text, ScannedAmount& scan) {
  constexpr std::array<std::string_view, 10> kCount{"one", "two",   "three", "four", "five",
                                                    "six", "seven", "eight", "nine", "ten"};
  const auto& first = scan.amount.value;
  const auto& last = scan.amount.to;
  if (!first || !last || !first->is_whole() || *last != *first->plus(1) || first->num() < 2 ||
      first->num() > static_cast<std::int64_t>(kCount.size()))
    return;
  // "one, two to three": a range.
  for (auto k = scan.begin; k < scan.end; ++k)
    if (text.is_word(k, "to") || text.is_word(k, "or") || text.is_word(k, "-")) return;
  auto at = scan.begin;
  for (auto number = first->num() - 1; number > 0; --number) {
    while (at > 0 && text.is_word(at - 1, ",")) --at;
    if (at == 0 || text.sentence(at - 1) != text.sentence(scan.begin) ||
        !text.is_word(at - 1, kCount[static_cast<std::size_t>(number - 1)]))
      return;
    --at;
  }
  // "and onion one, two three tablespoons of oil": the one is the onion's.
  if (at > 0 && is_food_word(text[at - 1].text)) return;
  scan.begin = at;
  scan.amount.value = *last;
  scan.amount.to.reset();
}

// "the other 40 ml", "that last cup": the rest of an amount, not one more telling of it.
bool is_rest(const SpokenText& text, std::size_t begin) {
  constexpr std::array<std::string_view, 4> kRest{"other", "last", "final", "remaining"};
  constexpr std::array<std::string_view, 3> kPointing{"the", "that", "this"};
  return begin >= 2 && is_any_word(text, begin - 1, kRest) && is_any_word(text, begin - 2, kPointing);
}

bool names_food(const SpokenText& text, std::size_t at) {
  constexpr std::size_t kLongest = 4;
  std::vector<std::string> words;
  for (auto i = at; i < text.size() && i < at + kLongest && text[i].kind == TokenKind::Word; ++i)
    words.push_back(text[i].text);
  return !words.empty() && (is_descriptor(words.front()) || food_name_length(words, 0) > 0);
}

// "the christmas one": no count of anything.
// "this serves the four of us"
bool is_feeding(const SpokenText& text, std::size_t number) {
  constexpr std::array<std::string_view, 4> kFeeding{"serves", "feeds", "serving", "feeding"};
  return number >= 2 && is_any_word(text, number - 2, kFeeding);
}

bool is_pronoun(const SpokenText& text, const ScannedAmount& scan) {
  constexpr std::array<std::string_view, 3> kPointing{"the", "that", "this"};
  // "you beat the two of them together"
  // … but "leeks, the two of them, sliced" counts them.
  const bool set_off = scan.begin >= 2 && text[scan.begin - 2].kind == TokenKind::Mark &&
                       scan.end + 2 < text.size() && text[scan.end + 2].kind == TokenKind::Mark &&
                       text.is_word(scan.end + 1, "them");
  if (!scan.has_unit && scan.begin >= 1 && !set_off && text.is_word(scan.begin - 1, "the") &&
      text.is_word(scan.end, "of") && !(is_feeding(text, scan.begin) && text.is_word(scan.end + 1, "us")) &&
      (text.is_word(scan.end + 1, "them") || text.is_word(scan.end + 1, "us") ||
       text.is_word(scan.end + 1, "you")))
    return true;
  return !scan.has_unit && scan.end == scan.begin + 1 && text.is_word(scan.begin, "one") && scan.begin >= 2 &&
         text[scan.begin - 1].kind == TokenKind::Word && !names_food(text, scan.end) &&
         is_any_word(text, scan.begin - 2, kPointing);
}

// "four pieces", "twelve slices"
bool counts_parts(const SpokenText& text, const ScannedAmount& scan) {
  constexpr std::array<std::string_view, 14> kParts{"pieces", "piece",  "wedges", "quarters", "halves",
                                                    "slices", "strips", "chunks", "parts",    "rounds",
                                                    "cubes",  "bits",   "coins",  "portions"};
  const auto noun = scan.has_unit ? scan.end - 1 : scan.end;
  return is_any_word(text, noun, kParts);
}

// "break the spaghetti in two", "cut it in four pieces": how what is there already is parted.
bool is_parted_in(const SpokenText& text, const ScannedAmount& scan) {
  constexpr std::array<std::string_view, 15> kParting{"break",  "breaking", "broke",   "snap",  "cut",
                                                      "split",  "fold",     "folded",  "tear",  "torn",
                                                      "divide", "divided",  "folding", "slice", "chop"};
  constexpr std::size_t kReach = 6;
  const bool in_parts = counts_parts(text, scan);
  if ((scan.has_unit && !in_parts) || scan.begin < 2 ||
      !(text.is_word(scan.begin - 1, "in") || text.is_word(scan.begin - 1, "into")))
    return false;
  // "fold in two diced pears" counts pears.
  const bool counts = !in_parts && scan.end < text.size() && text[scan.end].kind == TokenKind::Word &&
                      text.sentence(scan.end) == text.sentence(scan.begin) && !is_filler(text[scan.end].text);
  const auto verbs_end = scan.begin - 1;
  const TokenSpan before{verbs_end - std::min(kReach, verbs_end), verbs_end};
  return !counts && holds_phrase(text, before, kParting);
}

// "five tablespoons of juice all told": the total is told after the food.
bool is_summed_up(const SpokenText& text, const ScannedAmount& scan) {
  constexpr std::array<std::string_view, 6> kSums{"all told", "in all",       "altogether",
                                                  "in total", "all together", "total"};
  constexpr std::size_t kReach = 5;
  auto end = scan.end;
  while (end < text.size() && end < scan.end + kReach && text.sentence(end) == text.sentence(scan.begin) &&
         text[end].kind != TokenKind::Number)
    ++end;
  return scan.has_unit && holds_phrase(text, {scan.end, end}, kSums);
}

// "One tin, four hundred mils", "Two packets, each a hundred grams": the measure says how big the tin is.
std::vector<ScannedAmount> with_sizes_of_tins(const SpokenText& text, std::vector<ScannedAmount> scans) {
  std::vector<ScannedAmount> joined;
  joined.reserve(scans.size());
  for (auto& size : scans) {
    if (joined.empty()) {
      joined.push_back(std::move(size));
      continue;
    }
    auto& tin = joined.back();
    const auto unit = tin.amount.unit;
    const bool in_tins = unit == Unit::Can || unit == Unit::Jar || unit == Unit::Packet ||
                         unit == Unit::Block || unit == Unit::Ball || unit == Unit::Sheet ||
                         unit == Unit::Bunch || unit == Unit::Stick;
    const bool measured = size.has_unit && size.amount.value && !size.amount.to &&
                          dimension_of(size.amount.unit) <= Dimension::Volume;
    const bool comma = text.is_word(tin.end, ",");
    const auto after = comma ? tin.end + 1 : tin.end;
    const bool each = text.is_word(after, "each") && size.begin == after + 1;
    const bool one =
        tin.amount.value == Ratio(1) && size.begin == after && (comma || !names_food(text, size.end));
    if (!in_tins || !measured || tin.amount.each || (!one && !each) || text.is_word(size.end, "of")) {
      joined.push_back(std::move(size));
      continue;
    }
    tin.amount.each = Package{*size.amount.value, size.amount.unit};
    tin.end = size.end;
  }
  return joined;
}

// "the same amount of flour as last time": as something that is not told here.
bool is_compared(const SpokenText& text, std::size_t food) {
  constexpr std::size_t kFew = 5;
  for (auto at = food; at < text.size() && at < food + kFew && text.sentence(at) == text.sentence(food); ++at)
    if (text.is_word(at, "as")) return true;
  return false;
}

// "120 grams of marg … and the same again of sugar": the amount told last.
std::vector<ScannedAmount> with_amounts_told_again(const SpokenText& text, std::vector<ScannedAmount> scans) {
  constexpr std::array<std::string_view, 6> kSame{
      "same of",      "the same again of", "the same of", "the same amount of", "the same weight of",
      "same again of"};
  constexpr std::size_t kReach = 40;
  std::vector<ScannedAmount> all;
  all.reserve(scans.size());
  std::size_t at = 0;
  const auto look = [&](std::size_t end) {
    for (; at < end; ++at) {
      if (!text.is_word(at, "the") && !text.is_word(at, "same")) continue;
      for (const auto phrase : kSame) {
        const auto past = match_phrase(text, at, phrase);
        if (past == at) continue;
        constexpr std::ptrdiff_t kFew = 4;
        const auto few = all.rbegin() + std::min(kFew, std::ssize(all));
        const auto last = std::find_if(all.rbegin(), few, [&](const ScannedAmount& scan) {
          // "a hundred and seventy-five of butter and the same of sugar": weighed, though not said so
          const bool weighed = !scan.has_unit && scan.amount.value && Ratio(10) <= *scan.amount.value &&
                               text.is_word(scan.end, "of");
          return weighed ||
                 (scan.has_unit && !scan.is_share && dimension_of(scan.amount.unit) <= Dimension::Volume);
        });
        if (last == few || at - last->end > kReach || is_compared(text, past)) break;
        auto again = *last;
        again.begin = at;
        again.end = past - 1;  // "of" leads on to the food
        again.alternates.clear();
        again.is_more = again.is_total = false;
        all.push_back(std::move(again));
        at = past - 1;
        break;
      }
    }
  };
  for (auto& scan : scans) {
    look(scan.begin);
    at = std::max(at, scan.end);
    all.push_back(std::move(scan));
  }
  look(text.size());
  return all;
}

}  // namespace

void find_amounts(Talk& talk) {
  auto scans = scan_amounts(talk.text.tokens(), SpokenOrWritten::Spoken);
  scans = with_amounts_told_again(talk.text, std::move(scans));
  for (auto& scan : unnumbered_amounts(talk.text)) {
    const auto after = std::lower_bound(scans.begin(), scans.end(), scan.end,
                                        [](const ScannedAmount& s, std::size_t t) { return s.begin < t; });
    if (after == scans.begin() || (after - 1)->end <= scan.begin) scans.insert(after, std::move(scan));
  }
  for (auto& scan : with_sizes_of_tins(talk.text, std::move(scans))) {
    leave_pronoun_out(talk.text, scan);
    take_last_counted(talk.text, scan);
    const bool parted = is_parted_in(talk.text, scan);
    // Of no food, but a loaf that is cut into twelve slices makes twelve.
    if (is_pronoun(talk.text, scan) || (parted && !counts_parts(talk.text, scan))) continue;
    scan.is_more = scan.is_more || is_rest(talk.text, scan.begin);
    scan.is_total = scan.is_total || is_summed_up(talk.text, scan);
    SpokenAmount amount;
    amount.span = {scan.begin, scan.end};
    amount.scan = scan;
    amount.late = scan.begin >= talk.text.farewell();
    amount.portion = parted;
    talk.amounts.push_back(std::move(amount));
  }
}

}  // namespace panslate
