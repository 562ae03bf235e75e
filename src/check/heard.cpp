#include "check/heard.h"

#include <algorithm>
#include <set>
#include <string>

namespace panslate {

namespace {

HeardRole timing_role(RequirementKind kind) {
  switch (kind) {
    case RequirementKind::Temperature:
      return HeardRole::Temperature;
    case RequirementKind::Time:
      return HeardRole::Time;
    case RequirementKind::Yield:
      return HeardRole::Yield;
    default:
      return HeardRole::Other;
  }
}

}  // namespace

std::vector<Heard> heard_in(const Talk& talk, const std::vector<FoodTarget>& targets, const LineChoice& lines,
                            const std::vector<FoodFinding>& foods, const TimingFindings& timings,
                            const std::vector<Requirement>& requirements) {
  std::set<std::size_t> extra;
  for (const auto& food : foods) extra.insert(food.extra_amounts.begin(), food.extra_amounts.end());
  for (const auto& strange : talk.strange) extra.insert(strange.amount);
  std::vector<Heard> heard;
  std::vector<const std::string*> clip;  // whose clock each is on
  for (std::size_t a = 0; a < talk.amounts.size(); ++a) {
    const auto& amount = talk.amounts[a];
    const auto& scan = amount.scan;
    const auto dimension = dimension_of(scan.amount.unit);
    const auto& timed = timings.requirement_of[a];
    Heard h;
    h.requirement = timed;
    if (timed)
      h.role = timing_role(requirements[*timed].kind);
    else if (dimension == Dimension::Temperature)
      h.role = HeardRole::Temperature;
    else if (dimension == Dimension::Time)
      h.role = HeardRole::Time;
    else if (extra.contains(a) || amount.suggested)
      h.role = HeardRole::Extra;
    else if (amount.portion)
      h.role = HeardRole::Portion;
    else if (scan.is_share)
      h.role = HeardRole::Share;
    else if (amount.food)
      h.role = HeardRole::Ingredient;
    if (!timed && amount.food) {
      const auto& left = lines.targets_of[*amount.food];
      if (left.size() == 1) h.requirement = targets[left.front()].requirement;
    }
    const bool bare = !scan.has_unit && !amount.food && !timed;
    if (bare || (!scan.amount.value && scan.is_share)) continue;
    h.when = talk.text.when(amount.span);
    h.text = talk.text.text(amount.span);
    h.amount = scan.amount;
    h.alternates = scan.alternates;
    heard.push_back(std::move(h));
    clip.push_back(&talk.text.media_of(amount.span.begin));
  }
  // Captions whose times overlap are read one after the other; the amounts of a clip are told by its clock.
  for (std::size_t begin = 0; begin < heard.size();) {
    auto end = begin;
    while (end < heard.size() && *clip[end] == *clip[begin]) ++end;
    const auto at = [&](std::size_t i) { return heard.begin() + static_cast<std::ptrdiff_t>(i); };
    std::stable_sort(at(begin), at(end),
                     [](const Heard& a, const Heard& b) { return a.when.begin < b.when.begin; });
    begin = end;
  }
  return heard;
}

}  // namespace panslate
