#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "panslate/check/report.h"
#include "panslate/recipe/recipe.h"

#include "check/talk.h"
#include "check/whereabouts.h"

namespace panslate {

/// What speaks for a spoken time or temperature being said for a time or temperature of the recipe.
class TimingEvidence {
 public:
  TimingEvidence(const Talk& talk, const Recipe& recipe, const std::vector<Requirement>& requirements,
                 const Whereabouts& where);

  /// The times and temperatures asked for: indices of requirements.
  [[nodiscard]] const std::vector<std::size_t>& asked() const { return asked_; }
  /// The verbs told beside an amount: before it to the sentence's start, and shortly after.
  [[nodiscard]] std::vector<std::string> verbs_near(std::size_t amount) const;
  /// The step spoken and the verbs, the value left aside; more is more.
  [[nodiscard]] int base_evidence(std::size_t amount, const Requirement& requirement,
                                  const std::vector<std::string>& verbs, bool& same_verb) const;

  [[nodiscard]] static bool is_kind(const Amount& amount, RequirementKind kind);
  /// Equal to the written value or its pair.
  [[nodiscard]] static bool equals(const Amount& said, const Requirement& requirement);
  /// … and so are the alternates said with it.
  [[nodiscard]] static bool all_equal(const ScannedAmount& said, const Requirement& requirement);
  /// 70 degrees in the middle of the meat is no setting of an oven.
  /// A moment's work ("stir"): a time told beside it is mostly another's.
  [[nodiscard]] static bool is_a_moment(std::string_view action);
  /// 0 where the amount has no number or is no time.
  [[nodiscard]] static double seconds_of(const Amount& time);
  [[nodiscard]] static bool may_be_meant(const Amount& said, const Requirement& requirement);
  /// "How long for the vegetable? – Two minutes."
  [[nodiscard]] bool is_asked_for(std::size_t amount) const;
  /// "Fifteen minutes on the rack": its sentence begins with it, and tells of nothing that was.
  [[nodiscard]] bool opens_sentence(std::size_t amount) const;

 private:
  [[nodiscard]] bool is_timing_amount_at(std::size_t token) const;
  [[nodiscard]] bool is_told_with_setting(std::size_t amount) const;
  [[nodiscard]] bool is_done_in(std::size_t step, const std::vector<std::string>& verbs) const;
  [[nodiscard]] bool is_only_of_its_verb(const Requirement& requirement) const;

  const Talk& talk_;
  const Recipe& recipe_;
  const std::vector<Requirement>& requirements_;
  const Whereabouts& where_;
  std::vector<std::size_t> asked_;
};

}  // namespace panslate
