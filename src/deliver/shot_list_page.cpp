#include <optional>

#include "panslate/base/text.h"
#include "panslate/deliver/shot_list_files.h"

#include "deliver/page_template.h"
#include "deliver/shot_words.h"
#include "embedded/page_css.h"
#include "embedded/shot_list_css.h"
#include "embedded/shot_list_mustache.h"

namespace panslate {

namespace {

PageData flag(bool value) {
  return PageData(value ? PageData::type::bool_true : PageData::type::bool_false);
}

PageData text_or_nothing(const std::string& text) {
  return text.empty() ? flag(false) : PageData(text);
}

PageData shot_data(const Shot& shot, const Project* project) {
  PageData data;
  data.set("number", shot.number);
  data.set("framing", framing_words(shot));
  data.set("subject", collapse_spaces(shot.subject));
  const bool is_insert = shot.shows.size() == 1 && shot.shows.front() == shot.subject;
  data.set("shows", text_or_nothing(is_insert ? std::string{} : join(shot.shows, "; ")));
  data.set("line", text_or_nothing(collapse_spaces(shot.line)));
  data.set("length", length_words(shot));
  data.set("once", flag(!shot.repeatable));
  data.set("filmed", flag(!shot.covered_by.empty()));
  data.set("where", filmed_words(shot, project));
  return data;
}

}  // namespace

std::string shot_list_page(const ShotList& list, const Recipe& recipe, const Project* project) {
  PageData page;
  page.set("css", std::string(embedded::page_css) + std::string(embedded::shot_list_css));
  page.set("title", recipe.title.empty() ? recipe.file.filename().string() : collapse_spaces(recipe.title));
  page.set("file", recipe.file.filename().string());
  page.set("summary", shot_list_summary(list));
  PageData steps(PageData::type::list);
  for (std::size_t i = 0; i < list.shots.size();) {
    const auto& first = list.shots[i];
    const bool beauty = first.framing == Framing::Beauty;
    PageData shots(PageData::type::list);
    auto end = i;
    for (; end < list.shots.size() && list.shots[end].step == first.step &&
           (list.shots[end].framing == Framing::Beauty) == beauty;
         ++end)
      shots.push_back(shot_data(list.shots[end], project));
    const auto number = beauty ? 0 : step_number(first, recipe);
    PageData step;
    step.set("number", text_or_nothing(number > 0 ? std::to_string(number) : std::string{}));
    step.set("part",
             text_or_nothing(number > 0 ? collapse_spaces(recipe.steps[first.step].part) : std::string{}));
    step.set("text", number > 0 ? collapse_spaces(recipe.steps[first.step].text)
                                : std::string(beauty ? "At the end" : "The ingredients"));
    step.set("shots", shots);
    steps.push_back(step);
    i = end;
  }
  set_list(page, "steps", steps);
  return fill_template(embedded::shot_list_mustache, page);
}

}  // namespace panslate
