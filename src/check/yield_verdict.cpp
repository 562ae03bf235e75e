#include <array>
#include <set>
#include <string>
#include <string_view>

#include "panslate/base/timestamp.h"
#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/food.h"

#include "check/phrase.h"
#include "check/timing_verdict.h"

namespace panslate {

namespace {

constexpr std::array<std::string_view, 17> kServingBefore{
    "good for",     "this does",  "that does",  "it does",   "serves",  "serve",
    "feeds",        "feed",       "enough for", "serving",   "feeding", "cater for",
    "serves about", "dinner for", "supper for", "lunch for", "meal for"};
constexpr std::array<std::string_view, 9> kServingAfter{
    "people", "servings", "serves", "of us", "persons", "guests", "portions", "hungry people", "serving"};
constexpr std::array<std::string_view, 13> kMakesBefore{
    "fills", "fill", "gave me", "makes me", "makes you",   "makes", "make",
    "gives", "get",  "yields",  "making",   "makes about", "into"};

enum class YieldSense { None, Serves, Makes };

bool stands_before(const SpokenText& text, std::size_t at, std::string_view phrase) {
  for (std::size_t back = 1; back <= 3 && back <= at; ++back)
    if (match_phrase(text, at - back, phrase) == at) return true;
  return false;
}

// The unit said is the noun of the yield: "five jars" for "Makes 5 jars".
bool is_noun_of(const SpokenText& text, const SpokenAmount& amount, const std::string& noun) {
  for (const auto& token : tokenize(noun))
    for (std::size_t i = amount.span.begin; token.kind == TokenKind::Word && i < amount.span.end; ++i)
      if (text[i].kind == TokenKind::Word && stem(text[i].text) == stem(token.text)) return true;
  return false;
}

bool told_as_made(const SpokenText& text, std::size_t begin) {
  return std::any_of(kMakesBefore.begin(), kMakesBefore.end(),
                     [&](const auto phrase) { return stands_before(text, begin, phrase); });
}

// "you'd cut twelve slices out of that"
bool is_got_out(const SpokenText& text, std::size_t end) {
  constexpr std::array<std::string_view, 5> kOutOf{"out of that", "out of this", "out of it", "from that",
                                                   "from this"};
  return std::any_of(kOutOf.begin(), kOutOf.end(),
                     [&](const auto phrase) { return match_phrase(text, end, phrase) > end; });
}

// "it makes 1.2 litres", "fills five jars": a measure of the kind that the recipe's yield is told in.
bool is_made(const SpokenText& text, const SpokenAmount& amount, const Recipe& recipe) {
  const auto dimension = dimension_of(amount.scan.amount.unit);
  const bool same_kind =
      std::any_of(recipe.yields.begin(), recipe.yields.end(), [&](const RecipeYield& yield) {
        return yield.kind == RecipeYield::Kind::Makes &&
               (dimension == Dimension::Mass || dimension == Dimension::Volume
                    ? dimension_of(yield.amount.unit) == dimension
                    : yield.amount.unit == amount.scan.amount.unit ||
                          is_noun_of(text, amount, yield.amount.noun));
      });
  return same_kind && (told_as_made(text, amount.span.begin) || is_got_out(text, amount.span.end));
}

// "makes eight, enough for four": right after the verb, and of nothing else.
bool is_told_outright(const SpokenText& text, const SpokenAmount& amount) {
  constexpr std::array<std::string_view, 6> kOutright{"makes", "make",      "yields",
                                                      "gives", "gives you", "does"};
  constexpr std::array<std::string_view, 16> kGoesOn{"before", "first", "now", "then", "when", "today",
                                                     "enough", "so",    "and", "but",  "it",   "for",
                                                     "or",     "we",    "you", "that"};
  const auto begin = amount.span.begin;
  const bool verb = std::any_of(kOutright.begin(), kOutright.end(), [&](const auto phrase) {
    for (std::size_t back = 1; back <= 2 && back <= begin; ++back)
      if (match_phrase(text, begin - back, phrase) == begin) return true;
    return false;
  });
  const auto end = amount.span.end;
  const bool over =
      end >= text.size() || text[end].kind == TokenKind::Mark || text.sentence(end) != text.sentence(begin) ||
      std::any_of(kGoesOn.begin(), kGoesOn.end(), [&](const auto word) { return text.is_word(end, word); });
  return verb && over && !amount.scan.has_unit;
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

// In what sense a bare number speaks of how much the recipe gives.
YieldSense sense_of(const SpokenText& text, const SpokenAmount& amount, const Recipe& recipe) {
  const auto unit = amount.scan.amount.unit;
  if (unit == Unit::Serving) return YieldSense::Serves;
  const auto begin = amount.span.begin;
  if (unit != Unit::Piece && unit != Unit::Other)
    return is_made(text, amount, recipe) ? YieldSense::Makes : YieldSense::None;
  // "and there's only the two of us": who is at home, not what the pot gives.
  if (begin > 0 && text.is_word(begin - 1, "the") &&
      match_phrase(text, amount.span.end, "of us") > amount.span.end)
    return YieldSense::None;
  for (const auto phrase : kServingAfter)
    if (match_phrase(text, amount.span.end, phrase) > amount.span.end) return YieldSense::Serves;
  // "for four" alone may count anything; with people, a meal or a clear verb it counts servings.
  for (const auto phrase : kServingBefore)
    if (stands_before(text, begin, phrase)) return YieldSense::Serves;
  const bool makes = told_as_made(text, begin);
  std::set<std::string> nouns;
  for (const auto& yield : recipe.yields)
    for (const auto& token : tokenize(yield.amount.noun))
      if (token.kind == TokenKind::Word) nouns.insert(stem(token.text));
  constexpr std::size_t kNounReach = 3;
  for (std::size_t i = begin; i < text.size() && i < amount.span.end + kNounReach; ++i)
    if (text[i].kind == TokenKind::Word && nouns.contains(stem(text[i].text))) return YieldSense::Makes;
  if (makes && text.is_word(amount.span.end, "of")) return YieldSense::Makes;
  if (const auto asked = asked_before(text, begin); asked != YieldSense::None) return asked;
  return is_told_outright(text, amount) ? YieldSense::Makes : YieldSense::None;
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
    const auto wanted = recipe.yields[requirement.index].kind == RecipeYield::Kind::Serves
                            ? YieldSense::Serves
                            : YieldSense::Makes;
    for (std::size_t a = 0; a < talk.amounts.size(); ++a) {
      const auto& amount = talk.amounts[a];
      if (amount.taken_back || amount.food || !amount.scan.amount.value || findings.requirement_of[a])
        continue;
      if (sense_of(talk.text, amount, recipe) != wanted) continue;
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
        if (channel.verdict == Verdict::Missing) channel.verdict = Verdict::Differs;
        channel.mentions.push_back(mention);
      }
    }
    if (channel.mentions.empty()) continue;
    const auto at = format_timestamp(channel.mentions.front().when.begin, TimestampStyle::Spoken);
    findings.why[r] = channel.verdict == Verdict::Match ? "said at " + at
                                                        : "\"" + channel.mentions.front().text + "\" at " +
                                                              at + ", the recipe has " + requirement.text;
  }
}

}  // namespace panslate
