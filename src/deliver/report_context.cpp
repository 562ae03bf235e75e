#include "deliver/report_context.h"

#include <utility>

#include "panslate/base/text.h"

#include "deliver/page_marks.h"

namespace panslate {

ReportContext::ReportContext(const ReportPageInput& page_input)
    : input(page_input),
      report(*page_input.report),
      recipe(*page_input.recipe),
      digest(digest_of(report)),
      film(page_input.playable),
      spoken_words(page_input.said),
      line_of(report.requirements.size()),
      pickups_of(report.requirements.size()),
      lines_of_step(recipe.steps.size()),
      step_line(recipe.steps.size()),
      line_of_ingredient(recipe.ingredients.size()) {
  for (const auto* lines : {&digest.attention, &digest.in_order, &digest.not_needed})
    for (const auto& line : *lines) line_of[line.requirement] = &line;
  for (std::size_t p = 0; p < input.pickups->size(); ++p) {
    const auto r = (*input.pickups)[p].requirement;
    if (r < pickups_of.size()) pickups_of[r].push_back(p);
  }
  for (std::size_t r = 0; r < report.requirements.size(); ++r) {
    const auto& requirement = report.requirements[r];
    auto& home = requirement.kind == RequirementKind::Ingredient ? line_of_ingredient
                 : requirement.kind == RequirementKind::Step     ? step_line
                                                                 : lines_of_step;
    if (requirement.kind == RequirementKind::Yield)
      yields.push_back(r);
    else if (requirement.index < home.size())
      home[requirement.index].push_back(r);
  }
}

std::string line_id(std::size_t requirement) {
  return "l" + std::to_string(requirement);
}

std::string card_id(std::size_t requirement) {
  return "p" + std::to_string(requirement);
}

std::string home_of(const ReportContext& context, std::size_t requirement) {
  return CheckReport::needs_attention(context.report.requirements[requirement]) ? card_id(requirement)
                                                                                : line_id(requirement);
}

std::string_view kind_word(RequirementKind kind) {
  switch (kind) {
    case RequirementKind::Ingredient:
    case RequirementKind::MethodAmount:
      return "food";
    case RequirementKind::Temperature:
    case RequirementKind::Time:
      return "heat";
    case RequirementKind::Step:
      return "step";
    case RequirementKind::Yield:
    case RequirementKind::Cue:
      return "other";
  }
  return "other";
}

namespace {

constexpr std::string_view kOnPicture = "on the picture";

struct MarkedFinding {
  PageMark mark;
  std::string words;     ///< "on the picture: written differently: 4 tbsp"
  std::string in_short;  ///< where it is in order: "on the picture"
};

// Without what was not looked at, where something was; what is not on the picture need not be there.
std::vector<MarkedFinding> marked_findings(const ReportContext& context, std::size_t index) {
  const auto& requirement = context.report.requirements[index];
  const auto& line = *context.line_of[index];
  std::vector<MarkedFinding> findings;
  const auto add = [&](const PageMark& mark, const Finding& finding, std::string_view in_short) {
    auto words = (in_short == kOnPicture ? std::string(kOnPicture) + ": " : "") + std::string(mark.words);
    if (!finding.detail.empty()) words += ": " + page_text(finding.detail, 120);
    findings.push_back({mark, std::move(words), std::string(in_short)});
  };
  auto said = said_mark(requirement.said.verdict);
  if (!CheckReport::needs_attention(requirement) && said.css_class == "wrong") said.css_class = "none";
  add(said, line.said, "said");
  if (requirement.shown.verdict != ShownVerdict::NotChecked)
    add(shown_mark(requirement.shown.verdict), line.shown, "shown");
  if (requirement.on_text.verdict != Verdict::NotChecked && requirement.on_text.verdict != Verdict::Missing)
    add(on_picture_mark(requirement.on_text.verdict), line.on_picture, kOnPicture);
  return findings;
}

PageData finding_data(const PageMark& mark, const std::string& words, bool shaped) {
  PageData data;
  set_mark(data, mark);
  set_flag(data, "shaped", shaped);
  data.set("words", words);
  return data;
}

}  // namespace

PageData findings_of(const ReportContext& context, std::size_t requirement) {
  PageData list(PageData::type::list);
  for (const auto& finding : marked_findings(context, requirement))
    list.push_back(finding_data(finding.mark, finding.words, true));
  return list;
}

PageData quiet_findings_of(const ReportContext& context, std::size_t requirement) {
  std::vector<std::string> in_order;
  PageData others(PageData::type::list);
  const auto own = line_mark(context.report.requirements[requirement]);
  for (const auto& finding : marked_findings(context, requirement))
    if (finding.mark.css_class == "good")
      in_order.push_back(finding.in_short);
    else
      others.push_back(finding_data(finding.mark, finding.words, finding.mark.shape != own.shape));
  PageData list(PageData::type::list);
  if (!in_order.empty()) list.push_back(finding_data({"●", "none", {}}, join(in_order, " · "), false));
  for (const auto& other : others.list_value()) list.push_back(other);
  return list;
}

std::string caption_of(const SegmentPicture& picture) {
  auto out =
      page_text(picture.clip, 80) + ", " + spoken(picture.range.begin) + "–" + spoken(picture.range.end);
  if (picture.edit_begin) out += ", in the edit at " + spoken(*picture.edit_begin);
  return out;
}

}  // namespace panslate
