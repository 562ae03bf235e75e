#include "check/timing_evidence.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/food.h"

#include "check/action_words.h"
#include "check/phrase.h"

namespace panslate {

namespace {

// Evidence that an amount is said for a requirement, value left aside. Weights chosen on the development
// recipes.
constexpr int kStep = 6;      // the speaker is in this step
constexpr int kNearStep = 2;  // in a step beside it
constexpr int kSupport = 2;   // the utterance shares telling words with the step
constexpr int kSameVerb = 5;
constexpr int kLikeVerb = 2;
constexpr int kOtherVerb = -3;   // a verb of another kind stands beside the amount
constexpr int kOnlyVerb = 2;     // no other time of the recipe is for that verb
constexpr int kWithSetting = 1;  // told in a breath with an oven's setting
constexpr int kOnlySetting = 6;  // the recipe has no other temperature

}  // namespace

TimingEvidence::TimingEvidence(const Talk& talk, const Recipe& recipe,
                               const std::vector<Requirement>& requirements, const Whereabouts& where)
    : talk_(talk), recipe_(recipe), requirements_(requirements), where_(where) {
  for (std::size_t r = 0; r < requirements.size(); ++r)
    if (requirements[r].kind == RequirementKind::Temperature || requirements[r].kind == RequirementKind::Time)
      asked_.push_back(r);
}

bool TimingEvidence::is_kind(const Amount& amount, RequirementKind kind) {
  const auto dimension = dimension_of(amount.unit);
  return kind == RequirementKind::Time ? dimension == Dimension::Time : dimension == Dimension::Temperature;
}

namespace {

// "the rest of the glaze" rests nothing.
bool is_a_doing(const SpokenText& text, std::size_t at) {
  if (text[at].kind != TokenKind::Word || !is_action_word(text[at].text)) return false;
  return !(text.is_word(at, "rest") && at > 0 && text.is_word(at - 1, "the"));
}

}  // namespace

bool TimingEvidence::is_a_moment(std::string_view action) {
  return action == "stir" || action == "mix" || action == "whisk" || action == "beat";
}

// The verbs told beside an amount: before it to the sentence's start, and shortly after.
std::vector<std::string> TimingEvidence::verbs_near(std::size_t a) const {
  constexpr std::size_t kBefore = 14;
  constexpr std::size_t kAfter = 7;
  const auto& text = talk_.text;
  const auto& span = talk_.amounts[a].span;
  std::vector<std::string> verbs;
  for (std::size_t i = span.begin; i-- > 0 && span.begin - i <= kBefore;) {
    if (text.sentence(i) != text.sentence(span.begin)) break;
    if (is_timing_amount_at(i)) break;  // what stands before another time belongs to that one
    if (is_a_doing(text, i)) verbs.push_back(text[i].text);
  }
  for (std::size_t i = span.end; i < text.size() && i < span.end + kAfter; ++i) {
    if (text.sentence(i) != text.sentence(span.begin) || text.is_word(i, "then")) break;
    if (text.is_word(i, "i") || text.is_word(i, "we")) break;  // "eight minutes, eggs, I boil some eggs"
    if (is_timing_amount_at(i)) break;
    if (is_a_doing(text, i)) verbs.push_back(text[i].text);
  }
  // "Now you wait. Twenty minutes before you put a knife in it.": a few words with the amount's own verb.
  // "Stir it. Eight minutes.": a moment's work, and the time is the pan's.
  constexpr std::size_t kFewWords = 6;
  if (const auto begin = span.begin; begin > 0 && text.sentence(begin - 1) != text.sentence(begin)) {
    const auto before = sentence_around(text, begin - 1, kFewWords + 1);
    const bool is_short = before.end - before.begin <= kFewWords;
    for (auto i = before.end; is_short && i-- > before.begin && !is_timing_amount_at(i);)
      if (is_a_doing(text, i) && !is_a_moment(text[i].text)) verbs.push_back(text[i].text);
  }
  // "one sixty for fifty-five minutes": what is told with a setting is for the oven.
  if (is_told_with_setting(a)) verbs.insert(verbs.end(), {"bake", "roast"});
  return verbs;
}

bool TimingEvidence::is_timing_amount_at(std::size_t token) const {
  const auto found = std::upper_bound(talk_.amounts.begin(), talk_.amounts.end(), token,
                                      [](std::size_t t, const SpokenAmount& a) { return t < a.span.end; });
  return found != talk_.amounts.end() && found->span.begin <= token &&
         dimension_of(found->scan.amount.unit) == Dimension::Time;
}

bool TimingEvidence::is_told_with_setting(std::size_t a) const {
  constexpr std::size_t kInABreath = 3;
  if (a == 0) return false;
  const auto& setting = talk_.amounts[a - 1];
  const auto begin = talk_.amounts[a].span.begin;
  return dimension_of(setting.scan.amount.unit) == Dimension::Temperature &&
         begin - setting.span.end <= kInABreath &&
         talk_.text.sentence(begin) == talk_.text.sentence(setting.span.begin);
}

// "Stir that through and give it one minute": stirring is a part of the step, not another action.
bool TimingEvidence::is_done_in(std::size_t step, const std::vector<std::string>& verbs) const {
  for (const auto& token : tokenize(recipe_.steps[step].text))
    if (token.kind == TokenKind::Word && is_action_word(token.text) &&
        std::any_of(verbs.begin(), verbs.end(),
                    [&](const auto& verb) { return action_likeness(verb, token.text) == 2; }))
      return true;
  return false;
}

bool TimingEvidence::is_only_of_its_verb(const Requirement& r) const {
  return std::count_if(asked_.begin(), asked_.end(), [&](std::size_t k) {
           return requirements_[k].kind == r.kind && action_likeness(requirements_[k].name, r.name) == 2;
         }) == 1;
}

int TimingEvidence::base_evidence(std::size_t a, const Requirement& r, const std::vector<std::string>& verbs,
                                  bool& same_verb) const {
  const auto at = talk_.amounts[a].span.begin;
  int score = 0;
  if (const auto step = where_.step_at(at)) {
    const bool part = recipe_.steps[*step].part == recipe_.steps[r.index].part;
    if (*step == r.index)
      score += where_.is_grounded(at) ? kStep : kStep / 2;
    else if (part && (*step + 1 == r.index || r.index + 1 == *step))
      score += kNearStep;
  }
  if (where_.support(at, r.index) >= 0.6) score += kSupport;
  int likeness = 0;
  for (const auto& verb : verbs) likeness = std::max(likeness, action_likeness(verb, r.name));
  same_verb = likeness == 2;
  if (likeness == 2)
    score +=
        kSameVerb + (is_only_of_its_verb(r) ? kOnlyVerb : 0) + (is_told_with_setting(a) ? kWithSetting : 0);
  else if (likeness == 1)
    score += kLikeVerb;
  else if (!verbs.empty() && !r.name.empty() && r.kind == RequirementKind::Time &&
           !is_done_in(r.index, verbs))
    score += kOtherVerb;
  const auto same_kind = std::count_if(asked_.begin(), asked_.end(),
                                       [&](std::size_t k) { return requirements_[k].kind == r.kind; });
  if (same_kind == 1 && r.kind == RequirementKind::Temperature) score += kOnlySetting;
  return score;
}

// Equal to the written value or its pair; the alternates said with it must be equal too.
bool TimingEvidence::equals(const Amount& said, const Requirement& r) {
  // "170 °C (gas 3)": gas 3 is near 160 °C, but 160 said is not the 170 that is written.
  const bool has_scale = r.kind == RequirementKind::Temperature &&
                         std::any_of(r.amounts.begin(), r.amounts.end(), [&](const Amount& written) {
                           return written.unit == said.unit && written.fan == said.fan;
                         });
  return std::any_of(r.amounts.begin(), r.amounts.end(), [&](const Amount& written) {
    if (said.value.has_value() != written.value.has_value()) return false;
    if (said.fan != written.fan || (has_scale && written.unit != said.unit)) return false;
    return compare(said, written, Measures::Metric, {}).sameness == Sameness::Same;
  });
}

bool TimingEvidence::all_equal(const ScannedAmount& said, const Requirement& r) {
  if (!equals(said.amount, r)) return false;
  // "180, or 160 if you've a fan" where the recipe is silent on fans: hers to add.
  const bool fan_is_written =
      std::any_of(r.amounts.begin(), r.amounts.end(), [](const Amount& written) { return written.fan; });
  return std::all_of(said.alternates.begin(), said.alternates.end(), [&](const Amount& alternate) {
    return (alternate.fan && !fan_is_written) ||
           dimension_of(alternate.unit) != dimension_of(said.amount.unit) || equals(alternate, r);
  });
}

double TimingEvidence::seconds_of(const Amount& time) {
  const auto size = size_of(time.unit, Measures::Metric);
  return time.value && size ? time.value->value() * size->size.value() : 0.0;
}

// 70 degrees in the middle of the meat is no setting of an oven: water's boiling lies between the two. Weeks
// of a story are no slip for minutes in the pan.
bool TimingEvidence::may_be_meant(const Amount& said, const Requirement& r) {
  if (r.kind == RequirementKind::Time && !r.amounts.empty()) {
    constexpr double kBeyondASlip = 500.0;
    const double one = seconds_of(said);
    const double other = seconds_of(r.amounts.front());
    return one <= 0.0 || other <= 0.0 || (one < other * kBeyondASlip && other < one * kBeyondASlip);
  }
  if (r.kind != RequirementKind::Temperature || r.amounts.empty()) return true;
  const auto celsius = [](const Amount& amount) {
    const double value = amount.value ? amount.value->value() : 0.0;
    return amount.unit == Unit::Fahrenheit ? (value - 32.0) / 1.8 : value;
  };
  constexpr double kHottestFood = 100.0;
  constexpr double kSurelyOven = 130.0;
  const auto& written = r.amounts.front();
  if (!said.value || !written.value || said.unit == Unit::GasMark || written.unit == Unit::GasMark)
    return true;
  const double one = celsius(said);
  const double other = celsius(written);
  if (one < 0.0 && other > 0.0) return false;  // how cold it is outside
  return !(std::min(one, other) <= kHottestFood && std::max(one, other) >= kSurelyOven);
}

bool TimingEvidence::is_asked_for(std::size_t a) const {
  constexpr std::array<std::string_view, 4> kHowLong{"how long", "how many minutes", "how much time",
                                                     "how many hours"};
  constexpr std::size_t kQuestion = 10;
  const auto begin = talk_.amounts[a].span.begin;
  auto first = begin;
  while (first > 0 && begin - first <= 2 && talk_.text.sentence(first - 1) == talk_.text.sentence(begin))
    --first;
  return begin - first <= 2 && first > 0 &&
         holds_phrase(talk_.text, sentence_around(talk_.text, first - 1, kQuestion), kHowLong);
}

bool TimingEvidence::opens_sentence(std::size_t a) const {
  constexpr std::size_t kFew = 2;  // "We wait eight minutes"
  constexpr std::array<std::string_view, 7> kWas{"was", "were", "spent", "took", "had", "waited", "been"};
  constexpr std::array<std::string_view, 9> kTelling{"it's", "that's", "for", "and",  "about",
                                                     "gets", "then",   "is",  "thats"};
  constexpr std::size_t kNoSentence = 40;  // where captions have no stops
  const auto begin = talk_.amounts[a].span.begin;
  const auto whole = sentence_around(talk_.text, begin, kNoSentence);
  if (whole.end - whole.begin > kNoSentence && begin > 0) return is_any_word(talk_.text, begin - 1, kTelling);
  const auto sentence = sentence_around(talk_.text, begin, 2 * kFew + 8);
  return talk_.amounts[a].span.begin - sentence.begin <= kFew && !holds_phrase(talk_.text, sentence, kWas);
}

}  // namespace panslate
