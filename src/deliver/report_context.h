#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "panslate/check/spoken_index.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/report_page.h"

#include "deliver/film_place.h"
#include "deliver/page_stills.h"

namespace panslate {

/// What the sections of the report page share: everything looked up once, so that the page's cost grows with
/// its lines and not with their square.
struct ReportContext {
  explicit ReportContext(const ReportPageInput& page_input);

  const ReportPageInput& input;
  const CheckReport& report;
  const Recipe& recipe;
  CheckDigest digest;
  FilmPlace film;
  SpokenIndex spoken_words;
  std::vector<const CheckLine*> line_of;                ///< by requirement
  std::vector<std::vector<std::size_t>> pickups_of;     ///< indices into pickups, by requirement
  std::vector<std::vector<std::size_t>> lines_of_step;  ///< requirements of a step but the step itself
  std::vector<std::vector<std::size_t>> step_line;      ///< the step's own requirement
  std::vector<std::vector<std::size_t>> line_of_ingredient;
  std::vector<std::size_t> yields;
};

/// The id of a line in the page ("l12"), and of its card where it needs attention ("p12").
[[nodiscard]] std::string line_id(std::size_t requirement);
[[nodiscard]] std::string card_id(std::size_t requirement);
/// Where the page tells most of a line: its card, else its place in the recipe.
[[nodiscard]] std::string home_of(const ReportContext& context, std::size_t requirement);
/// "food", "heat", "step" or "other": what the filter of the page goes by.
[[nodiscard]] std::string_view kind_word(RequirementKind kind);

/// The sections. Cards ask for their stills first.
[[nodiscard]] PageData problem_cards(const ReportContext& context, PageStills& stills);
[[nodiscard]] PageData recipe_groups(const ReportContext& context);
[[nodiscard]] PageData recipe_steps(const ReportContext& context);
[[nodiscard]] PageData recipe_yields(const ReportContext& context);
[[nodiscard]] PageData film_strips(const ReportContext& context);
/// Sets the lists of what to say, film and put right.
void set_pickup_sections(PageData& page, const ReportContext& context);
/// Parts of clips by step, those without one last.
[[nodiscard]] PageData filmed_steps(const ReportContext& context, PageStills& stills);

/// What is found of a line: {mark, class, shaped, words} for said, shown and on the picture, without what was
/// not looked at where something was.
[[nodiscard]] PageData findings_of(const ReportContext& context, std::size_t requirement);
/// The same beside a line that carries its mark: what is in order is told in one breath.
[[nodiscard]] PageData quiet_findings_of(const ReportContext& context, std::size_t requirement);

/// A picture's words: "pan-1, 0:02–0:09, in the edit at 0:12".
[[nodiscard]] std::string caption_of(const SegmentPicture& picture);

}  // namespace panslate
