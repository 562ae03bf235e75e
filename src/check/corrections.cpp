#include <algorithm>
#include <array>
#include <string_view>

#include "check/false_starts.h"
#include "check/phrase.h"
#include "check/span_search.h"
#include "check/talk.h"

namespace panslate {

namespace {

using Words = std::string_view;

// How people put themselves right while talking. Common practice, no source.
constexpr std::array<Words, 21> kSlips{"hang on",      "naw",          "i was wrong",
                                       "nah",          "nope",         "sorry",
                                       "no",           "actually",     "rather",
                                       "correction",   "wait",         "oops",
                                       "i mean",       "i meant",      "make that",
                                       "scratch that", "should say",   "excuse me",
                                       "my mistake",   "that s wrong", "let me say that again"};

// … beyond doubt, so that more words may lie between: "no" alone may mean anything ("no need to measure").
constexpr std::array<Words, 12> kPlainSlips{"i was wrong", "tell a lie",   "sorry",   "wait",
                                            "hang on",     "oops",         "i mean",  "i meant",
                                            "correction",  "scratch that", "no it's", "my mistake"};

// … by which a slip is told at length.
constexpr std::array<Words, 7> kTurns{"no wait", "wait",         "hang on",     "hold on",
                                      "oops",    "scratch that", "i tell a lie"};

// How they come back to it later.
constexpr std::array<Words, 22> kLaterCorrections{
    "i told y\'all", "i told ya",         "did i say",        "is right",       "i said",
    "i ve said",     "i told you",        "misspoke",         "i meant to say", "correction",
    "my mistake",    "that wrong",        "should have been", "should ve been", "that should be",
    "it should be",  "i did say",         "said earlier",     "made a mistake", "should have said",
    "meant to say",  "ignore what i said"};

constexpr std::array<Words, 9> kDenials{"not",    "instead of", "rather than", "isn t",    "not the",
                                        "wasn t", "never",      "don't say",   "don t say"};

// "forty minutes, no, one eighty is for the fan": a bare number far from a time is another matter.
bool may_be_meant_as(const ScannedAmount& bare, const ScannedAmount& time) {
  constexpr double kFarOff = 4.0;
  if (!bare.amount.value || !time.amount.value) return false;
  const double one = bare.amount.value->value();
  const double other = time.amount.value->value();
  return std::max(one, other) <= kFarOff * std::min(one, other);
}

bool comparable(const ScannedAmount& a, const ScannedAmount& b) {
  if (!b.has_unit && dimension_of(a.amount.unit) == Dimension::Time) return may_be_meant_as(b, a);
  return !a.has_unit || !b.has_unit || dimension_of(a.amount.unit) == dimension_of(b.amount.unit);
}

// The food named right after an amount, within a few words and before the next amount, whose food it would
// be.
const FoodSighting* food_after(const Talk& talk, const SpokenAmount& amount) {
  constexpr std::size_t kNear = 4;
  const auto next = std::upper_bound(talk.amounts.begin(), talk.amounts.end(), amount.span.begin,
                                     [](std::size_t at, const SpokenAmount& a) { return at < a.span.begin; });
  const auto limit = next == talk.amounts.end() ? talk.text.size() : next->span.begin;
  const auto sighting = first_from(talk.sightings, amount.span.end);
  if (sighting == talk.sightings.end()) return nullptr;
  const bool near = sighting->span.begin - amount.span.end <= kNear && sighting->span.begin < limit;
  return near ? &*sighting : nullptr;
}

// "200 grams of flour, no sugar, 100 grams of butter" corrects nothing: each amount has a food of its own.
bool have_different_foods(const Talk& talk, const SpokenAmount& a, const SpokenAmount& b) {
  const auto* first = food_after(talk, a);
  const auto* second = food_after(talk, b);
  return first != nullptr && second != nullptr && first != second && first->span.end <= b.span.begin &&
         first->targets != second->targets;
}

std::size_t words_in(const SpokenText& text, TokenSpan span);

// "two onions in wedges, no wait, there's another one hiding there, three onions": the slip is told at
// length, and the same food is counted or measured anew.
bool is_told_anew(const Talk& talk, std::size_t index) {
  constexpr std::size_t kReach = 18;  // words
  constexpr std::size_t kTries = 3;
  const auto& amount = talk.amounts[index];
  const auto* food = food_after(talk, amount);
  if (food == nullptr || amount.scan.is_more || amount.scan.is_share) return false;
  for (auto i = index + 1; i < talk.amounts.size() && i <= index + kTries; ++i) {
    const auto& next = talk.amounts[i];
    const TokenSpan between{amount.span.end, next.span.begin};
    if (words_in(talk.text, between) > kReach) break;
    const auto* again = food_after(talk, next);
    if (again != nullptr && again->targets == food->targets && again != food && !next.scan.is_more &&
        !next.scan.is_share && comparable(amount.scan, next.scan) && holds_phrase(talk.text, between, kTurns))
      return true;
  }
  return false;
}

// "three minutes, no more, my mother gave it an hour": nothing is put right by that "no".
bool holds_slip(const SpokenText& text, TokenSpan between) {
  constexpr std::array<Words, 3> kBounds{"no more", "no less", "no longer"};
  for (auto i = between.begin; i + 1 < between.end; ++i)
    if (holds_phrase(text, {i, i + 1}, kBounds))
      return holds_phrase(text, {between.begin, i}, kSlips) ||
             holds_phrase(text, {i + 2, between.end}, kSlips);
  return holds_phrase(text, between, kSlips);
}

// "two spoons, two tablespoons": which spoons, told right after.
bool is_told_exactly(const Talk& talk, std::size_t index) {
  constexpr std::size_t kRightAfter = 2;
  if (index + 1 >= talk.amounts.size()) return false;
  const auto& amount = talk.amounts[index];
  const auto& next = talk.amounts[index + 1];
  constexpr std::array<Words, 4> kSpoons{"spoon", "spoons", "spoonful", "spoonfuls"};
  const bool spoons = std::any_of(kSpoons.begin(), kSpoons.end(), [&](const auto word) {
    return talk.text.is_word(amount.span.end - 1, word) || talk.text.is_word(amount.span.end, word);
  });
  return spoons && next.scan.has_unit && next.span.begin - amount.span.end <= kRightAfter &&
         next.scan.amount.value == amount.scan.amount.value &&
         dimension_of(next.scan.amount.unit) == Dimension::Volume;
}

// "half a pound and a wee bit over, so two hundred and fifty grams": roughly first, then exactly.
bool is_rounded_first(const Talk& talk, std::size_t index) {
  constexpr std::size_t kReach = 9;  // words
  constexpr std::array<Words, 7> kRoughly{"and a bit",   "and a wee bit", "and a little", "or thereabouts",
                                          "and a touch", "and a drop",    "a bit over"};
  constexpr std::array<Words, 6> kThen{"so", "so that's", "exactly", "call it", "to be exact", "so say"};
  if (index + 1 >= talk.amounts.size()) return false;
  const auto& amount = talk.amounts[index];
  const auto& next = talk.amounts[index + 1];
  const TokenSpan between{amount.span.end, next.span.begin};
  return amount.scan.has_unit && next.scan.has_unit && words_in(talk.text, between) <= kReach &&
         dimension_of(amount.scan.amount.unit) == dimension_of(next.scan.amount.unit) &&
         talk.text.sentence(amount.span.begin) == talk.text.sentence(next.span.begin) &&
         holds_phrase(talk.text, between, kRoughly) && holds_phrase(talk.text, between, kThen);
}

std::size_t words_in(const SpokenText& text, TokenSpan span) {
  std::size_t words = 0;
  for (auto i = span.begin; i < span.end; ++i)
    if (text[i].kind != TokenKind::Mark) ++words;
  return words;
}

// "please don't go and put two teaspoons of salt", "I am not putting four", "never use more than a teaspoon";
// but "don't forget to put", "don't be shy, put two".
bool is_forbidden(const SpokenText& text, std::size_t begin) {
  constexpr std::array<Words, 8> kNot{"don't",    "dont",  "not",    "never",
                                      "wouldn't", "won't", "didn't", "doesn't"};
  constexpr std::array<Words, 16> kPut{"put",    "putting", "add",   "adding", "use",    "using",
                                       "pour",   "pouring", "throw", "doing",  "having", "taking",
                                       "having", "puts",    "adds",  "uses"};
  // Between the deed and the amount, and between the denial and the deed.
  constexpr std::array<Words, 8> kAmount{"in", "all", "the", "as", "much", "more", "than", "those"};
  constexpr std::array<Words, 16> kDeed{"go",  "gonna", "going",  "to",   "want", "wanna",  "be",  "mad",
                                        "and", "ever",  "really", "have", "need", "please", "you", "mean"};
  const auto is_of = [&](const auto& words, std::size_t at) {
    return std::any_of(words.begin(), words.end(), [&](const auto word) { return text.is_word(at, word); });
  };
  const auto within = [&](std::size_t at) { return text.sentence(at) == text.sentence(begin); };
  auto at = begin;
  while (at > 0 && within(at - 1) && is_of(kAmount, at - 1)) --at;
  if (at == 0 || !within(at - 1) || !is_of(kPut, at - 1)) return false;
  --at;
  while (at > 0 && within(at - 1) && is_of(kDeed, at - 1)) --at;
  return at > 0 && within(at - 1) && is_of(kNot, at - 1);
}

// "So six minutes, like the book? – It's not six in this pan, it's eight.": what was told before of the same
// number is denied with it.
void deny_told_before(Talk& talk, std::size_t index) {
  constexpr std::size_t kReach = 20;
  const auto& denied = talk.amounts[index];
  for (auto i = index; i-- > 0;) {
    auto& before = talk.amounts[i];
    if (denied.span.begin - before.span.end > kReach) return;
    const bool other_unit = denied.scan.has_unit && before.scan.has_unit &&
                            denied.scan.amount.unit != before.scan.amount.unit;  // spoons, not tablespoons
    // "That's never fifty. – It's fifty, I weighed it."
    constexpr std::size_t kSoon = 8;
    const bool upheld = index + 1 < talk.amounts.size() &&
                        talk.amounts[index + 1].scan.amount.value == denied.scan.amount.value &&
                        talk.amounts[index + 1].span.begin - denied.span.end <= kSoon;
    if (upheld) return;
    if (before.scan.amount.value != denied.scan.amount.value || other_unit || denied.scan.amount.to ||
        !comparable(before.scan, denied.scan))
      continue;
    before.taken_back = true;
    return;
  }
}

bool is_denied(const SpokenText& text, std::size_t begin) {
  if (is_forbidden(text, begin)) return true;
  for (std::size_t back = 1; back <= 2 && back <= begin; ++back)
    for (const auto phrase : kDenials) {
      const auto end = match_phrase(text, begin - back, phrase);
      if (end == begin) return true;
    }
  return false;
}

// Between two times "wait" may be what is done: "and then the hard part: wait. Fifteen minutes on the rack."
bool is_only_waiting(const SpokenText& text, TokenSpan between, const SpokenAmount& first) {
  if (dimension_of(first.scan.amount.unit) != Dimension::Time) return false;
  constexpr std::array<Words, 7> kCalls{"no", "oh", "ah", "hey", "er", "um", "but"};
  for (auto i = between.begin; i < between.end; ++i) {
    if (!text.is_word(i, "wait")) continue;
    const bool called = std::any_of(kCalls.begin(), kCalls.end(), [&](const auto word) {
      return text.is_word(i - 1, word) || text.is_word(i + 1, word);
    });
    if (called || text.is_word(i + 1, ",")) return false;
    return !holds_phrase(text, {between.begin, i}, kSlips) &&
           !holds_phrase(text, {i + 1, between.end}, kSlips);
  }
  return false;
}

// "Three eggs! He's right."
bool is_granted(const SpokenText& text, std::size_t sentence_end) {
  constexpr std::array<Words, 5> kRight{"he's right", "she's right", "you're right", "they're right",
                                        "right you are"};
  return std::any_of(kRight.begin(), kRight.end(), [&](const auto phrase) {
    return match_phrase(text, sentence_end, phrase) > sentence_end;
  });
}

// A sentence of nothing else: "Two."
bool stands_alone(const SpokenText& text, TokenSpan span) {
  const auto apart = [&](std::size_t a, std::size_t b) {
    return b >= text.size() || text.sentence(a) != text.sentence(b);
  };
  const auto end = span.end < text.size() && text[span.end].kind == TokenKind::Mark ? span.end + 1 : span.end;
  return (span.begin == 0 || apart(span.begin, span.begin - 1)) && apart(span.begin, end);
}

// "salt one teaspoon sorry no the cubes have salt already so half a teaspoon of salt": taken back at once,
// and told anew once it is said why.
bool is_stopped_at_once(const Talk& talk, std::size_t index) {
  constexpr std::size_t kReach = 20;  // words
  constexpr std::size_t kAtOnce = 2;
  constexpr std::array<Words, 4> kStops{"sorry no", "no wait", "scratch that", "no sorry"};
  if (index + 1 >= talk.amounts.size()) return false;
  const auto& amount = talk.amounts[index];
  const auto& next = talk.amounts[index + 1];
  const TokenSpan between{amount.span.end, next.span.begin};
  if (!talk.text.is_word(next.span.begin - 1, "so") || !amount.scan.has_unit || !next.scan.has_unit ||
      next.scan.is_more || dimension_of(amount.scan.amount.unit) != dimension_of(next.scan.amount.unit) ||
      words_in(talk.text, between) > kReach ||
      !holds_phrase(talk.text, {between.begin, std::min(between.end, between.begin + kAtOnce)}, kStops))
    return false;
  const auto* again = food_after(talk, next);
  const auto before = std::find_if(talk.sightings.begin(), talk.sightings.end(),
                                   [&](const FoodSighting& s) { return s.span.end == amount.span.begin; });
  return again != nullptr && before != talk.sightings.end() && before->targets == again->targets;
}

// "And what did I say for the potatoes, twenty minutes? Fifteen.": asked, and answered with another.
bool is_asked_and_answered(const Talk& talk, std::size_t index) {
  constexpr std::size_t kQuestion = 14;
  constexpr std::size_t kRightAfter = 2;
  if (index + 1 >= talk.amounts.size()) return false;
  const auto& amount = talk.amounts[index];
  const auto& next = talk.amounts[index + 1];
  const auto question = sentence_around(talk.text, amount.span.begin, kQuestion);
  return talk.text.is_word(amount.span.end, "?") && next.span.begin - amount.span.end <= kRightAfter &&
         stands_alone(talk.text, next.span) && comparable(amount.scan, next.scan) &&
         amount.scan.amount.value != next.scan.amount.value &&
         holds_phrase(talk.text, {question.begin, amount.span.begin}, std::array<Words, 1>{"what did i say"});
}

// "A hundred and eighty grams. – Eighty. – Eighty grams, sorry.": another number alone, and then with its
// unit.
bool is_put_right_by_another(const Talk& talk, std::size_t index) {
  constexpr std::size_t kReach = 12;
  if (index + 2 >= talk.amounts.size()) return false;
  const auto& amount = talk.amounts[index];
  const auto& bare = talk.amounts[index + 1];
  if (!amount.scan.has_unit || bare.scan.has_unit || bare.scan.is_more ||
      bare.span.begin - amount.span.end > kReach || bare.scan.amount.value == amount.scan.amount.value ||
      any_overlaps(talk.sightings, {amount.span.end, bare.span.begin}))
    return false;
  for (auto i = index + 2; i < talk.amounts.size() && i <= index + 3; ++i) {
    const auto& next = talk.amounts[i];
    if (next.span.begin - bare.span.end > kReach ||
        any_overlaps(talk.sightings, {bare.span.end, next.span.begin}))
      return false;
    if (next.scan.has_unit && !next.scan.is_more && next.scan.amount.unit == amount.scan.amount.unit &&
        next.scan.amount.value == bare.scan.amount.value)
      return true;
  }
  return false;
}

// "Is it two hundred grams? – A hundred and twenty of flour.", "Four spring onions? – Six.", "two eggs, aye?
// – Naw, three eggs": asked, and the answer is another amount.
bool is_answered_otherwise(const Talk& talk, std::size_t index) {
  constexpr std::size_t kQuestionLeft = 4;  // "spring onions, aye?"
  constexpr std::size_t kAnswerBegins = 3;  // "Naw, "
  if (index + 1 >= talk.amounts.size()) return false;
  const auto& text = talk.text;
  const auto& amount = talk.amounts[index];
  const auto& next = talk.amounts[index + 1];
  auto mark = amount.span.end;
  while (mark < text.size() && mark < amount.span.end + kQuestionLeft && !text.is_word(mark, "?") &&
         text.sentence(mark) == text.sentence(amount.span.begin))
    ++mark;
  if (!text.is_word(mark, "?") || next.span.begin <= mark || next.scan.is_more) return false;
  const auto answer = sentence_around(text, next.span.begin, kAnswerBegins + 1);
  if (next.span.begin - answer.begin > kAnswerBegins || answer.begin > mark + kAnswerBegins ||
      !comparable(amount.scan, next.scan) || have_different_foods(talk, amount, next))
    return false;
  // "Four eggs, right? Three for the dough, one to glaze.": shares of it, and no question.
  constexpr std::array<Words, 12> kShares{"for",   "go", "goes", "in",    "now",  "of them",
                                          "of it", "to", "big",  "small", "will", "first"};
  constexpr std::array<Words, 8> kTags{"right", "okay", "ok", "see", "remember", "yeah", "eh", "huh"};
  constexpr std::array<Words, 4> kNo{"no", "naw", "nah", "nope"};
  const bool no = holds_phrase(text, {answer.begin, next.span.begin}, kNo);
  const bool tag = holds_phrase(text, {amount.span.end, mark}, kTags);
  const auto after = next.span.end;
  const bool share = holds_phrase(text, {after, std::min(text.size(), after + 1)}, kShares);
  const bool parted = index + 2 < talk.amounts.size() && !next.scan.has_unit &&
                      text.sentence(talk.amounts[index + 2].span.begin) == text.sentence(next.span.begin);
  if (!no && (tag || share || parted)) return false;
  const bool same_unit =
      !next.scan.has_unit || !amount.scan.has_unit || next.scan.amount.unit == amount.scan.amount.unit;
  return next.scan.amount.value != amount.scan.amount.value || !same_unit;
}

// "Two onions? – No way, one is enough tonight.", "Would you use two onions? – I use one.", "Salt, one
// teaspoon? – No no no.": asked, and not so.
bool is_answered_no(const Talk& talk, std::size_t index) {
  constexpr std::size_t kQuestionLeft = 4;
  constexpr std::size_t kAnswer = 7;
  constexpr std::array<Words, 10> kNo{"no",    "nah",  "naw",  "nope", "not",
                                      "never", "less", "half", "one",  "more"};
  const auto& text = talk.text;
  const auto& amount = talk.amounts[index];
  auto mark = amount.span.end;
  while (mark < text.size() && mark < amount.span.end + kQuestionLeft && !text.is_word(mark, "?") &&
         text.sentence(mark) == text.sentence(amount.span.begin))
    ++mark;
  if (!text.is_word(mark, "?")) return false;
  auto first = mark + 1;
  while (first < text.size() && text[first].kind == TokenKind::Mark) ++first;
  auto end = first;
  while (end < text.size() && end < first + kAnswer && text.sentence(end) == text.sentence(first)) ++end;
  if (any_overlaps(talk.amounts, {first, end})) return false;  // told otherwise elsewhere
  const bool tagged =
      holds_phrase(text, {amount.span.end, mark}, std::array<Words, 3>{"right", "okay", "see"});
  return !tagged && holds_phrase(text, {first, end}, kNo);
}

// "seven minutes, sorry, six": the second is of the same kind.
void take_back(SpokenAmount& amount, SpokenAmount& next, bool alone) {
  amount.taken_back = true;
  const auto dimension = dimension_of(amount.scan.amount.unit);
  const bool measured = dimension <= Dimension::Volume && alone;
  if (next.scan.has_unit ||
      (dimension != Dimension::Time && dimension != Dimension::Temperature && !measured))
    return;
  next.scan.amount.unit = amount.scan.amount.unit;
  next.scan.has_unit = true;
}

// "And the chicken, I said simmer it forty minutes, and I was wrong, it's fifty": what was said long before
// is put right with it.
void take_back_as_told(Talk& talk, std::size_t index, bool bare) {
  constexpr std::size_t kJustBefore = 6;
  constexpr std::array<Words, 3> kSaid{"i said", "i told", "i ve said"};
  constexpr std::array<Words, 1> kWrong{"i was wrong"};
  auto& amount = talk.amounts[index];
  auto& next = talk.amounts[index + 1];
  const auto begin = amount.span.begin;
  const bool again = holds_phrase(talk.text, {begin - std::min(kJustBefore, begin), begin}, kSaid) &&
                     holds_phrase(talk.text, {amount.span.end, next.span.begin}, kWrong);
  take_back(amount, next, bare);
  if (again) next.corrects = true;
}

}  // namespace

void find_corrections(Talk& talk) {
  const auto& text = talk.text;
  constexpr std::size_t kSlipReach = 7;            // words
  constexpr std::size_t kSlipReachOfMeasure = 12;  // … where both are measured alike
  constexpr std::size_t kSlipReachOfLone = 16;     // … where the second is a sentence of its own
  for (std::size_t i = 0; i < talk.amounts.size(); ++i) {
    auto& amount = talk.amounts[i];
    if (is_denied(text, amount.span.begin)) {
      amount.taken_back = true;
      deny_told_before(talk, i);
    }
    if (is_put_right_by_another(talk, i) || is_answered_no(talk, i) || is_begun_again(talk, i) ||
        is_counted_aloud(talk, i))
      amount.taken_back = true;
    if (i + 1 < talk.amounts.size()) {
      const auto& next = talk.amounts[i + 1];
      const TokenSpan between{amount.span.end, next.span.begin};
      const auto is_measured_alike = [&](const SpokenAmount& other) {
        return amount.scan.has_unit && other.scan.has_unit &&
               dimension_of(amount.scan.amount.unit) == dimension_of(other.scan.amount.unit);
      };
      // "I tell a lie, the punnet says 250. So 250 grams."
      const bool measured_next = i + 2 < talk.amounts.size() && !next.scan.has_unit &&
                                 is_measured_alike(talk.amounts[i + 2]) &&
                                 talk.amounts[i + 2].scan.amount.value == next.scan.amount.value;
      const bool same_measure = is_measured_alike(next) || measured_next;
      const auto words = words_in(text, between);
      // "Three teaspoons of it. Hang on, where's the card. Two. It's two teaspoons."
      const bool bare = amount.scan.has_unit && !next.scan.has_unit && stands_alone(text, next.span);
      const bool slip = (words <= kSlipReach && holds_slip(text, between)) ||
                        ((same_measure || bare) && words <= (bare ? kSlipReachOfLone : kSlipReachOfMeasure) &&
                         holds_phrase(text, between, kPlainSlips));
      // "three potatoes I've got here, sorry no, four"
      constexpr std::size_t kSlipReachOfCounts = 10;
      constexpr std::array<Words, 5> kCountedWrong{"sorry no", "no sorry", "no wait", "tell a lie",
                                                   "no hang on"};
      const bool counted_wrong = !amount.scan.has_unit && !next.scan.has_unit &&
                                 words <= kSlipReachOfCounts && holds_phrase(text, between, kCountedWrong);
      // "no need to measure, then another three": what comes on top replaces nothing.
      if ((slip || counted_wrong) && !next.scan.is_more && !is_only_waiting(text, between, amount) &&
          comparable(amount.scan, next.scan) && !have_different_foods(talk, amount, next))
        take_back_as_told(talk, i, bare);
    }
    if (is_asked_and_answered(talk, i) || is_answered_otherwise(talk, i)) {
      take_back(amount, talk.amounts[i + 1], false);
      continue;
    }
    if (is_stopped_at_once(talk, i) || is_told_anew(talk, i) || is_told_exactly(talk, i) ||
        is_rounded_first(talk, i))
      amount.taken_back = true;
    // What comes on top ("the other half pound") corrects nothing.
    if (amount.scan.is_more) continue;
    auto sentence = sentence_around(text, amount.span.begin, 18);
    const bool granted = is_granted(text, sentence.end);
    sentence.end = std::min(sentence.end, amount.span.end + 8);
    if (!granted && !holds_phrase(text, sentence, kLaterCorrections)) continue;
    // "for, what did I say, thirty-five minutes": she looks it up, and puts nothing right.
    constexpr std::array<Words, 4> kAsking{"what did i say", "what did i do", "what was it", "what is it"};
    if (holds_phrase(text, {sentence.begin, amount.span.begin}, kAsking)) continue;
    // "earlier I said 200 grams": what was said is what is wrong.
    // "I said four carrots, it's three carrots": said of the four only.
    constexpr std::size_t kJustBefore = 6;
    const auto last = i > 0 ? talk.amounts[i - 1].span.end : 0;
    const TokenSpan before{std::max({amount.span.begin - std::min(kJustBefore, amount.span.begin),
                                     sentence.begin, std::min(last, amount.span.begin)}),
                           amount.span.begin};
    constexpr std::array<Words, 6> kSaid{"said", "say", "told you", "told y\'all", "told ya", "saying"};
    constexpr std::array<Words, 4> kMeant{"meant to say", "should say", "should have said", "meant"};
    // "I should have said, it's cider vinegar, seven hundred mil"
    constexpr std::size_t kWider = 3;
    const TokenSpan wider{std::max(sentence.begin, before.begin - std::min(kWider, before.begin)),
                          before.end};
    if (holds_phrase(text, before, kSaid) && !holds_phrase(text, wider, kMeant))
      amount.taken_back = true;
    else if (!amount.taken_back)
      amount.corrects = true;
  }
}

}  // namespace panslate
