#include "kitchen/not_amounts.h"

#include <string_view>
#include <unordered_set>

#include "kitchen/age_words.h"
#include "kitchen/date_words.h"
#include "kitchen/number_words.h"
#include "kitchen/price_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

bool is_tight_hyphen(Tokens tokens, std::size_t at) {
  return is_text(tokens, at, "-") && !tokens[at].space_before && at + 1 < tokens.size() &&
         !tokens[at + 1].space_before;
}

std::size_t skip_hyphen(Tokens tokens, std::size_t at) {
  return is_tight_hyphen(tokens, at) ? at + 1 : at;
}

// "step two", "size 10": the number names a thing.
constexpr std::string_view kNamedByNumber =
    "step|steps|number|part|size|sizes|chapter|episode|page|series|season|version|option|tip|reason|method|"
    "shelf|"
    "speed|setting|volume|vol|model|figure|fig|phase|stage|question|rule|variation|factor|channel|route|"
    "grade|type|"
    "note|#|№";

// "five spice", "three bean salad" as captions have them, without a hyphen.
bool is_number_in_a_name(Tokens tokens, std::size_t at, const NumberWords& number) {
  const auto next = skip_hyphen(tokens, number.end);
  if (next >= tokens.size() || tokens[next].kind != TokenKind::Word) return false;
  if (is_any(tokens, at, "five|5") && is_any(tokens, next, "spice|spices") && !is_any(tokens, next, "spices"))
    return true;
  if (is_any(tokens, at, "seven|7") && is_any(tokens, next, "up|layer|grain"))
    return is_text(tokens, next, "up") ? !is_any(tokens, next + 1, "to") : true;
  if (is_any(tokens, next, "island") && is_any(tokens, at, "thousand|1000|a")) return true;
  // "a five star review", but "two star anise", however the captions hear the anise.
  if (is_text(tokens, next, "star"))
    return is_any(tokens, next + 1,
                  "hotel|restaurant|review|reviews|rating|ratings|chef|meal|service|dish|recipe");
  if (is_any(
          tokens, next,
          "bean|cheese|grain|seed|nut|pepper|layer|ingredient|pot|pan|bowl|tone|course|tier|way|ply|fold") &&
      number.value.is_whole() && Ratio(1) < number.value && number.value < Ratio(20) && number.end == at + 1)
    return true;
  if (is_any(tokens, at, "one|1") && is_any(tokens, next, "pot|pan|bowl|tray")) return true;
  if (is_any(tokens, next, "finger|fingered")) return is_text(tokens, next + 1, "pinch");
  return false;
}

const std::unordered_set<std::string_view>& function_words() {
  static const std::unordered_set<std::string_view> kWords{
      "a",      "about",  "after",  "again",  "all",      "also",    "an",    "and",     "another",
      "are",    "as",     "at",     "be",     "because",  "before",  "but",   "by",      "can",
      "could",  "did",    "do",     "does",   "down",     "each",    "else",  "for",     "from",
      "go",     "goes",   "going",  "got",    "had",      "has",     "have",  "he",      "her",
      "here",   "how",    "i",      "i'd",    "i'll",     "i'm",     "i've",  "if",      "in",
      "into",   "is",     "isn't",  "it",     "it's",     "its",     "just",  "last",    "like",
      "looks",  "me",     "might",  "more",   "my",       "next",    "no",    "not",     "now",
      "of",     "off",    "okay",   "on",     "onto",     "or",      "other", "our",     "out",
      "over",   "please", "should", "so",     "some",     "than",    "that",  "that's",  "the",
      "their",  "them",   "then",   "there",  "there's",  "these",   "they",  "they're", "thing",
      "things", "this",   "those",  "though", "through",  "time",    "times", "to",      "too",
      "under",  "until",  "up",     "us",     "use",      "very",    "was",   "way",     "ways",
      "we",     "we'll",  "we're",  "we've",  "went",     "were",    "what",  "when",    "where",
      "which",  "while",  "who",    "will",   "with",     "without", "would", "yeah",    "yes",
      "you",    "you'll", "you're", "your",   "day",      "side",    "hand",  "place",   "works",
      "work",   "needs",  "wants",  "looks",  "comes",    "gets",    "makes", "takes",   "person",
      "minus",  "plus",   "whose",  "ever",   "actually", "really",  "am",    "point",   "way",
      "past",   "full",   "empty",  "reason", "question", "idea",    "bit",   "go",      "final",
      "quick",  "little", "simple", "says",   "said"};
  return kWords;
}

bool is_unit_ahead(Tokens tokens, std::size_t at) {
  return is_text(tokens, at, "-") || unit_word_at(tokens, at, true).has_value();
}

// "nine by five loaf tin" are its sides, "two by four hundred grams" is a weight.
bool is_measure_ahead(Tokens tokens, std::size_t at) {
  if (is_text(tokens, at, "-") || is_text(tokens, at, "\"")) return true;
  const auto unit = unit_word_at(tokens, at, true);
  return unit && unit->kind == UnitWordKind::Measure;
}

std::size_t percent_end(Tokens tokens, std::size_t at) {
  if (is_any(tokens, at, "%|percent")) return at + 1;
  return is_text(tokens, at, "per") && is_text(tokens, at + 1, "cent") ? at + 2 : at;
}

// Each of these gives the index after words that are no amount, or where it started when they are none.

// "half and half", "half past ten", "cut in half".
std::size_t half_phrase_end(Tokens tokens, std::size_t at) {
  if (!is_text(tokens, at, "half")) return at;
  const auto next = skip_hyphen(tokens, at + 1);
  const bool unit = unit_word_at(tokens, next, false).has_value();
  if (is_text(tokens, next, "and") && is_text(tokens, skip_hyphen(tokens, next + 1), "half"))
    return skip_hyphen(tokens, next + 1) + 1;
  if (is_text(tokens, next, "past"))
    if (const auto hour = number_at(tokens, next + 1)) return hour->end;
  // "at half eleven", as they tell the hour in Britain.
  if (at > 0 && is_any(tokens, at - 1, "at|by|till|until|before|after|since|say|it's|gone"))
    if (const auto hour = number_at(tokens, next);
        hour && next == at + 1 && hour->value.is_whole() && hour->value <= Ratio(12) &&
        tokens[next].kind == TokenKind::Word && !is_unit_ahead(tokens, hour->end) &&
        !is_any(tokens, hour->end, "of|a|an") && !could_be_counted(tokens, at, hour->end))
      return hour->end;
  if (is_any(tokens, next, "past|way|baked|full|empty|term|moon|price|time")) return next + 1;
  const bool measured = unit || is_any(tokens, next, "a|an|dozen");
  if (next > at + 1 && !measured) return next + 1;
  // "stir in half the butter", but "in half the time".
  const bool share = is_any(tokens, next, "the|your|of") && !is_any(tokens, next + 1, "time|price");
  if (at > 0 && is_any(tokens, at - 1, "in|into|by") && !measured && !share) return at + 1;
  return at;
}

// "70%", "50-70 percent".
std::size_t percentage_end(Tokens tokens, std::size_t at, std::size_t after) {
  if (const auto percent = percent_end(tokens, after); percent > after) return percent;
  if (is_any(tokens, after, "-|to|or"))
    if (const auto second = number_at(tokens, after + 1))
      if (const auto percent = percent_end(tokens, second->end); percent > second->end) return percent;
  return at;
}

// "ten out of ten", "a four to one ratio", "fifty fifty", "three times a week", "a nine by thirteen pan",
// "90/10 mince".
std::size_t proportion_end(Tokens tokens, std::size_t at, const NumberWords& number) {
  const auto after = number.end;
  if (is_text(tokens, after, "out") && is_text(tokens, after + 1, "of"))
    if (const auto second = number_at(tokens, after + 2)) return second->end;
  // "nine times out of ten".
  if (is_text(tokens, after, "times") && is_text(tokens, after + 1, "out") &&
      is_text(tokens, after + 2, "of"))
    if (const auto second = number_at(tokens, after + 3)) return second->end;
  if (is_text(tokens, after, "to"))
    if (const auto second = number_at(tokens, after + 1);
        second && is_any(tokens, second->end, "ratio|ratios"))
      return second->end + 1;
  if (is_any(tokens, after, "times|time") && !number_at(tokens, after + 1)) return after + 1;
  if (is_any(tokens, at, "fifty|50"))
    if (const auto again = number_at(tokens, skip_hyphen(tokens, after));
        again && again->value == number.value)
      return again->end;
  if (is_any(tokens, after, "by|×"))
    if (const auto second = number_at(tokens, after + 1); second && !is_measure_ahead(tokens, second->end))
      return second->end;
  if (is_text(tokens, after, "/") && number.value.is_whole() && Ratio(10) <= number.value &&
      after + 1 < tokens.size() && tokens[after + 1].kind == TokenKind::Number &&
      number.value.plus(tokens[after + 1].value) == Ratio(100))
    return after + 2;
  return at;
}

// "1:30", "200 calories".
std::size_t other_counts_end(Tokens tokens, std::size_t at, std::size_t after) {
  if (is_text(tokens, after, ":") && !tokens[after].space_before && after + 1 < tokens.size() &&
      tokens[after + 1].kind == TokenKind::Number && !tokens[after + 1].space_before)
    return after + 2;
  if (is_any(tokens, after, "calories|kcal|kj|watt|watts|subscribers")) return after + 1;
  // A turn, or a difference: a temperature has been looked for before.
  if (is_any(tokens, skip_hyphen(tokens, after), "degree|degrees|°")) return skip_hyphen(tokens, after) + 1;
  return at;
}

// "step two", "take two"; but "take two onions" counts onions.
bool is_named_by(Tokens tokens, std::size_t at, std::size_t after) {
  if (at == 0 || unit_word_at(tokens, skip_hyphen(tokens, after), true)) return false;
  // "I take half a cup": an amount, whatever stands before it.
  if (is_any(tokens, after, "a|an")) return false;
  if (is_any(tokens, at - 1, kNamedByNumber)) return true;
  // "No. 7 tin"; "No. Two onions!" is a denial and a count.
  if (at > 1 && is_text(tokens, at - 1, ".") && is_text(tokens, at - 2, "no") &&
      tokens[at].kind == TokenKind::Number)
    return true;
  const bool noun = after < tokens.size() && tokens[after].kind == TokenKind::Word &&
                    !function_words().contains(tokens[after].text);
  return is_any(tokens, at - 1, "take|see|line|row|round|day|week|no|table|card|aisle|lesson") && !noun;
}

// "the hob's on six", "turn the ring down to four or five": how high the flame is.
std::size_t flame_end(Tokens tokens, std::size_t at, const NumberWords& number) {
  constexpr int kHighest = 14;
  constexpr std::size_t kLookBack = 5;
  if (at < 2 || !number.value.is_whole() || Ratio(kHighest) < number.value ||
      !is_any(tokens, at - 1, "on|at|to|about|around|is"))
    return at;
  auto end = number.end;
  if (is_any(tokens, end, "or|to|-"))
    if (const auto high = number_at(tokens, end + 1); high && number.value < high->value) end = high->end;
  if (is_any(tokens, end, "of|°|degrees|%") || unit_word_at(tokens, size_word_at(tokens, end).end, true))
    return at;
  // "with the dial at seven sear it", "put the ring up to nine till it smokes"; "on the hob for two people".
  const bool set = is_text(tokens, at - 1, "at") ||
                   (is_text(tokens, at - 1, "to") && is_any(tokens, at - 2, "up|down|back"));
  if (!set && could_be_counted(tokens, at, end) && !is_any(tokens, end, "till|til")) return at;
  for (auto k = at - 1; k-- > 0 && at - k <= kLookBack + 1 && tokens[k].kind != TokenKind::Mark;)
    if (is_any(
            tokens, k,
            "hob|hob's|hobs|burner|burner's|ring|ring's|stove|stove's|stovetop|dial|dial's|induction|flame|"
            "hotplate|plate's|heat|heat's|cooker|cooker's"))
      return end;
  return at;
}

// "not a gram more", "not one minute longer": says how exact it is meant.
std::size_t not_more_end(Tokens tokens, std::size_t at) {
  if (at == 0 || !is_text(tokens, at - 1, "not") || !is_any(tokens, at, "a|an|one")) return at;
  const auto unit = unit_word_at(tokens, is_text(tokens, at + 1, "single") ? at + 2 : at + 1, false);
  return unit && is_any(tokens, unit->end, "more|less|over|under|longer|later|sooner|extra|either")
             ? unit->end + 1
             : at;
}

}  // namespace

std::size_t skip_no_amount(Tokens tokens, std::size_t at) {
  if (const auto half = half_phrase_end(tokens, at); half > at) return half;
  if (is_any(tokens, at, "hundreds|thousands|tens|dozens")) return at + 1;
  if (const auto end = not_more_end(tokens, at); end > at) return end;
  if (const auto lead = about_words_at(tokens, at).end; lead > at || is_any(tokens, at, "just|quarter")) {
    if (const auto date = date_end(tokens, at); date > at) return date;
    for (const auto end : {age_end(tokens, lead), price_end(tokens, lead)})
      if (end > lead) return end;
    if (const auto number = number_at(tokens, lead))
      if (const auto end = flame_end(tokens, lead, *number); end > lead) return end;
  }
  const auto number = number_at(tokens, at);
  if (!number) return at < tokens.size() && tokens[at].kind == TokenKind::Number ? at + 1 : at;
  const auto after = number->end;
  for (const auto end : {price_end(tokens, at), date_end(tokens, at), percentage_end(tokens, at, after),
                         proportion_end(tokens, at, *number), other_counts_end(tokens, at, after),
                         age_end(tokens, at), flame_end(tokens, at, *number)})
    if (end > at) return end;
  if (is_named_by(tokens, at, after)) return after;
  if (is_number_in_a_name(tokens, at, *number)) return skip_hyphen(tokens, after) + 1;
  // "7-Up", "two-tone": a hyphen to a word that is no unit makes a name.
  if (is_tight_hyphen(tokens, after) && tokens[after + 1].kind == TokenKind::Word &&
      !unit_word_at(tokens, after + 1, true) && !number_at(tokens, after + 1) &&
      !is_any(tokens, after + 1, "to|or|x|by|in|ish|a|heaped|level|rounded|degree"))
    return after + 2;
  return at;
}

bool could_be_counted(Tokens tokens, std::size_t at, std::size_t next) {
  if (at > 0 && is_any(tokens, at - 1,
                       "this|that|the|which|another|every|each|no|any|some|only|next|first|"
                       "big|good|other|new|quick|easy|simple|in|into|by|it|is|not|a|the|last|bigger|smaller"))
    return false;
  if (next >= tokens.size() || tokens[next].kind != TokenKind::Word) return false;
  // "flour 150 sift it three times": an order, no thing.
  if (is_any(tokens, next,
             "sift|stir|chop|slice|mix|rub|fold|whisk|beat|melt|grate|peel|drain|rinse|toast|fry|weigh|cream|"
             "soak") &&
      is_any(tokens, next + 1, "it|them|that|those|these|this"))
    return false;
  return !function_words().contains(tokens[next].text);
}

}  // namespace panslate
