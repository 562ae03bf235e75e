#include "panslate/deliver/read_page.h"

#include <algorithm>
#include <map>
#include <set>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/deliver/read_words.h"

#include "deliver/page_marks.h"
#include "deliver/page_template.h"
#include "embedded/page_css.h"
#include "embedded/read_css.h"
#include "embedded/read_mustache.h"

namespace panslate {

namespace {

constexpr std::size_t kLongestLine = 4000;  // characters shown of one line

PageMark mark_of(ReadLevel level) {
  switch (level) {
    case ReadLevel::Error:
      return {"✕", "wrong", level_words(level)};
    case ReadLevel::Warning:
      return {"△", "doubt", level_words(level)};
    case ReadLevel::Note:
      return {"○", "none", level_words(level)};
  }
  return {"○", "none", "note"};
}

PageData finding_data(const ReadFinding& finding) {
  const auto mark = mark_of(finding.level);
  PageData data;
  data.set("class", std::string(mark.css_class));
  data.set("shape", std::string(mark.shape));
  data.set("level", std::string(mark.words));
  data.set("message", page_text(finding.message));
  set_if(data, "advice", page_text(finding.advice));
  set_if(data, "source", page_text(finding.source));
  return data;
}

// A line of the page: the recipe's own, or of a recipe set anew.
struct PageLine {
  int number = 0;
  std::string text;
  std::string kind;  // "title", "heading", "ingredient", "step", "gap"; empty for others
};

// Without the marks of Markdown that only shape it.
std::string shown_line(std::string_view line, std::string_view kind) {
  auto text = trim(line);
  if (kind == "title" || kind == "heading" || kind == "ingredient") {
    while (!text.empty() && std::string_view("#*->_ ").find(text.front()) != std::string_view::npos)
      text.remove_prefix(1);
    while (!text.empty() && std::string_view("#*_ ").find(text.back()) != std::string_view::npos)
      text.remove_suffix(1);
  }
  std::string out(text);
  for (auto at = out.find("**"); at != std::string::npos; at = out.find("**")) out.erase(at, 2);
  return page_text(out, kLongestLine);
}

std::vector<PageLine> lines_of_source(const Recipe& recipe, std::string_view source) {
  std::map<int, std::string> kinds;
  if (recipe.title_line > 0) kinds[recipe.title_line] = "title";
  std::set<std::string> headings;  // groups and parts, folded
  for (const auto& ingredient : recipe.ingredients) {
    kinds[ingredient.line] = "ingredient";
    headings.insert(fold_case(ingredient.group));
  }
  for (const auto& step : recipe.steps) {
    kinds[step.line] = "step";
    for (const auto& run : step.runs) kinds[run.line] = "step";
  }
  std::vector<PageLine> lines;
  int number = 0;
  for (const auto& line : split_lines(source)) {
    PageLine one;
    one.number = ++number;
    const auto text = trim(line.text);
    if (const auto kind = kinds.find(number); kind != kinds.end())
      one.kind = kind->second;
    else if (text.empty())
      one.kind = "gap";
    else if (text.front() == '#' || (text.ends_with(':') && text.size() < 60) ||
             (text.starts_with("**") && text.ends_with("**")) ||
             headings.contains(fold_case(shown_line(text, "heading"))))
      one.kind = "heading";
    one.text = shown_line(text, one.kind);
    const bool second_gap = one.kind == "gap" && !lines.empty() && lines.back().kind == "gap";
    if (!second_gap) lines.push_back(std::move(one));
  }
  return lines;
}

// Findings without a line belong to the recipe as a whole, at its top.
std::vector<PageLine> lines_set_anew(const Recipe& recipe) {
  std::vector<PageLine> lines{{0, page_text(recipe.title), "title"}};
  for (const auto& yield : recipe.yields) lines.push_back({0, page_text(yield.text), {}});
  lines.push_back({0, "Ingredients", "heading"});
  std::string group;
  for (const auto& ingredient : recipe.ingredients) {
    if (ingredient.group != group && !ingredient.group.empty())
      lines.push_back({0, page_text(ingredient.group), "heading"});
    group = ingredient.group;
    lines.push_back({0, page_text(ingredient.text), "ingredient"});
  }
  lines.push_back({0, "Method", "heading"});
  for (const auto& step : recipe.steps)
    lines.push_back({0, std::to_string(step.number) + ". " + page_text(step.text, kLongestLine), "step"});
  return lines;
}

PageData lines_data(const RecipeReading& reading, const Recipe& recipe, std::string_view source) {
  const bool placed = std::any_of(recipe.ingredients.begin(), recipe.ingredients.end(),
                                  [](const Ingredient& ingredient) { return ingredient.line > 0; });
  const auto lines = placed ? lines_of_source(recipe, source) : lines_set_anew(recipe);
  std::map<int, std::vector<const ReadFinding*>> by_line;
  std::set<int> shown;
  for (const auto& line : lines) shown.insert(line.number);
  for (const auto& finding : reading.findings)
    by_line[shown.contains(finding.line) ? finding.line : lines.front().number].push_back(&finding);
  PageData list(PageData::type::list);
  for (const auto& line : lines) {
    PageData data;
    set_if(data, "number", line.number > 0 ? std::to_string(line.number) : std::string{});
    set_if(data, "kind", line.kind);
    data.set("text", line.text);
    PageData findings(PageData::type::list);
    bool marked = false;
    if (auto found = by_line.find(line.number); found != by_line.end()) {
      for (const auto* finding : found->second) {
        findings.push_back(finding_data(*finding));
        marked = marked || finding->level != ReadLevel::Note;
      }
      by_line.erase(found);
    }
    set_flag(data, "marked", marked);
    set_list(data, "findings", findings);
    list.push_back(data);
  }
  return list;
}

PageData allergens_data(const RecipeReading& reading, const Recipe& recipe) {
  PageData list(PageData::type::list);
  for (const auto& words : allergen_words(reading, recipe)) {
    PageData data;
    data.set("name", words.name);
    data.set("lists", words.lists);
    set_if(data, "holds", page_text(words.holds, kLongestLine));
    set_if(data, "labels", page_text(words.labels, kLongestLine));
    list.push_back(data);
  }
  return list;
}

PageData scaled_data(const RecipeReading& reading, const Recipe& recipe) {
  PageData list(PageData::type::list);
  for (const auto& words : scaled_words(reading, recipe)) {
    PageData data;
    data.set("line", page_text(words.line));
    data.set("before", page_text(words.before));
    set_if(data, "remark", page_text(words.remark));
    list.push_back(data);
  }
  return list;
}

PageData servings_data(const RecipeReading& reading, const Recipe& recipe) {
  PageData list(PageData::type::list);
  for (const auto& serving : reading.per_serving) {
    PageData data;
    const bool over = serving.within && !*serving.within;
    data.set("class", over ? "wrong" : "in");
    data.set("name", page_text(recipe.ingredients[serving.ingredient].name));
    data.set("amount", to_text(serving.amount) + (over ? " ✕ over" : ""));
    data.set("limit", serving.limit ? to_text(*serving.limit) : std::string("–"));
    data.set("checked", page_text(serving.checked.empty() ? "–" : serving.checked, 60));
    list.push_back(data);
  }
  return list;
}

}  // namespace

std::string read_page(const RecipeReading& reading, const Recipe& recipe, std::string_view source) {
  PageData page;
  page.set("css", std::string(embedded::page_css) + std::string(embedded::read_css));
  page.set("title", recipe.title.empty() ? recipe.file.filename().string() : page_text(recipe.title));
  page.set("file", recipe.file.filename().string());
  page.set("summary", reading_summary(reading));
  page.set("caution", std::string(reading_caution()));
  set_flag(page, "good", !reading.wants_attention());
  page.set("lines", lines_data(reading, recipe, source));
  set_list(page, "allergens", allergens_data(reading, recipe));
  set_list(page, "scaled", scaled_data(reading, recipe));
  set_list(page, "servings", servings_data(reading, recipe));
  set_flag(page, "limited",
           std::any_of(reading.per_serving.begin(), reading.per_serving.end(),
                       [](const PerServing& serving) { return serving.limit.has_value(); }));
  if (reading.scaled) {
    Amount to;
    to.value = reading.scaled->to;
    page.set("to", to_text(to));
    PageData remarks(PageData::type::list);
    for (const auto& remark : reading.scaled->remarks) {
      PageData data;
      data.set("remark", page_text(remark));
      remarks.push_back(data);
    }
    page.set("remarks", remarks);
  }
  return fill_template(embedded::read_mustache, page);
}

}  // namespace panslate
