#include <utility>

#include "panslate/base/text.h"

#include "deliver/page_marks.h"
#include "deliver/report_context.h"

namespace panslate {

namespace {

constexpr std::size_t kLongestAmount = 40;
constexpr std::size_t kLongestStep = 3000;  // characters shown of one step

// "700 ml almond drink" is an amount and a rest; a line that starts with its food has no amount to mark.
std::pair<std::string, std::string> amount_and_rest(const Requirement& requirement,
                                                    const std::string& written) {
  if (requirement.amounts.empty() || requirement.name.empty()) return {{}, written};
  if (requirement.kind != RequirementKind::Ingredient && requirement.kind != RequirementKind::MethodAmount)
    return {written, {}};
  const auto name = written.find(collapse_spaces(requirement.name));
  if (name == std::string::npos || name == 0 || name > kLongestAmount) return {{}, written};
  return {std::string(trim(std::string_view(written).substr(0, name))), " " + written.substr(name)};
}

PageData line_data(const ReportContext& context, std::size_t index) {
  const auto& requirement = context.report.requirements[index];
  const auto& line = *context.line_of[index];
  PageData data;
  data.set("id", line_id(index));
  data.set("kind", std::string(kind_word(requirement.kind)));
  const bool attention = CheckReport::needs_attention(requirement);
  set_if(data, "card", attention ? card_id(index) : std::string{});
  const auto mark = line_mark(requirement);
  set_mark(data, mark);
  auto [amount, rest] = amount_and_rest(requirement, page_text(line.written));
  set_if(data, "amount", amount);
  data.set("rest", rest);
  data.set("findings", quiet_findings_of(context, index));
  set_if(data, "when", page_text(line.when, 120));
  set_flag(data, "play", false);
  const auto& mentions =
      requirement.said.mentions.empty() ? requirement.on_text.mentions : requirement.said.mentions;
  if (!mentions.empty()) context.film.set_play(data, mentions.front().when.begin, mentions.front().media);
  return data;
}

PageData lines_data(const ReportContext& context, const std::vector<std::size_t>& requirements) {
  PageData list(PageData::type::list);
  for (const auto r : requirements) list.push_back(line_data(context, r));
  return list;
}

// The step's words, with its times, temperatures and amounts marked where they stand.
PageData marked_step(const ReportContext& context, std::size_t s) {
  const auto text = page_text(context.recipe.steps[s].text, kLongestStep);
  PageData parts(PageData::type::list);
  const auto add = [&](const std::string& words, const PageMark* mark) {
    if (words.empty()) return;
    PageData part;
    part.set("words", words);
    set_flag(part, "marked", mark != nullptr);
    if (mark != nullptr) {
      set_mark(part, *mark);
      part.set("says", std::string(mark->words));
    }
    parts.push_back(part);
  };
  std::size_t from = 0;
  for (const auto r : context.lines_of_step[s]) {
    const auto& requirement = context.report.requirements[r];
    if (requirement.kind == RequirementKind::Cue) continue;
    const auto written = collapse_spaces(requirement.text);
    const auto at = written.empty() ? std::string::npos : text.find(written, from);
    if (at == std::string::npos) continue;
    const auto mark = line_mark(requirement);
    add(text.substr(from, at - from), nullptr);
    add(written, &mark);
    from = at + written.size();
  }
  add(text.substr(from), nullptr);
  return parts;
}

}  // namespace

PageData recipe_yields(const ReportContext& context) {
  return lines_data(context, context.yields);
}

PageData recipe_groups(const ReportContext& context) {
  PageData list(PageData::type::list);
  const auto& ingredients = context.recipe.ingredients;
  for (std::size_t begin = 0; begin < ingredients.size();) {
    auto end = begin;
    std::vector<std::size_t> requirements;
    for (; end < ingredients.size() && ingredients[end].group == ingredients[begin].group; ++end)
      requirements.insert(requirements.end(), context.line_of_ingredient[end].begin(),
                          context.line_of_ingredient[end].end());
    PageData data;
    set_if(data, "group", page_text(ingredients[begin].group, 200));
    data.set("lines", lines_data(context, requirements));
    list.push_back(data);
    begin = end;
  }
  return list;
}

PageData recipe_steps(const ReportContext& context) {
  PageData list(PageData::type::list);
  const std::string* part = nullptr;
  for (std::size_t s = 0; s < context.recipe.steps.size(); ++s) {
    const auto& step = context.recipe.steps[s];
    PageData data;
    const bool same_part = part != nullptr && *part == step.part;
    set_if(data, "part", same_part ? std::string{} : page_text(step.part, 200));
    part = &step.part;
    data.set("step_id", "step-" + std::to_string(s + 1));
    data.set("number", std::to_string(s + 1));
    data.set("parts", marked_step(context, s));
    set_flag(data, "own", false);
    if (!context.step_line[s].empty()) {
      const auto r = context.step_line[s].front();
      data.set("own", line_data(context, r));
    }
    set_list(data, "lines", lines_data(context, context.lines_of_step[s]));
    list.push_back(data);
  }
  return list;
}

}  // namespace panslate
