#include "panslate/deliver/report_page.h"

#include <array>
#include <utility>

#include "panslate/base/text.h"

#include "deliver/page_marks.h"
#include "deliver/report_context.h"
#include "embedded/page_css.h"
#include "embedded/report_css.h"
#include "embedded/report_js.h"
#include "embedded/report_line_mustache.h"
#include "embedded/report_mustache.h"
#include "embedded/report_play_mustache.h"

namespace panslate {

namespace {

std::string facts(const ReportContext& context) {
  std::vector<std::string> parts;
  for (const auto& yield : context.recipe.yields) parts.push_back(page_text(yield.text, 120));
  if (context.report.duration) parts.push_back("film of " + spoken(*context.report.duration) + " min");
  return join(parts, " · ");
}

// How many lines stand how: the legend of the marks as well.
PageData tally(const ReportContext& context) {
  std::array<std::size_t, 6> counts{};
  static constexpr std::array kOrder{Verdict::Differs, Verdict::NoAmount, Verdict::Missing,
                                     Verdict::Unsure,  Verdict::Match,    Verdict::NotChecked};
  for (const auto& requirement : context.report.requirements)
    ++counts.at(static_cast<std::size_t>(requirement.said.verdict));
  PageData list(PageData::type::list);
  for (const auto verdict : kOrder) {
    const auto count = counts.at(static_cast<std::size_t>(verdict));
    if (count == 0) continue;
    const auto mark = said_mark(verdict);
    PageData data;
    set_mark(data, mark);
    data.set("count", std::to_string(count));
    data.set("words", std::string(mark.words));
    list.push_back(data);
  }
  return list;
}

PageData changes_data(const std::vector<ReportChange>& changes) {
  PageData list(PageData::type::list);
  for (const auto& change : changes) {
    PageData data;
    data.set("what", page_text(change.what));
    set_if(data, "before", page_text(change.before));
    set_if(data, "after", page_text(change.after));
    list.push_back(data);
  }
  return list;
}

PageData extras(const ReportContext& context) {
  PageData list(PageData::type::list);
  for (const auto& extra : context.report.extras) {
    PageData data;
    data.set("when", spoken(extra.when.begin));
    data.set("text", page_text(extra.text));
    set_if(data, "name", page_text(extra.name, 120));
    list.push_back(data);
  }
  return list;
}

PageData corrections(const ReportContext& context) {
  PageData list(PageData::type::list);
  for (const auto& correction : context.report.corrections) {
    PageData data;
    data.set("when", spoken(correction.when.begin));
    data.set("heard", page_text(correction.heard));
    data.set("meant", page_text(correction.meant));
    set_flag(data, "sure", correction.sure);
    context.film.set_play(data, correction.when.begin, correction.media);
    list.push_back(data);
  }
  return list;
}

PageData warnings(const ReportContext& context) {
  PageData list(PageData::type::list);
  for (const auto level : {WarningLevel::Warning, WarningLevel::Note})
    for (const auto& warning : context.report.warnings) {
      if (warning.level != level) continue;
      std::vector<std::string> where;
      if (warning.line) where.push_back("line " + std::to_string(*warning.line) + " of the recipe");
      if (warning.at) where.push_back("at " + spoken(*warning.at));
      PageData data;
      const bool strong = level == WarningLevel::Warning;
      data.set("level", std::string(strong ? "warning" : "note"));
      set_flag(data, "strong", strong);
      data.set("message", page_text(warning.message, 2000));
      set_if(data, "where", join(where, ", "));
      list.push_back(data);
    }
  return list;
}

PageData partial(std::string_view text) {
  return PageData(kainjow::mustache::partial([text] { return std::string(text); }));
}

}  // namespace

std::string report_page(const ReportPageInput& input) {
  const ReportContext context(input);
  PageStills stills;
  PageData page;
  page.set("css", std::string(embedded::page_css) + std::string(embedded::report_css));
  page.set("script", std::string(embedded::report_js));
  page.set("script_hash", std::string(PANSLATE_REPORT_SCRIPT_HASH));
  const auto file = page_text(context.recipe.file.filename().string(), 200);
  page.set("title", context.recipe.title.empty() ? file : page_text(context.recipe.title, 300));
  page.set("file", file);
  page.set("summary", context.digest.summary);
  set_flag(page, "all_good", !context.report.wants_attention());
  set_if(page, "facts", facts(context));
  set_if(page, "looked_in", page_text(input.looked_in));
  set_if(page, "film", context.film.url());
  set_list(page, "tally", tally(context));
  set_list(page, "decide_again", changes_data(input.decide_again));
  set_list(page, "changes", changes_data(input.changes));
  page.set("changes_count", count_in_words(input.changes.size(), "line reads", "lines read"));
  set_list(page, "faults", problem_cards(context, stills));
  set_list(page, "yields", recipe_yields(context));
  set_list(page, "groups", recipe_groups(context));
  set_list(page, "steps", recipe_steps(context));
  set_list(page, "strips", film_strips(context));
  set_pickup_sections(page, context);
  set_list(page, "filmed", filmed_steps(context, stills));
  set_list(page, "extras", extras(context));
  set_list(page, "corrections", corrections(context));
  set_list(page, "warnings", warnings(context));
  set_list(page, "carried", stills.carried());
  set_if(page, "left_out",
         stills.left_out() == 0 ? std::string{} : count_in_words(stills.left_out(), "picture", "pictures"));
  page.set("line", partial(embedded::report_line_mustache));
  page.set("play_from", partial(embedded::report_play_mustache));
  return fill_template(embedded::report_mustache, page);
}

}  // namespace panslate
