#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "panslate/base/timestamp.h"
#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/food.h"

#include "check/filler_words.h"
#include "check/phrase.h"
#include "check/timing_verdict.h"

namespace panslate {

namespace {

// Words of feeding people, before the number and after it. Common practice, no source.
constexpr std::array<std::string_view, 16> kServingBefore{
    "there's eating for", "good for",  "serves",   "serve",     "feeds",        "feed",
    "enough for",         "serving",   "feeding",  "cater for", "serves about", "dinner for",
    "supper for",         "lunch for", "meal for", "feed for"};
constexpr std::array<std::string_view, 19> kServingAfter{
    "breakfasts", "lunches",   "dinners",   "suppers",      "helpings", "people",   "servings",
    "serves",     "of us",     "persons",   "person",       "guests",   "portions", "hungry people",
    "serving",    "as a side", "as a main", "as a starter", "as sides"};
// Words of what comes out of it, before the number. Common practice, no source.
constexpr std::array<std::string_view, 18> kMakesBefore{
    "fills",  "fill",        "gave me", "makes me",       "makes you",      "makes",
    "make",   "get",         "gives",   "gives you",      "give you",       "yields",
    "making", "makes about", "into",    "out of this is", "out of that is", "out of it is"};

/// In what sense a number speaks of how much the recipe gives.
enum class YieldSense {
  None,
  Serves,
  Makes,
  Either,  ///< "this one does six": as the recipe has it
};

bool stands_before(const SpokenText& text, std::size_t at, std::string_view phrase) {
  for (std::size_t back = 1; back <= 4 && back <= at; ++back)
    if (match_phrase(text, at - back, phrase) == at) return true;
  return false;
}

// Where the words before a number begin that only round it off: "about", "a good", "the".
std::size_t without_rounding(const SpokenText& text, std::size_t begin) {
  constexpr std::array<std::string_view, 12> kRounding{
      "a", "an", "the", "about", "around", "roughly", "maybe", "good", "exactly", "you", "us", "me"};
  constexpr std::size_t kMost = 3;
  auto at = begin;
  while (at > 0 && begin - at < kMost && text.sentence(at - 1) == text.sentence(begin) &&
         is_any_word(text, at - 1, kRounding))
    --at;
  return at;
}

// Nothing is counted by the number: "makes eight, enough for four", "makes eight which is two each".
bool counts_nothing(const SpokenText& text, const SpokenAmount& amount) {
  const auto end = amount.span.end;
  return !amount.scan.has_unit &&
         (end >= text.size() || text[end].kind == TokenKind::Mark ||
          text.sentence(end) != text.sentence(amount.span.begin) ||
          (text[end].kind == TokenKind::Word && is_filler(text[end].text)) ||
          text[end].text == text[end - 1].text ||  // "it does six, six hungry ones"
          text.is_word(end, "before") || text.is_word(end, "depending") || text.is_word(end, "nicely") ||
          text.is_word(end, "easily") || text.is_word(end, "comfortably") || text.is_word(end, "happily"));
}

std::set<std::string> nouns_of(const RecipeYield& yield) {
  std::set<std::string> nouns;
  for (const auto& token : tokenize(yield.amount.noun))
    if (token.kind == TokenKind::Word && !is_descriptor(token.text)) nouns.insert(name_stem(token.text));
  return nouns;
}

// "a loaf tin", "a muffin tray", "a tart of jam": what it is made in, or of, is none of it.
bool is_vessel_or_part(const SpokenText& text, std::size_t after) {
  constexpr std::array<std::string_view, 16> kVessels{"of",   "tin",   "tray",   "pan",    "case", "mould",
                                                      "mold", "paper", "hole",   "dish",   "ring", "liner",
                                                      "cup",  "board", "cutter", "wrapper"};
  const auto next = text.is_word(after, "-") ? after + 1 : after;
  if (next >= text.size()) return false;
  const auto word = stem(text[next].text);
  return std::any_of(kVessels.begin(), kVessels.end(),
                     [&](const auto vessel) { return stem(vessel) == word; });
}

// "eight scones", "six jars", "one big loaf": the noun of what the recipe makes stands within or behind.
bool is_of_its_noun(const SpokenText& text, TokenSpan number, const Recipe& recipe) {
  constexpr std::size_t kNounReach = 3;
  return std::any_of(recipe.yields.begin(), recipe.yields.end(), [&](const RecipeYield& yield) {
    if (yield.kind != RecipeYield::Kind::Makes) return false;
    const auto nouns = nouns_of(yield);
    for (auto i = number.begin; i < text.size() && i < number.end + kNounReach; ++i) {
      if (text.sentence(i) != text.sentence(number.begin)) return false;
      if (text[i].kind == TokenKind::Word && nouns.contains(name_stem(text[i].text)))
        return !is_vessel_or_part(text, i + 1);
    }
    return false;
  });
}

bool told_as_made(const SpokenText& text, std::size_t begin) {
  return std::any_of(kMakesBefore.begin(), kMakesBefore.end(),
                     [&](const auto phrase) { return stands_before(text, begin, phrase); });
}

// "you'd cut twelve slices out of that", "I get eight out of this lot"
bool is_got_out(const SpokenText& text, std::size_t end) {
  constexpr std::array<std::string_view, 6> kOutOf{"out of that", "out of this", "out of it",
                                                   "from that",   "from this",   "out of a batch"};
  return std::any_of(kOutOf.begin(), kOutOf.end(),
                     [&](const auto phrase) { return match_phrase(text, end, phrase) > end; });
}

// "it makes 1.2 litres", "fills five jars", "That's it. Six jars.": a measure of the kind that the recipe's
// yield is told in.
bool is_made(const SpokenText& text, const SpokenAmount& amount, const Recipe& recipe) {
  const auto dimension = dimension_of(amount.scan.amount.unit);
  const bool same_kind =
      std::any_of(recipe.yields.begin(), recipe.yields.end(), [&](const RecipeYield& yield) {
        return yield.kind == RecipeYield::Kind::Makes &&
               (dimension == Dimension::Mass || dimension == Dimension::Volume
                    ? dimension_of(yield.amount.unit) == dimension
                    : yield.amount.unit == amount.scan.amount.unit);
      });
  const bool by_noun = is_of_its_noun(text, amount.span, recipe);
  if ((same_kind || by_noun) && (told_as_made(text, amount.span.begin) || is_got_out(text, amount.span.end)))
    return true;
  // A sentence that is about nothing but them.
  const auto sentence = sentence_around(text, amount.span.begin, 2);
  return by_noun && sentence.begin == amount.span.begin && amount.scan.amount.value &&
         Ratio(1) < *amount.scan.amount.value;
}

// What is spoken of as the dish: "this", "this one", "that", "the recipe".
bool is_the_dish(const SpokenText& text, std::size_t end) {
  constexpr std::array<std::string_view, 10> kDish{"this",  "that",  "it",  "one", "recipe",
                                                   "which", "batch", "lot", "pot", "these"};
  return end > 0 && is_any_word(text, end - 1, kDish);
}

// "this one does six", "makes eight, enough for four", "that'll give you a good eight"
bool is_told_outright(const SpokenText& text, const SpokenAmount& amount) {
  constexpr std::array<std::string_view, 9> kOutright{"makes", "make",  "yields", "gives", "give",
                                                      "does",  "feeds", "serves", "do"};
  const auto begin = without_rounding(text, amount.span.begin);
  if (begin == 0 || !counts_nothing(text, amount) || !is_any_word(text, begin - 1, kOutright)) return false;
  const bool doing = text.is_word(begin - 1, "does") || text.is_word(begin - 1, "do");
  return !doing || is_the_dish(text, begin - 1);
}

// "I get twelve, you might get ten", "shape it into twelve": of what is made in pieces.
bool is_made_so_many(const SpokenText& text, const SpokenAmount& amount) {
  constexpr std::array<std::string_view, 4> kWho{"i", "we", "you", "you'll"};
  constexpr std::array<std::string_view, 10> kShaping{"cuts", "shape", "roll",  "divide",  "form",
                                                      "make", "cut",   "split", "portion", "press"};
  constexpr std::size_t kReach = 5;
  const auto begin = without_rounding(text, amount.span.begin);
  if (begin < 2 || !counts_nothing(text, amount) || amount.scan.amount.value == Ratio(1)) return false;
  if (text.is_word(begin - 1, "get") && is_any_word(text, begin - 2, kWho)) return true;
  return text.is_word(begin - 1, "into") &&
         holds_phrase(text, {begin - std::min(kReach, begin), begin - 1}, kShaping);
}

// "it is for four", "this one's for six", "the recipe's for eight": the dish is for so many.
bool is_meant_for(const SpokenText& text, const SpokenAmount& amount) {
  const auto begin = without_rounding(text, amount.span.begin);
  if (begin < 2 || !text.is_word(begin - 1, "for") || amount.scan.has_unit) return false;
  constexpr std::array<std::string_view, 7> kIs{"it's",     "that's", "this's", "one's",
                                                "recipe's", "its",    "thats"};
  // "enough here for six hungry lads"
  constexpr std::size_t kFew = 4;
  for (auto at = begin; at > 0 && begin - at < kFew && text.sentence(at - 1) == text.sentence(begin); --at)
    if (text.is_word(at - 1, "enough")) return true;
  // "I'm cooking for two."
  if (text.is_word(begin - 2, "cooking") || text.is_word(begin - 2, "cook") ||
      text.is_word(begin - 2, "catering"))
    return counts_nothing(text, amount);
  const bool dish = is_any_word(text, begin - 2, kIs) || text.is_word(begin - 2, "recipe") ||
                    (text.is_word(begin - 2, "is") && is_the_dish(text, begin - 2));
  return dish && counts_nothing(text, amount);
}

// "How many does it make? – Ten.": the answer begins with the number.
YieldSense asked_before(const SpokenText& text, std::size_t begin) {
  constexpr std::size_t kQuestion = 12;
  constexpr std::array<std::string_view, 3> kMany{"how many", "how much does it make", "how much do we get"};
  constexpr std::array<std::string_view, 4> kFeeds{"feed", "serve", "people", "portions"};
  constexpr std::array<std::string_view, 3> kMakes{"make", "get", "makes"};
  auto first = begin;
  while (first > 0 && text[first - 1].kind == TokenKind::Mark &&
         text.sentence(first - 1) == text.sentence(begin))
    --first;
  if (first == 0 || text.sentence(first - 1) == text.sentence(begin)) return YieldSense::None;
  const auto question = sentence_around(text, first - 1, kQuestion);
  if (!holds_phrase(text, question, kMany)) return YieldSense::None;
  if (holds_phrase(text, question, kFeeds)) return YieldSense::Serves;
  return holds_phrase(text, question, kMakes) ? YieldSense::Makes : YieldSense::None;
}

// "and there's only the two of us", "there were seven of us": who is at home, not what the pot gives.
bool counts_those_at_home(const SpokenText& text, const SpokenAmount& amount) {
  constexpr std::array<std::string_view, 9> kAtHome{"the",  "were", "are",     "was",     "be",
                                                    "just", "only", "there's", "there're"};
  const auto begin = amount.span.begin;
  constexpr std::array<std::string_view, 4> kFeeding{"serves", "feeds", "serving", "feeding"};
  const bool fed = begin > 1 && is_any_word(text, begin - 2, kFeeding);  // "this serves the four of us"
  return begin > 0 && !fed && match_phrase(text, amount.span.end, "of us") > amount.span.end &&
         is_any_word(text, begin - 1, kAtHome);
}

YieldSense sense_of(const SpokenText& text, const SpokenAmount& amount, const Recipe& recipe) {
  const auto unit = amount.scan.amount.unit;
  if (unit == Unit::Serving) return YieldSense::Serves;
  const auto begin = amount.span.begin;
  if (unit != Unit::Piece && unit != Unit::Other)
    return is_made(text, amount, recipe) ? YieldSense::Makes : YieldSense::None;
  if (counts_those_at_home(text, amount)) return YieldSense::None;
  // "he eats like two people"
  if (begin > 0 && text.is_word(begin - 1, "like")) return YieldSense::None;
  for (const auto phrase : kServingAfter)
    if (match_phrase(text, amount.span.end, phrase) > amount.span.end) return YieldSense::Serves;
  // "for four" alone may count anything; with people, a meal or a clear verb it counts servings.
  for (const auto phrase : kServingBefore)
    if (stands_before(text, begin, phrase)) return YieldSense::Serves;
  if (is_of_its_noun(text, amount.span, recipe)) return YieldSense::Makes;
  if (told_as_made(text, begin) && text.is_word(amount.span.end, "of")) return YieldSense::Makes;
  if (is_got_out(text, amount.span.end)) return YieldSense::Makes;
  if (const auto asked = asked_before(text, begin); asked != YieldSense::None) return asked;
  const bool in_pieces =
      std::any_of(recipe.yields.begin(), recipe.yields.end(), [](const RecipeYield& yield) {
        return yield.kind == RecipeYield::Kind::Makes && yield.amount.value && Ratio(1) < *yield.amount.value;
      });
  if (in_pieces && is_made_so_many(text, amount)) return YieldSense::Makes;
  return is_told_outright(text, amount) || is_meant_for(text, amount) ? YieldSense::Either : YieldSense::None;
}

bool is_in_sense(YieldSense said, const Recipe& recipe, const RecipeYield& yield) {
  const auto wanted = yield.kind == RecipeYield::Kind::Serves ? YieldSense::Serves : YieldSense::Makes;
  if (said == YieldSense::Either && recipe.yields.size() > 1) said = YieldSense::Makes;
  return said == wanted || said == YieldSense::Either;
}

// "It makes the one big loaf", "you'll get a loaf out of it": one of it, though no number counts it.
std::optional<TokenSpan> one_told(const SpokenText& text, const Recipe& recipe) {
  constexpr std::array<std::string_view, 3> kOne{"one", "a", "an"};
  for (std::size_t i = 1; i < text.size(); ++i) {
    const auto begin = without_rounding(text, i);
    // "it does one jar"
    const bool does = begin > 0 && text.is_word(begin - 1, "does") && is_the_dish(text, begin - 1) &&
                      text.is_word(i, "one") && !text.is_word(i + 2, "at");
    if (is_any_word(text, i, kOne) && (does || told_as_made(text, begin)) &&
        is_of_its_noun(text, {i, i + 1}, recipe))
      return TokenSpan{i, i + 1};
  }
  return std::nullopt;
}

// "Double it and you get sixteen", "half a batch makes six": not what the recipe as it stands gives.
bool is_of_another_batch(const SpokenText& text, const SpokenAmount& amount) {
  constexpr std::array<std::string_view, 12> kOther{
      "double it",  "double the",     "doubled",  "double batch", "if you double", "half a batch",
      "half batch", "half the batch", "halve it", "halve the",    "twice the",     "two batches"};
  constexpr std::size_t kNear = 12;
  return holds_phrase(text, words_before(text, amount.span.begin, kNear), kOther);
}

// "It makes twenty four, but I only get twenty": not "I only got two hours of sleep".
bool tells_her_own(const SpokenText& text, const SpokenAmount& amount) {
  constexpr std::array<std::string_view, 4> kOwn{"i only get", "i only got", "i only ever get", "mine made"};
  if (amount.scan.has_unit || !counts_nothing(text, amount)) return false;
  return std::any_of(kOwn.begin(), kOwn.end(),
                     [&](const auto own) { return stands_before(text, amount.span.begin, own); });
}

}  // namespace

void judge_yields(const Talk& talk, const Recipe& recipe, const std::vector<Requirement>& requirements,
                  TimingFindings& findings) {
  for (std::size_t r = 0; r < requirements.size(); ++r) {
    const auto& requirement = requirements[r];
    if (requirement.kind != RequirementKind::Yield) continue;
    auto& channel = findings.channels[r];
    channel.verdict = Verdict::Missing;
    findings.why[r] = talk.text.kind() == TextKind::Speech ? "not said" : "not written on the picture";
    const auto& yield = recipe.yields[requirement.index];
    for (std::size_t a = 0; a < talk.amounts.size(); ++a) {
      const auto& amount = talk.amounts[a];
      if (amount.taken_back || amount.beside || amount.food || !amount.scan.amount.value ||
          findings.requirement_of[a])
        continue;
      const bool her_own = tells_her_own(talk.text, amount);
      if (is_of_another_batch(talk.text, amount) ||
          (!her_own && !is_in_sense(sense_of(talk.text, amount, recipe), recipe, yield)))
        continue;
      auto said = amount.scan.amount;
      const auto dimension = dimension_of(said.unit);
      if (dimension != Dimension::Mass && dimension != Dimension::Volume)
        said.unit = requirement.amounts.front().unit;
      said.noun = requirement.amounts.front().noun;
      said.about = false;
      const bool same =
          compare(said, requirement.amounts.front(), Measures::Metric, {}).sameness == Sameness::Same;
      auto mention = talk.text.mention(amount.span);
      mention.amount = said;
      findings.requirement_of[a] = r;
      if (same && channel.verdict != Verdict::Match) {
        channel.verdict = Verdict::Match;
        channel.mentions.insert(channel.mentions.begin(), mention);
      } else {
        if (channel.verdict == Verdict::Missing)
          channel.verdict = Verdict::Differs;
        else if (her_own && !same && channel.verdict == Verdict::Match)
          channel.verdict = Verdict::Unsure;
        channel.mentions.push_back(mention);
      }
    }
    if (channel.mentions.empty() && yield.kind == RecipeYield::Kind::Makes &&
        requirement.amounts.front().value == Ratio(1))
      if (const auto one = one_told(talk.text, recipe)) {
        channel.verdict = Verdict::Match;
        channel.mentions.push_back(talk.text.mention(*one));
        channel.mentions.back().amount = requirement.amounts.front();
      }
    if (channel.mentions.empty()) continue;
    const auto at = format_timestamp(channel.mentions.front().when.begin, TimestampStyle::Spoken);
    if (channel.verdict == Verdict::Unsure) {
      findings.why[r] = "please check: she tells of another number as well, at " +
                        format_timestamp(channel.mentions.back().when.begin, TimestampStyle::Spoken);
      continue;
    }
    findings.why[r] = channel.verdict == Verdict::Match ? "said at " + at
                                                        : "\"" + channel.mentions.front().text + "\" at " +
                                                              at + ", the recipe has " + requirement.text;
  }
}

}  // namespace panslate
