#include "panslate/check/report.h"

#include <algorithm>

namespace panslate {

std::string CheckReport::id_of(const Requirement& requirement) {
  return std::string(spelling_of(requirement.kind)) + ':' + std::to_string(requirement.ordinal);
}

bool CheckReport::is_as_written(const Requirement& requirement) {
  const auto is = [&](Verdict verdict) {
    return requirement.said.verdict == verdict || requirement.on_text.verdict == verdict;
  };
  return is(Verdict::Match) && !is(Verdict::Differs);
}

bool CheckReport::is_covered(const Requirement& requirement) {
  return is_as_written(requirement) && requirement.shown.verdict != ShownVerdict::No;
}

bool CheckReport::needs_attention(const Requirement& requirement) {
  const bool counts = requirement.kind != RequirementKind::Yield && requirement.kind != RequirementKind::Cue;
  return counts && !requirement.covered && !requirement.optional;
}

std::size_t CheckReport::covered_count() const {
  return static_cast<std::size_t>(
      std::count_if(requirements.begin(), requirements.end(), [](const auto& r) { return r.covered; }));
}

std::size_t CheckReport::attention_count() const {
  return static_cast<std::size_t>(std::count_if(requirements.begin(), requirements.end(), needs_attention));
}

bool CheckReport::wants_attention() const {
  return attention_count() > 0 || std::any_of(warnings.begin(), warnings.end(),
                                              [](const auto& w) { return w.level == WarningLevel::Warning; });
}

std::string_view spelling_of(RequirementKind kind) {
  switch (kind) {
    case RequirementKind::Ingredient:
      return "ingredient";
    case RequirementKind::MethodAmount:
      return "method-amount";
    case RequirementKind::Temperature:
      return "temperature";
    case RequirementKind::Time:
      return "time";
    case RequirementKind::Yield:
      return "yield";
    case RequirementKind::Step:
      return "step";
    case RequirementKind::Cue:
      return "cue";
  }
  return {};
}

std::string_view spelling_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::Match:
      return "match";
    case Verdict::Differs:
      return "differs";
    case Verdict::NoAmount:
      return "no-amount";
    case Verdict::Missing:
      return "missing";
    case Verdict::Unsure:
      return "unsure";
    case Verdict::NotChecked:
      return "not-checked";
  }
  return {};
}

std::string_view spelling_of(ShownVerdict verdict) {
  switch (verdict) {
    case ShownVerdict::Yes:
      return "yes";
    case ShownVerdict::Unconfirmed:
      return "unconfirmed";
    case ShownVerdict::No:
      return "no";
    case ShownVerdict::NotChecked:
      return "not-checked";
  }
  return {};
}

std::string_view spelling_of(HeardRole role) {
  switch (role) {
    case HeardRole::Ingredient:
      return "ingredient";
    case HeardRole::Share:
      return "share";
    case HeardRole::Portion:
      return "portion";
    case HeardRole::Temperature:
      return "temperature";
    case HeardRole::Time:
      return "time";
    case HeardRole::Yield:
      return "yield";
    case HeardRole::Extra:
      return "extra";
    case HeardRole::Other:
      return "other";
  }
  return {};
}

}  // namespace panslate
