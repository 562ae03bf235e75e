#include "check/timing_verdict.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include "panslate/base/timestamp.h"
#include "panslate/kitchen/compare.h"
#include "panslate/kitchen/food.h"

#include "check/phrase.h"
#include "check/timing_evidence.h"

namespace panslate {

namespace {

// How much evidence is asked for (timing_evidence.cpp tells what counts). Chosen on the development recipes.
constexpr int kEqual = 4;          // the value is the written one
constexpr int kEqualSetting = 8;   // … of an oven, which is set by its value more than by a verb
constexpr int kEnoughIfEqual = 3;  // base evidence asked for before an equal value counts
constexpr int kEnough = 6;         // … and before another value contradicts
constexpr int kHardlyAny = 2;      // … before the only time left in a step is taken

struct Candidate {
  std::size_t amount;
  int base = 0;
  bool equal = false;
  bool same_verb = false;
  bool doubtful = false;  ///< only its place among the others speaks for it, or its unit was never said
};

class Timing {
 public:
  Timing(const Talk& talk, const Recipe& recipe, const std::vector<Requirement>& requirements,
         const Whereabouts& where)
      : talk_(talk),
        requirements_(requirements),
        where_(where),
        evidence_(talk, recipe, requirements, where) {}

  TimingFindings run() {
    findings_.channels.resize(requirements_.size());
    findings_.why.resize(requirements_.size());
    findings_.requirement_of.resize(talk_.amounts.size());
    assigned_.resize(requirements_.size());
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) assign(a);
    for (const auto r : asked_) take_leftover(r);
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) take_further_time(a);
    for (const auto r : asked_) take_from_neighbour(r);
    for (const auto r : asked_) take_by_order(r);
    for (const auto r : asked_) judge(r);
    doubt_swapped();
    return std::move(findings_);
  }

 private:
  void assign(std::size_t a) {
    const auto& amount = talk_.amounts[a];
    if (amount.taken_back || amount.suggested || amount.beside) return;
    std::optional<std::size_t> best;
    int best_score = 0;
    Candidate chosen{a};
    const auto verbs = evidence_.verbs_near(a);
    for (const auto r : asked_) {
      const auto& requirement = requirements_[r];
      const bool bare_more = requirement.kind == RequirementKind::Time && amount.scan.is_more &&
                             !amount.scan.has_unit && !amount.food;
      if (!TimingEvidence::is_kind(amount.scan.amount, requirement.kind) && !bare_more) continue;
      Candidate candidate{a};
      candidate.base = evidence_.base_evidence(a, requirement, verbs, candidate.same_verb);
      candidate.equal = TimingEvidence::all_equal(bare_more ? as_time(a) : amount.scan, requirement);
      candidate.doubtful = bare_more && !unit_of_more(a);
      if (!candidate.equal && !TimingEvidence::may_be_meant(amount.scan.amount, requirement)) continue;
      const int equal = requirement.kind == RequirementKind::Temperature ? kEqualSetting : kEqual;
      const int score = candidate.base + (candidate.equal ? equal : 0);
      if (candidate.base < (candidate.equal && !bare_more ? kEnoughIfEqual : kEnough)) continue;
      if (best && score <= best_score) continue;
      best = r;
      best_score = score;
      chosen = candidate;
    }
    if (!best) return;
    assigned_[*best].push_back(chosen);
    findings_.requirement_of[a] = *best;
  }

  // "twenty seconds, then another twenty": the unit of the time it comes after. None where no time came
  // before, or hours did: "an hour, and another ten" may be either.
  [[nodiscard]] std::optional<Unit> unit_of_more(std::size_t a) const {
    constexpr std::size_t kReach = 60;
    for (auto before = a;
         before-- > 0 && talk_.amounts[a].span.begin - talk_.amounts[before].span.end <= kReach;) {
      const auto& scan = talk_.amounts[before].scan;
      if (!scan.has_unit || dimension_of(scan.amount.unit) != Dimension::Time) continue;
      if (scan.amount.unit == Unit::Minute || scan.amount.unit == Unit::Second) return scan.amount.unit;
      return std::nullopt;
    }
    return std::nullopt;
  }

  // With the unit it must have; minutes where nothing tells it.
  [[nodiscard]] ScannedAmount as_time(std::size_t a) const {
    auto scan = talk_.amounts[a].scan;
    if (!scan.has_unit && scan.is_more) scan.amount.unit = unit_of_more(a).value_or(Unit::Minute);
    return scan;
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
          amount.beside || !amount.scan.has_unit ||
          !TimingEvidence::is_kind(amount.scan.amount, RequirementKind::Time))
        continue;
      if (!stands_in(amount.span.begin, requirement.index)) continue;
      if (only) return;
      only = a;
    }
    if (!only) return;
    bool same_verb = false;
    const int base = evidence_.base_evidence(*only, requirement, evidence_.verbs_near(*only), same_verb);
    if (base < kHardlyAny) return;
    assigned_[r].push_back(
        {*only, base, TimingEvidence::all_equal(talk_.amounts[*only].scan, requirement), same_verb});
    findings_.requirement_of[*only] = r;
  }

  // "Cook this for five minutes. … The oil is not leaving the sides, so I give it one more minute": what
  // comes on top goes to the time told last, where the two give the written one.
  void take_further_time(std::size_t a) {
    constexpr std::size_t kReach = 60;
    const auto& more = talk_.amounts[a];
    if (!more.scan.is_more || !more.scan.has_unit || more.taken_back || more.suggested || more.beside ||
        !TimingEvidence::is_kind(more.scan.amount, RequirementKind::Time))
      return;
    // "Simmer twenty minutes, come and stir the bottom, then another twenty": laid on another stirring, for
    // its verb alone. A chill of another ten stays where it is.
    const auto laid_on = findings_.requirement_of[a];
    if (laid_on && (!TimingEvidence::is_a_moment(requirements_[*laid_on].name) ||
                    TimingEvidence::all_equal(as_time(a), requirements_[*laid_on])))
      return;
    for (auto before = a; before-- > 0 && more.span.begin - talk_.amounts[before].span.end <= kReach;) {
      const auto r = findings_.requirement_of[before];
      if (!r || requirements_[*r].kind != RequirementKind::Time) continue;
      auto parts = assigned_[*r];
      if (std::any_of(parts.begin(), parts.end(), [](const Candidate& c) { return c.equal; })) return;
      parts.push_back({a, kEnough});
      if (r == laid_on || !adds_up(requirements_[*r], parts)) return;
      if (laid_on) std::erase_if(assigned_[*laid_on], [&](const Candidate& c) { return c.amount == a; });
      assigned_[*r] = std::move(parts);
      findings_.requirement_of[a] = r;
      return;
    }
  }

  // The time of the recipe before or after this one, of those that something was said for.
  [[nodiscard]] std::optional<std::size_t> neighbour(std::size_t r, bool after) const {
    const auto own = std::find(asked_.begin(), asked_.end(), r) - asked_.begin();
    const auto count = static_cast<std::ptrdiff_t>(asked_.size());
    for (auto k = own + (after ? 1 : -1); k >= 0 && k < count; k += after ? 1 : -1) {
      const auto other = asked_[static_cast<std::size_t>(k)];
      if (requirements_[other].kind == requirements_[r].kind && !assigned_[other].empty()) return other;
    }
    return std::nullopt;
  }

  // Of several times laid on one, that which stands on this one's side of all the others and is as written
  // here; or any that does, where the neighbour has its own and both are of one step.
  [[nodiscard]] std::vector<Candidate>::iterator spare_of(std::vector<Candidate>& parts, std::size_t r,
                                                          bool after) const {
    if (parts.size() < 2) return parts.end();
    const auto before = [](const Candidate& a, const Candidate& b) { return a.amount < b.amount; };
    const auto outer = after ? std::min_element(parts.begin(), parts.end(), before)
                             : std::max_element(parts.begin(), parts.end(), before);
    if (outer->equal) return parts.end();
    const auto said = as_time(outer->amount);
    if (TimingEvidence::all_equal(said, requirements_[r])) return outer;
    const bool has_own = std::any_of(parts.begin(), parts.end(), [](const Candidate& c) { return c.equal; });
    const auto other = findings_.requirement_of[outer->amount];
    bool same_verb = false;
    const bool of_step = other && requirements_[*other].index == requirements_[r].index && !said.is_more &&
                         evidence_.base_evidence(outer->amount, requirements_[r],
                                                 evidence_.verbs_near(outer->amount), same_verb) >= kEnough;
    return has_own && of_step ? outer : parts.end();
  }

  // "20 minutes with thighs. … The okra comes back. Simmer five more minutes": taken for the time told
  // before, which was told already; as written for the next.
  void take_from_neighbour(std::size_t r) {
    if (requirements_[r].kind != RequirementKind::Time || !assigned_[r].empty()) return;
    for (const bool after : {false, true}) {
      const auto other = neighbour(r, after);
      if (!other) continue;
      auto& parts = assigned_[*other];
      const auto spare = spare_of(parts, r, after);
      if (spare == parts.end()) continue;
      assigned_[r].push_back(*spare);
      assigned_[r].back().equal = TimingEvidence::all_equal(as_time(spare->amount), requirements_[r]);
      findings_.requirement_of[spare->amount] = r;
      parts.erase(spare);
      return;
    }
  }

  // The question names something of the step: "How long for the vegetable?", not "How long have I been
  // married?"
  [[nodiscard]] bool is_asked_of(std::size_t a, std::size_t step) const {
    constexpr std::size_t kQuestion = 14;
    const auto begin = talk_.amounts[a].span.begin;
    for (auto at = begin; at > 0 && begin - at < kQuestion; --at)
      if (where_.support(at - 1, step) > 0.0) return true;
    return false;
  }

  // "And then, the hardest instruction of all: wait. Fifteen minutes on the rack": nothing near tells what
  // for, but it is told between the times of the steps before and after, and is the only one there that fits.
  void take_by_order(std::size_t r) {
    if (requirements_[r].kind != RequirementKind::Time || !assigned_[r].empty() ||
        talk_.text.kind() != TextKind::Speech)
      return;
    const auto before = neighbour(r, false);
    const auto after = neighbour(r, true);
    if (!before && !after) return;
    const auto begin = before ? assigned_[*before].back().amount + 1 : 0;
    const auto end = after ? assigned_[*after].front().amount : talk_.amounts.size();
    std::optional<std::size_t> only;
    for (auto a = begin; a < end; ++a) {
      const auto& amount = talk_.amounts[a];
      if (findings_.requirement_of[a] || amount.taken_back || amount.suggested || amount.late ||
          amount.beside || !amount.scan.has_unit ||
          !TimingEvidence::is_kind(amount.scan.amount, RequirementKind::Time))
        continue;
      if (!evidence_.is_asked_for(a) &&
          !(TimingEvidence::all_equal(amount.scan, requirements_[r]) && evidence_.opens_sentence(a)))
        continue;
      if (only && !(talk_.amounts[*only].scan.amount == amount.scan.amount)) return;
      only = a;
    }
    if (!only) return;
    const auto fits_another = std::any_of(asked_.begin(), asked_.end(), [&](std::size_t k) {
      return k != r && requirements_[k].kind == RequirementKind::Time && assigned_[k].empty() &&
             neighbour(k, false) == before && neighbour(k, true) == after &&
             TimingEvidence::all_equal(talk_.amounts[*only].scan, requirements_[k]);
    });
    bool same_verb = false;
    const int base = evidence_.base_evidence(*only, requirements_[r], evidence_.verbs_near(*only), same_verb);
    if (fits_another || base < 0) return;
    assigned_[r].push_back({*only, base,
                            TimingEvidence::all_equal(talk_.amounts[*only].scan, requirements_[r]), same_verb,
                            !evidence_.is_asked_for(*only) || !is_asked_of(*only, requirements_[r].index)});
    findings_.requirement_of[*only] = r;
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
      const bool doubtful = candidates[deciding].doubtful || contradicted(requirement, candidates, deciding);
      channel.verdict = doubtful ? Verdict::Unsure : Verdict::Match;
    } else if (adds_up(requirement, candidates)) {
      const bool doubtful =
          std::any_of(candidates.begin(), candidates.end(), [](const auto& c) { return c.doubtful; });
      channel.verdict = doubtful ? Verdict::Unsure : Verdict::Match;
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
      const bool story = amount.beside && requirements_[r].kind == RequirementKind::Time;
      if (findings_.requirement_of[a] || amount.taken_back || story ||
          !TimingEvidence::is_kind(amount.scan.amount, requirements_[r].kind))
        continue;
      if (!TimingEvidence::all_equal(amount.scan, requirements_[r])) continue;
      const auto verbs = evidence_.verbs_near(a);
      bool same_verb = false;
      if (evidence_.base_evidence(a, requirements_[r], verbs, same_verb) < 0) continue;
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
      if (requirement.kind == RequirementKind::Time && is_her_own(other.amount)) return true;
      if (!other.same_verb || other.base < candidates[deciding].base || other.base < kEnough) continue;
      const auto& written = requirement.amounts.front();
      if (requirement.kind == RequirementKind::Time && written.value && said.amount.value &&
          is_shorter(said.amount, written) &&
          (candidates[deciding].same_verb || talk_.amounts[other.amount].scan.amount.to))
        continue;
      return true;
    }
    return false;
  }

  // "Bake for forty minutes. Mine took fifty five.", "… I gave it ten"
  [[nodiscard]] bool is_her_own(std::size_t a) const {
    constexpr std::array<std::string_view, 11> kMine{"mine",       "mine's",      "mine was",  "i gave it",
                                                     "i give it",  "i give mine", "i only",    "i leave mine",
                                                     "in my oven", "my oven",     "i never go"};
    constexpr std::size_t kNear = 5;
    return holds_phrase(talk_.text, words_before(talk_.text, talk_.amounts[a].span.begin, kNear), kMine);
  }

  // "after ten minutes, turn it" within a bake of 25: a moment inside, not another length.
  [[nodiscard]] static bool is_shorter(const Amount& a, const Amount& b) {
    return TimingEvidence::seconds_of(a) < TimingEvidence::seconds_of(b);
  }

  [[nodiscard]] bool adds_up(const Requirement& requirement, const std::vector<Candidate>& candidates) const {
    if (requirement.kind != RequirementKind::Time || candidates.size() < 2) return false;
    std::optional<Ratio> minutes = Ratio(0);
    for (const auto& candidate : candidates) {
      const auto scan = as_time(candidate.amount);
      if (!scan.amount.value || scan.amount.to || !minutes) return false;
      const auto size =
          size_of(scan.has_unit || scan.is_more ? scan.amount.unit : Unit::Minute, Measures::Metric);
      const auto seconds = size ? scan.amount.value->times(size->size) : std::nullopt;
      const auto part = seconds ? seconds->over(Ratio(60)) : std::nullopt;
      minutes = part ? minutes->plus(*part) : std::nullopt;
    }
    if (!minutes) return false;
    Amount sum;
    sum.value = minutes;
    sum.unit = Unit::Minute;
    return TimingEvidence::equals(sum, requirement);
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
      return TimingEvidence::equals(said, requirement);
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
    const auto r = findings_.requirement_of[a];
    const bool time = r && requirements_[*r].kind == RequirementKind::Time;
    mention.amount = time ? as_time(a).amount : talk_.amounts[a].scan.amount;
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
  const std::vector<Requirement>& requirements_;
  const Whereabouts& where_;
  TimingEvidence evidence_;
  const std::vector<std::size_t>& asked_ = evidence_.asked();
  std::vector<std::vector<Candidate>> assigned_;
  TimingFindings findings_;
};

}  // namespace

TimingFindings judge_timings(const Talk& talk, const Recipe& recipe,
                             const std::vector<Requirement>& requirements, const Whereabouts& where) {
  return Timing(talk, recipe, requirements, where).run();
}

}  // namespace panslate
