#include "panslate/deliver/report_page.h"

#include <algorithm>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/pickup_words.h"
#include "panslate/deliver/plain_text.h"

#include "deliver/data_uri.h"
#include "deliver/page_template.h"
#include "embedded/page_css.h"
#include "embedded/report_line_mustache.h"
#include "embedded/report_mustache.h"

namespace panslate {

namespace {

constexpr std::size_t kAltLength = 90;  // characters: a screen reader says all of it

struct Mark {
  const char* shape;
  const char* css_class;
};

// Told by shape as well as by colour, and always beside words.
Mark mark_of(Standing standing) {
  switch (standing) {
    case Standing::Good:
      return {"●", "good"};
    case Standing::Doubtful:
      return {"◆", "doubt"};
    case Standing::Wrong:
      return {"▲", "wrong"};
    case Standing::Absent:
    case Standing::NotLooked:
      return {"○", "none"};
  }
  return {"○", "none"};
}

std::string spoken(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Spoken, Round::Down);
}

void set_if(PageData& data, const std::string& name, const std::string& text) {
  if (text.empty())
    data.set(name, PageData(PageData::type::bool_false));
  else
    data.set(name, text);
}

PageData finding_data(const std::string& label, const Finding& finding) {
  const auto mark = mark_of(finding.standing);
  PageData data;
  data.set("label", label);
  data.set("words", finding.words);
  data.set("mark", std::string(mark.shape));
  data.set("class", std::string(mark.css_class));
  set_if(data, "detail", finding.detail);
  return data;
}

void set_still(PageData& data, const std::optional<Still>& still, const std::string& alt,
               const std::string& caption) {
  data.set("caption", caption);
  if (!still || still->jpeg.empty()) {
    data.set("uri", PageData(PageData::type::bool_false));
    return;
  }
  data.set("uri", jpeg_data_uri(still->jpeg));
  data.set("width", std::to_string(still->width));
  data.set("height", std::to_string(still->height));
  data.set("alt", alt);
}

class ReportPage {
 public:
  explicit ReportPage(const ReportPageInput& input)
      : input_(input), report_(*input.report), recipe_(*input.recipe), digest_(digest_of(report_)) {}

  std::string make() {
    PageData page;
    page.set("css", std::string(embedded::page_css));
    page.set("title",
             recipe_.title.empty() ? recipe_.file.filename().string() : collapse_spaces(recipe_.title));
    page.set("file", recipe_.file.filename().string());
    page.set("summary", digest_.summary);
    page.set("all_good",
             PageData(report_.wants_attention() ? PageData::type::bool_false : PageData::type::bool_true));
    set_if(page, "facts", facts());
    set_list(page, "faults", faults());
    set_list(page, "yields", lines_of([](const Requirement& r) { return r.kind == RequirementKind::Yield; }));
    set_list(page, "groups", groups());
    set_list(page, "steps", steps());
    set_list(page, "pickups", pickups(std::nullopt));
    set_list(page, "extras", extras());
    set_list(page, "corrections", corrections());
    set_list(page, "warnings", warnings());
    set_list(page, "loose_stills",
             stills([](const SegmentPicture& picture) { return picture.steps.empty(); }));
    std::string line(embedded::report_line_mustache);
    page.set("line", PageData(kainjow::mustache::partial([line] { return std::string(line); })));
    return fill_template(embedded::report_mustache, page);
  }

 private:
  [[nodiscard]] std::string facts() const {
    std::vector<std::string> parts;
    for (const auto& yield : recipe_.yields) parts.push_back(collapse_spaces(yield.text));
    if (report_.duration) parts.push_back("film of " + spoken(*report_.duration) + " min");
    return join(parts, " · ");
  }

  [[nodiscard]] PageData faults() const {
    PageData list(PageData::type::list);
    for (const auto& line : digest_.attention) {
      PageData data;
      data.set("written", line.written);
      PageData findings(PageData::type::list);
      findings.push_back(finding_data("said", line.said));
      findings.push_back(finding_data("shown", line.shown));
      findings.push_back(finding_data("on the picture", line.on_picture));
      data.set("findings", findings);
      set_if(data, "when", line.when);
      set_if(data, "heard", line.heard);
      set_if(data, "why", line.why);
      set_list(data, "jobs", pickups(line.requirement));
      data.set("still", still_for(line));
      list.push_back(data);
    }
    return list;
  }

  // The moment itself where the film was given whole, else a part of a clip that films its step.
  [[nodiscard]] PageData still_for(const CheckLine& line) const {
    PageData data;
    const auto moment = input_.moments.find(line.requirement);
    if (moment != input_.moments.end() && !moment->second.jpeg.empty()) {
      const auto time = spoken(moment->second.time);
      set_still(data, moment->second, "The film at " + time, "The film at " + time);
      return data;
    }
    const auto& requirement = report_.requirements[line.requirement];
    for (const auto& picture : input_.segments) {
      if (!picture.still || picture.still->jpeg.empty() || !belongs(requirement, picture)) continue;
      set_still(data, picture.still, alt_of(picture), caption_of(picture));
      return data;
    }
    return PageData(PageData::type::bool_false);
  }

  [[nodiscard]] bool belongs(const Requirement& requirement, const SegmentPicture& picture) const {
    const auto& named = requirement.shown.segments;
    if (!named.empty()) return std::find(named.begin(), named.end(), picture.id) != named.end();
    const auto films = [&](std::size_t step) {
      return std::find(picture.steps.begin(), picture.steps.end(), step) != picture.steps.end();
    };
    if (requirement.kind == RequirementKind::Yield) return false;
    if (requirement.kind != RequirementKind::Ingredient) return films(requirement.index);
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) {
      const auto& uses = recipe_.steps[s].uses;
      if (films(s) && std::find(uses.begin(), uses.end(), requirement.index) != uses.end()) return true;
    }
    return false;
  }

  [[nodiscard]] PageData line_data(std::size_t index) const {
    const auto find = [&](const std::vector<CheckLine>& lines) {
      return std::find_if(lines.begin(), lines.end(),
                          [&](const CheckLine& line) { return line.requirement == index; });
    };
    auto line = find(digest_.in_order);
    auto standing = Standing::Good;
    if (line == digest_.in_order.end()) {
      line = find(digest_.attention);
      standing = Standing::Wrong;
      if (line == digest_.attention.end()) {
        line = find(digest_.not_needed);
        standing = Standing::NotLooked;
      }
    }
    const auto mark = mark_of(standing);
    PageData data;
    data.set("written", line->written);
    data.set("mark", std::string(mark.shape));
    data.set("class", std::string(mark.css_class));
    data.set("state", state_of(*line));
    return data;
  }

  static std::string state_of(const CheckLine& line) {
    std::vector<std::string> parts{line.said.words};
    if (!line.said.detail.empty()) parts.back() += ": " + line.said.detail;
    if (!line.when.empty()) parts.back() += (line.when.starts_with("about") ? " " : " at ") + line.when;
    if (line.shown.standing != Standing::NotLooked) parts.push_back(line.shown.words);
    if (line.on_picture.standing != Standing::NotLooked && line.on_picture.standing != Standing::Absent)
      parts.push_back("on the picture " + line.on_picture.words +
                      (line.on_picture.detail.empty() ? "" : ": " + line.on_picture.detail));
    return join(parts, " · ");
  }

  template <class Wanted>
  [[nodiscard]] PageData lines_of(const Wanted& wanted) const {
    PageData list(PageData::type::list);
    for (std::size_t i = 0; i < report_.requirements.size(); ++i)
      if (wanted(report_.requirements[i])) list.push_back(line_data(i));
    return list;
  }

  [[nodiscard]] PageData groups() const {
    PageData list(PageData::type::list);
    for (std::size_t begin = 0; begin < recipe_.ingredients.size();) {
      auto end = begin;
      const auto& group = recipe_.ingredients[begin].group;
      while (end < recipe_.ingredients.size() && recipe_.ingredients[end].group == group) ++end;
      PageData data;
      set_if(data, "group", collapse_spaces(group));
      data.set("lines", lines_of([&](const Requirement& requirement) {
                 return requirement.kind == RequirementKind::Ingredient && requirement.index >= begin &&
                        requirement.index < end;
               }));
      list.push_back(data);
      begin = end;
    }
    return list;
  }

  [[nodiscard]] PageData steps() const {
    PageData list(PageData::type::list);
    std::string part;
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) {
      const auto& step = recipe_.steps[s];
      PageData data;
      set_if(data, "part", step.part == part ? std::string{} : collapse_spaces(step.part));
      part = step.part;
      data.set("number", std::to_string(s + 1));
      set_step_state(data, s);
      data.set("text", collapse_spaces(step.text));
      set_list(data, "lines", lines_of([&](const Requirement& requirement) {
                 return requirement.kind != RequirementKind::Ingredient &&
                        requirement.kind != RequirementKind::Yield &&
                        requirement.kind != RequirementKind::Step && requirement.index == s;
               }));
      set_list(data, "stills", stills([&](const SegmentPicture& picture) {
                 return std::find(picture.steps.begin(), picture.steps.end(), s) != picture.steps.end();
               }));
      list.push_back(data);
    }
    return list;
  }

  // The step's own line stands in the list already; its state goes beside it.
  void set_step_state(PageData& data, std::size_t s) const {
    data.set("mark", PageData(PageData::type::bool_false));
    data.set("state", PageData(PageData::type::bool_false));
    for (std::size_t i = 0; i < report_.requirements.size(); ++i) {
      const auto& requirement = report_.requirements[i];
      if (requirement.kind != RequirementKind::Step || requirement.index != s) continue;
      const auto line = line_data(i);
      for (const auto* name : {"mark", "class", "state"}) data.set(name, *line.get(name));
      return;
    }
  }

  template <class Wanted>
  [[nodiscard]] PageData stills(const Wanted& wanted) const {
    PageData list(PageData::type::list);
    for (const auto& picture : input_.segments) {
      if (!wanted(picture)) continue;
      PageData data;
      set_still(data, picture.still, alt_of(picture), caption_of(picture));
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] std::string alt_of(const SegmentPicture& picture) const {
    std::string out = "Still from " + picture.clip;
    if (!picture.steps.empty() && picture.steps.front() < recipe_.steps.size())
      out += ": " + shortened(collapse_spaces(recipe_.steps[picture.steps.front()].text), kAltLength);
    return out;
  }

  static std::string caption_of(const SegmentPicture& picture) {
    auto out = picture.clip + ", " + spoken(picture.range.begin) + "–" + spoken(picture.range.end);
    if (picture.edit_begin) out += ", in the edit at " + spoken(*picture.edit_begin);
    return out;
  }

  [[nodiscard]] PageData pickups(std::optional<std::size_t> of_requirement) const {
    PageData list(PageData::type::list);
    for (const auto& pickup : *input_.pickups) {
      if (of_requirement && pickup.requirement != *of_requirement) continue;
      PageData data;
      set_if(data, "place", pickup_place(pickup, clock_naming(*input_.pickups)));
      data.set("what", collapse_spaces(pickup.what));
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] PageData extras() const {
    PageData list(PageData::type::list);
    for (const auto& extra : report_.extras) {
      PageData data;
      data.set("when", spoken(extra.when.begin));
      data.set("text", collapse_spaces(extra.text));
      set_if(data, "name", extra.name);
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] PageData corrections() const {
    PageData list(PageData::type::list);
    for (const auto& correction : report_.corrections) {
      PageData data;
      data.set("when", spoken(correction.when.begin));
      data.set("heard", collapse_spaces(correction.heard));
      data.set("meant", correction.meant);
      data.set("sure", PageData(correction.sure ? PageData::type::bool_true : PageData::type::bool_false));
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] PageData warnings() const {
    PageData list(PageData::type::list);
    for (const auto level : {WarningLevel::Warning, WarningLevel::Note})
      for (const auto& warning : report_.warnings) {
        if (warning.level != level) continue;
        std::vector<std::string> where;
        if (warning.line) where.push_back("line " + std::to_string(*warning.line) + " of the recipe");
        if (warning.at) where.push_back("at " + spoken(*warning.at));
        PageData data;
        const bool strong = level == WarningLevel::Warning;
        data.set("level", std::string(strong ? "warning" : "note"));
        data.set("strong", PageData(strong ? PageData::type::bool_true : PageData::type::bool_false));
        data.set("message", collapse_spaces(warning.message));
        set_if(data, "where", join(where, ", "));
        list.push_back(data);
      }
    return list;
  }

  const ReportPageInput& input_;
  const CheckReport& report_;
  const Recipe& recipe_;
  CheckDigest digest_;
};

}  // namespace

std::string report_page(const ReportPageInput& input) {
  return ReportPage(input).make();
}

}  // namespace panslate
