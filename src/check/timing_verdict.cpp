#include "check/timing_verdict.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "panslate/base/timestamp.h"
#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/food.h"

#include "check/action_words.h"
#include "check/phrase.h"

namespace panslate {

namespace {

bool is_timing(RequirementKind kind) {
  return kind == RequirementKind::Temperature || kind == RequirementKind::Time;
}

// Evidence that an amount is said for a requirement, value left aside. Weights chosen on the development
// recipes.
constexpr int kStep = 6;      // the speaker is in this step
constexpr int kNearStep = 2;  // in a step beside it
constexpr int kSupport = 2;   // the utterance shares telling words with the step
constexpr int kSameVerb = 5;
constexpr int kLikeVerb = 2;
constexpr int kOtherVerb = -3;     // a verb of another kind stands beside the amount
constexpr int kOnlyVerb = 2;       // no other time of the recipe is for that verb
constexpr int kOnlyOne = 2;        // the recipe has no other temperature (or time)
constexpr int kEqual = 4;          // the value is the written one
constexpr int kEqualSetting = 8;   // … of an oven, which is set by its value more than by a verb
constexpr int kEnoughIfEqual = 3;  // base evidence asked for before an equal value counts
constexpr int kEnough = 6;         // … and before another value contradicts

struct Candidate {
  std::size_t amount;
  int base = 0;
  bool equal = false;
  bool same_verb = false;
};

class Timing {
 public:
  Timing(const Talk& talk, const Recipe& recipe, const std::vector<Requirement>& requirements,
         const Whereabouts& where)
      : talk_(talk), recipe_(recipe), requirements_(requirements), where_(where) {}

  TimingFindings run() {
    findings_.channels.resize(requirements_.size());
    findings_.why.resize(requirements_.size());
    findings_.requirement_of.resize(talk_.amounts.size());
    assigned_.resize(requirements_.size());
    for (std::size_t r = 0; r < requirements_.size(); ++r)
      if (is_timing(requirements_[r].kind)) asked_.push_back(r);
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) assign(a);
    for (const auto r : asked_) take_leftover(r);
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) take_further_time(a);
    for (const auto r : asked_) judge(r);
    doubt_swapped();
    return std::move(findings_);
  }

 private:
  static bool is_kind(const Amount& amount, RequirementKind kind) {
    const auto dimension = dimension_of(amount.unit);
    return kind == RequirementKind::Time ? dimension == Dimension::Time : dimension == Dimension::Temperature;
  }

  // The verbs told beside an amount: before it to the sentence's start, and shortly after.
  [[nodiscard]] std::vector<std::string> verbs_near(std::size_t a) const {
    constexpr std::size_t kBefore = 14;
    constexpr std::size_t kAfter = 7;
    const auto& text = talk_.text;
    const auto& span = talk_.amounts[a].span;
    std::vector<std::string> verbs;
    for (std::size_t i = span.begin; i-- > 0 && span.begin - i <= kBefore;) {
      if (text.sentence(i) != text.sentence(span.begin)) break;
      if (is_timing_amount_at(i)) break;  // what stands before another time belongs to that one
      if (text[i].kind == TokenKind::Word && is_action_word(text[i].text)) verbs.push_back(text[i].text);
    }
    for (std::size_t i = span.end; i < text.size() && i < span.end + kAfter; ++i) {
      if (text.sentence(i) != text.sentence(span.begin) || text.is_word(i, "then")) break;
      if (text.is_word(i, "i") || text.is_word(i, "we")) break;  // "eight minutes, eggs, I boil some eggs"
      if (is_timing_amount_at(i)) break;
      if (text[i].kind == TokenKind::Word && is_action_word(text[i].text)) verbs.push_back(text[i].text);
    }
    return verbs;
  }

  [[nodiscard]] bool is_timing_amount_at(std::size_t token) const {
    const auto found = std::upper_bound(talk_.amounts.begin(), talk_.amounts.end(), token,
                                        [](std::size_t t, const SpokenAmount& a) { return t < a.span.end; });
    return found != talk_.amounts.end() && found->span.begin <= token &&
           dimension_of(found->scan.amount.unit) == Dimension::Time;
  }

  // "Stir that through and give it one minute": stirring is a part of the step, not another action.
  [[nodiscard]] bool is_done_in(std::size_t step, const std::vector<std::string>& verbs) const {
    for (const auto& token : tokenize(recipe_.steps[step].text))
      if (token.kind == TokenKind::Word && is_action_word(token.text) &&
          std::any_of(verbs.begin(), verbs.end(),
                      [&](const auto& verb) { return action_likeness(verb, token.text) == 2; }))
        return true;
    return false;
  }

  [[nodiscard]] bool is_only_of_its_verb(const Requirement& r) const {
    return std::count_if(asked_.begin(), asked_.end(), [&](std::size_t k) {
             return requirements_[k].kind == r.kind && action_likeness(requirements_[k].name, r.name) == 2;
           }) == 1;
  }

  [[nodiscard]] int base_evidence(std::size_t a, const Requirement& r, const std::vector<std::string>& verbs,
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
      score += kSameVerb + (is_only_of_its_verb(r) ? kOnlyVerb : 0);
    else if (likeness == 1)
      score += kLikeVerb;
    else if (!verbs.empty() && !r.name.empty() && r.kind == RequirementKind::Time &&
             !is_done_in(r.index, verbs))
      score += kOtherVerb;
    const auto same_kind = std::count_if(asked_.begin(), asked_.end(),
                                         [&](std::size_t k) { return requirements_[k].kind == r.kind; });
    if (same_kind == 1 && r.kind == RequirementKind::Temperature) score += kOnlyOne + kLikeVerb;
    return score;
  }

  // Equal to the written value or its pair; the alternates said with it must be equal too.
  [[nodiscard]] static bool equals(const Amount& said, const Requirement& r) {
    return std::any_of(r.amounts.begin(), r.amounts.end(), [&](const Amount& written) {
      if (said.value.has_value() != written.value.has_value()) return false;
      if (said.fan != written.fan) return false;
      return compare(said, written, Measures::Metric, {}).sameness == Sameness::Same;
    });
  }

  [[nodiscard]] static bool all_equal(const ScannedAmount& said, const Requirement& r) {
    if (!equals(said.amount, r)) return false;
    // "180, or 160 if you've a fan" where the recipe is silent on fans: hers to add.
    const bool fan_is_written =
        std::any_of(r.amounts.begin(), r.amounts.end(), [](const Amount& written) { return written.fan; });
    return std::all_of(said.alternates.begin(), said.alternates.end(), [&](const Amount& alternate) {
      return (alternate.fan && !fan_is_written) ||
             dimension_of(alternate.unit) != dimension_of(said.amount.unit) || equals(alternate, r);
    });
  }

  // 70 degrees in the middle of the meat is no setting of an oven: water's boiling lies between the two.
  [[nodiscard]] static bool may_be_meant(const Amount& said, const Requirement& r) {
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
    return !(std::min(one, other) <= kHottestFood && std::max(one, other) >= kSurelyOven);
  }

  void assign(std::size_t a) {
    const auto& amount = talk_.amounts[a];
    if (amount.taken_back || amount.suggested || amount.beside) return;
    std::optional<std::size_t> best;
    int best_score = 0;
    Candidate chosen{a};
    const auto verbs = verbs_near(a);
    for (const auto r : asked_) {
      const auto& requirement = requirements_[r];
      const bool bare_more = requirement.kind == RequirementKind::Time && amount.scan.is_more &&
                             !amount.scan.has_unit && !amount.food;
      if (!is_kind(amount.scan.amount, requirement.kind) && !bare_more) continue;
      Candidate candidate{a};
      candidate.base = base_evidence(a, requirement, verbs, candidate.same_verb);
      candidate.equal = !bare_more && all_equal(amount.scan, requirement);
      if (!candidate.equal && !may_be_meant(amount.scan.amount, requirement)) continue;
      const int equal = requirement.kind == RequirementKind::Temperature ? kEqualSetting : kEqual;
      const int score = candidate.base + (candidate.equal ? equal : 0);
      if (candidate.base < (candidate.equal ? kEnoughIfEqual : kEnough)) continue;
      if (best && score <= best_score) continue;
      best = r;
      best_score = score;
      chosen = candidate;
    }
    if (!best) return;
    assigned_[*best].push_back(chosen);
    findings_.requirement_of[a] = *best;
  }

  // In the step, or in one beside it that asks for no time of its own.
  [[nodiscard]] bool stands_in(std::size_t token, std::size_t step) const {
    const auto here = where_.step_at(token);
    if (!here) return false;
    if (*here == step) return where_.is_grounded(token);
    const bool beside = *here + 1 == step || step + 1 == *here;
    return beside && std::none_of(asked_.begin(), asked_.end(), [&](std::size_t k) {
             return requirements_[k].kind == RequirementKind::Time && requirements_[k].index == *here;
           });
  }

  // The only time told in a step whose only time nothing else was said for: "the jars go in there for twenty
  // minutes".
  void take_leftover(std::size_t r) {
    const auto& requirement = requirements_[r];
    if (requirement.kind != RequirementKind::Time || !assigned_[r].empty() ||
        talk_.text.kind() != TextKind::Speech)
      return;
    const auto open_in_step = std::count_if(asked_.begin(), asked_.end(), [&](std::size_t k) {
      return requirements_[k].kind == RequirementKind::Time && requirements_[k].index == requirement.index &&
             assigned_[k].empty();
    });
    if (open_in_step != 1) return;
    std::optional<std::size_t> only;
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) {
      const auto& amount = talk_.amounts[a];
      if (findings_.requirement_of[a] || amount.taken_back || amount.suggested || amount.late ||
          amount.beside || !amount.scan.has_unit || !is_kind(amount.scan.amount, RequirementKind::Time))
        continue;
      if (!stands_in(amount.span.begin, requirement.index)) continue;
      if (only) return;
      only = a;
    }
    if (!only) return;
    bool same_verb = false;
    const int base = base_evidence(*only, requirement, verbs_near(*only), same_verb);
    if (base < kNearStep) return;
    assigned_[r].push_back({*only, base, all_equal(talk_.amounts[*only].scan, requirement), same_verb});
    findings_.requirement_of[*only] = r;
  }

  // "Cook this for five minutes. … The oil is not leaving the sides, so I give it one more minute": what
  // comes on top goes to the time told last, where the two give the written one.
  void take_further_time(std::size_t a) {
    constexpr std::size_t kReach = 60;
    const auto& more = talk_.amounts[a];
    if (findings_.requirement_of[a] || !more.scan.is_more || !more.scan.has_unit || more.taken_back ||
        more.suggested || more.beside || !is_kind(more.scan.amount, RequirementKind::Time))
      return;
    for (auto before = a; before-- > 0 && more.span.begin - talk_.amounts[before].span.end <= kReach;) {
      const auto r = findings_.requirement_of[before];
      if (!r || requirements_[*r].kind != RequirementKind::Time) continue;
      auto parts = assigned_[*r];
      if (std::any_of(parts.begin(), parts.end(), [](const Candidate& c) { return c.equal; })) return;
      parts.push_back({a, kEnough});
      if (!adds_up(requirements_[*r], parts)) return;
      assigned_[*r] = std::move(parts);
      findings_.requirement_of[a] = r;
      return;
    }
  }

  void judge(std::size_t r) {
    const auto& requirement = requirements_[r];
    auto& channel = findings_.channels[r];
    auto candidates = assigned_[r];
    drop_late(candidates);
    const auto correction = std::find_if(candidates.rbegin(), candidates.rend(), [&](const Candidate& c) {
      return talk_.amounts[c.amount].corrects;
    });
    if (correction != candidates.rend()) candidates.erase(candidates.begin(), correction.base() - 1);
    const auto equal =
        std::find_if(candidates.begin(), candidates.end(), [](const auto& c) { return c.equal; });
    std::size_t deciding = 0;
    if (candidates.empty()) {
      judge_stray(r);
      return;
    }
    if (equal != candidates.end()) {
      deciding = static_cast<std::size_t>(equal - candidates.begin());
      channel.verdict = contradicted(requirement, candidates, deciding) ? Verdict::Unsure : Verdict::Match;
    } else if (adds_up(requirement, candidates)) {
      channel.verdict = Verdict::Match;
    } else if (only_fan_differs(requirement, candidates)) {
      channel.verdict = Verdict::Unsure;
    } else {
      deciding = strongest(candidates);
      channel.verdict = is_unlike(requirement, candidates[deciding]) ? Verdict::Unsure : Verdict::Differs;
    }
    channel.mentions.push_back(mention_of(candidates[deciding].amount));
    for (std::size_t i = 0; i < candidates.size(); ++i)
      if (i != deciding) channel.mentions.push_back(mention_of(candidates[i].amount));
    explain(r);
  }

  // Two settings of one step, each said where the other is written: swapped, or told out of order.
  void doubt_swapped() {
    for (std::size_t k = 1; k < asked_.size(); ++k) {
      const auto first = asked_[k - 1];
      const auto second = asked_[k];
      if (requirements_[first].kind != RequirementKind::Temperature ||
          requirements_[second].kind != RequirementKind::Temperature ||
          requirements_[first].index != requirements_[second].index)
        continue;
      auto& one = findings_.channels[first];
      auto& other = findings_.channels[second];
      if (one.verdict != Verdict::Match || other.verdict != Verdict::Match) continue;
      if (one.mentions.size() != 1 || other.mentions.size() != 1 ||
          one.mentions.front().when.begin <= other.mentions.front().when.begin)
        continue;
      for (const auto r : {first, second}) {
        findings_.channels[r].verdict = Verdict::Unsure;
        findings_.why[r] = "please check: " + to_text(requirements_[r].amounts.front()) +
                           " is said in another order than the recipe has it";
      }
    }
  }

  void drop_late(std::vector<Candidate>& candidates) const {
    const auto is_late = [&](const Candidate& c) { return talk_.amounts[c.amount].late; };
    if (std::all_of(candidates.begin(), candidates.end(), is_late)) return;
    candidates.erase(std::remove_if(candidates.begin(), candidates.end(), is_late), candidates.end());
  }

  // Nothing was said for it; but the value itself may have been said where nothing tells what for.
  void judge_stray(std::size_t r) {
    auto& channel = findings_.channels[r];
    channel.verdict = Verdict::Missing;
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) {
      const auto& amount = talk_.amounts[a];
      if (findings_.requirement_of[a] || amount.taken_back ||
          !is_kind(amount.scan.amount, requirements_[r].kind))
        continue;
      if (!all_equal(amount.scan, requirements_[r])) continue;
      const auto verbs = verbs_near(a);
      bool same_verb = false;
      if (base_evidence(a, requirements_[r], verbs, same_verb) < 0) continue;
      channel.verdict = Verdict::Unsure;
      channel.mentions.push_back(mention_of(a));
      findings_.why[r] = to_text(requirements_[r].amounts.front()) + " is said at " +
                         format_timestamp(channel.mentions.front().when.begin, TimestampStyle::Spoken) +
                         ", but not clearly for this";
      return;
    }
    findings_.why[r] = talk_.text.kind() == TextKind::Speech ? "not said" : "not written on the picture";
  }

  // Another value said for the very same action leaves it open which one holds.
  [[nodiscard]] bool contradicted(const Requirement& requirement, const std::vector<Candidate>& candidates,
                                  std::size_t deciding) const {
    for (const auto& other : candidates) {
      const auto& said = talk_.amounts[other.amount].scan;
      if (other.equal || said.is_more || said.is_total || !said.amount.value) continue;
      if (!other.same_verb || other.base < candidates[deciding].base || other.base < kEnough) continue;
      const auto& written = requirement.amounts.front();
      if (requirement.kind == RequirementKind::Time && written.value && said.amount.value &&
          is_shorter(said.amount, written))
        continue;
      return true;
    }
    return false;
  }

  // "after ten minutes, turn it" within a bake of 25: a moment inside, not another length.
  [[nodiscard]] static bool is_shorter(const Amount& a, const Amount& b) {
    const auto seconds = [](const Amount& amount) {
      const auto size = size_of(amount.unit, Measures::Metric);
      return amount.value->value() * (size ? size->size.value() : 1.0);
    };
    return seconds(a) < seconds(b);
  }

  [[nodiscard]] bool adds_up(const Requirement& requirement, const std::vector<Candidate>& candidates) const {
    if (requirement.kind != RequirementKind::Time || candidates.size() < 2) return false;
    std::optional<Ratio> minutes = Ratio(0);
    for (const auto& candidate : candidates) {
      const auto& scan = talk_.amounts[candidate.amount].scan;
      if (!scan.amount.value || scan.amount.to || !minutes) return false;
      // "another 10" takes the unit of the time it comes after.
      const auto unit = scan.has_unit ? scan.amount.unit : Unit::Minute;
      const auto size = size_of(unit, Measures::Metric);
      const auto seconds = size ? scan.amount.value->times(size->size) : std::nullopt;
      const auto part = seconds ? seconds->over(Ratio(60)) : std::nullopt;
      minutes = part ? minutes->plus(*part) : std::nullopt;
    }
    if (!minutes) return false;
    Amount sum;
    sum.value = minutes;
    sum.unit = Unit::Minute;
    return equals(sum, requirement);
  }

  // The fan's value without the word fan, or the usual value with it: the settings are 20 degrees apart, so a
  // person must look.
  [[nodiscard]] bool only_fan_differs(const Requirement& requirement,
                                      const std::vector<Candidate>& candidates) const {
    if (requirement.kind != RequirementKind::Temperature) return false;
    return std::any_of(candidates.begin(), candidates.end(), [&](const Candidate& candidate) {
      auto said = talk_.amounts[candidate.amount].scan.amount;
      if (said.fan) return false;
      said.fan = true;
      return equals(said, requirement);
    });
  }

  [[nodiscard]] bool is_unlike(const Requirement& requirement, const Candidate& candidate) const {
    const auto& said = talk_.amounts[candidate.amount].scan.amount;
    return said.value.has_value() != requirement.amounts.front().value.has_value();
  }

  [[nodiscard]] static std::size_t strongest(const std::vector<Candidate>& candidates) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < candidates.size(); ++i)
      if (candidates[i].base >= candidates[best].base) best = i;
    return best;
  }

  [[nodiscard]] Mention mention_of(std::size_t a) const {
    auto mention = talk_.text.mention(talk_.amounts[a].span);
    mention.amount = talk_.amounts[a].scan.amount;
    mention.alternates = talk_.amounts[a].scan.alternates;
    mention.step = where_.step_at(talk_.amounts[a].span.begin);
    return mention;
  }

  void explain(std::size_t r) {
    const auto& requirement = requirements_[r];
    const auto& channel = findings_.channels[r];
    const auto& first = channel.mentions.front();
    const auto at = " at " + format_timestamp(first.when.begin, TimestampStyle::Spoken);
    const bool speech = talk_.text.kind() == TextKind::Speech;
    auto& why = findings_.why[r];
    const auto what = first.amount && !to_text(*first.amount).empty() ? to_text(*first.amount) : first.text;
    switch (channel.verdict) {
      case Verdict::Match:
        why = (speech ? "said" : "on the picture") + at;
        break;
      case Verdict::Differs:
        why = what + (speech ? " is said" : " is on the picture") + at + ", the recipe has " +
              to_text(requirement.amounts.front());
        break;
      case Verdict::Unsure:
        why = "please check: " + what + (speech ? " is said" : " is on the picture") + at;
        break;
      default:
        break;
    }
  }

  const Talk& talk_;
  const Recipe& recipe_;
  const std::vector<Requirement>& requirements_;
  const Whereabouts& where_;
  std::vector<std::size_t> asked_;
  std::vector<std::vector<Candidate>> assigned_;
  TimingFindings findings_;
};

}  // namespace

TimingFindings judge_timings(const Talk& talk, const Recipe& recipe,
                             const std::vector<Requirement>& requirements, const Whereabouts& where) {
  return Timing(talk, recipe, requirements, where).run();
}

}  // namespace panslate
