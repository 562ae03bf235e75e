#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/recipe/recipe.h"

#include "recipe/front_matter.h"
#include "recipe/heading_words.h"
#include "recipe/json_ld.h"
#include "recipe/markup.h"
#include "recipe/recipe_keys.h"
#include "recipe/sections.h"
#include "recipe/source_lines.h"
#include "recipe/step_uses.h"
#include "recipe/table_row.h"
#include "recipe/web_page.h"
#include "recipe/yield.h"

namespace panslate {

namespace {

using std::filesystem::path;

// Lines and columns of byte offsets, asked in any order.
class Places {
 public:
  explicit Places(std::string_view text) : text_(text), lines_(split_lines(text)) {}

  [[nodiscard]] int line(std::size_t offset) const { return static_cast<int>(index(offset)) + 1; }

  // Counts on from the last answer where it can: a line may be very long and be asked often.
  [[nodiscard]] int column(std::size_t offset) {
    const auto start = lines_[index(offset)].offset;
    if (counted_ < start || counted_ > offset) {
      counted_ = start;
      column_ = 1;
    }
    column_ += static_cast<int>(character_count(text_.substr(counted_, offset - counted_)));
    counted_ = offset;
    return column_;
  }

 private:
  std::size_t index(std::size_t offset) const {
    const auto after = std::upper_bound(lines_.begin(), lines_.end(), offset,
                                        [](std::size_t o, const TextLine& l) { return o < l.offset; });
    return after == lines_.begin() ? 0 : static_cast<std::size_t>(after - lines_.begin()) - 1;
  }

  std::string_view text_;
  std::vector<TextLine> lines_;
  std::size_t counted_ = 0;
  int column_ = 1;
};

// A step's own columns turned into lines and columns of the file.
class StepPlaces {
 public:
  StepPlaces(const PlainText& body, Places& places) : places_(places) {
    for (std::size_t at = 0; at < body.text.size(); at = code_point_at(body.text, at).next)
      offsets_.push_back(body.origin[at]);
  }

  template <class Found>
  void settle(std::vector<Found>& all) const {
    for (auto& one : all) {
      const auto offset = offsets_[std::min(static_cast<std::size_t>(one.column), offsets_.size()) - 1];
      one.line = places_.line(offset);
      one.column = places_.column(offset);
    }
  }

  // Bytes that follow each other in the file are one stretch.
  static std::vector<TextRun> runs(const PlainText& body, Places& places) {
    std::vector<TextRun> found;
    for (std::size_t at = 0; at < body.origin.size(); ++at)
      if (at == 0 || body.origin[at] != body.origin[at - 1] + 1)
        found.push_back({at, places.line(body.origin[at]), places.column(body.origin[at])});
    return found;
  }

 private:
  Places& places_;
  std::vector<std::size_t> offsets_;
};

// Bytes that no text has: a picture, a film, a word processor's file.
// Captions given in the recipe's place would read as a list of odd lines.
std::optional<Error> refuse_captions(std::string_view text, const path& file) {
  int line = 0;
  for (const auto& one : split_lines(text)) {
    ++line;
    const auto arrow = one.text.find("-->");
    if (arrow == std::string_view::npos || arrow == 0 || one.text.find(':') > arrow) continue;
    const auto from = trim(one.text.substr(0, arrow));
    if (!parse_timestamp(from)) continue;
    return Error{ErrorCode::Malformed, "these are captions, not a recipe", Place{file, line, 1},
                 "name the written recipe here, and the captions after --captions"};
  }
  return std::nullopt;
}

std::optional<Error> refuse_binary(std::string_view text, const path& file) {
  constexpr std::size_t kLooked = 65536;
  const auto head = text.substr(0, kLooked);
  std::size_t broken = 0, first = std::string_view::npos;
  for (std::size_t at = 0; at < head.size();) {
    const auto [value, next] = code_point_at(head, at);
    const bool control = value < 0x20 && value != U'\n' && value != U'\r' && value != U'\t' && value != U'\f';
    if (control || value == 0xFFFD) {
      first = std::min(first, at);
      ++broken;
    }
    at = next;
  }
  if (broken < 4 || broken * 50 < head.size()) return std::nullopt;
  const auto place = line_column_of(text, first);
  return Error{
      ErrorCode::Malformed, "this is no text", Place{file, place.line, place.column},
      "give the recipe as plain text or Markdown; a document of a word processor can be saved as one"};
}

void take_front_matter(const FrontMatter& matter, Recipe& recipe) {
  for (const auto& entry : matter.entries) {
    const auto& key = entry.key;
    const auto told = recipe.yields.size() + recipe.stated_times.size();
    if (key == "title" || key == "name") {
      recipe.title = entry.value;
      recipe.title_line = entry.line;
    } else if (key == "servings" || key == "serves" || key == "portions" || key == "yield" ||
               key == "yields" || key == "makes" || key == "recipeyield") {
      const auto words = key == "recipeyield" ? "yield" : key;
      add_yields(yields_in(words + ": " + entry.value, entry.line), recipe.yields);
    } else if (key == "tags" || key == "keywords" || key == "categories" || key == "diet" || key == "diets") {
      for (const auto& tag : entry.list) recipe.tags.push_back({entry.line, tag});
      if (!entry.value.empty()) recipe.tags.push_back({entry.line, entry.value});
    } else if (key == "description" || key == "summary" || key == "subtitle") {
      recipe.introduction.push_back({entry.line, entry.value});
    } else if (key.find("time") != std::string::npos || key == "prep" || key == "cook" || key == "total") {
      for (auto& time : stated_times_in(key + ": " + entry.value, entry.line))
        recipe.stated_times.push_back(std::move(time));
    }
    if (recipe.yields.size() + recipe.stated_times.size() > told)
      recipe.header_lines.push_back({entry.line, key + ": " + entry.value});
  }
}

void take_header(const std::vector<OtherText>& header, Recipe& recipe) {
  for (const auto& line : header) {
    auto yields = yields_in(line.text, line.line);
    auto times = stated_times_in(line.text, line.line);
    constexpr std::size_t kProse = 60;  // bytes: a sentence that tells a yield in passing
    const bool told = !yields.empty() || !times.empty();
    if (!line.heading && (!told || line.text.size() > kProse))
      recipe.introduction.push_back({line.line, line.text});
    if (told) recipe.header_lines.push_back({line.line, line.text});
    add_yields(std::move(yields), recipe.yields);
    std::move(times.begin(), times.end(), std::back_inserter(recipe.stated_times));
  }
}

void take_ingredients(const std::vector<IngredientText>& texts, Places& places, Recipe& recipe) {
  for (const auto& text : texts) {
    auto ingredient = read_ingredient_line(text.body.text);
    if (text.body.text.find('|') != std::string::npos) ingredient.text = row_as_line(text.body.text);
    if (ingredient.text.empty()) continue;  // a bullet of marks alone
    ingredient.line = text.line;
    ingredient.column = text.body.origin.empty() ? 1 : places.column(text.body.origin.front());
    ingredient.group = text.group;
    ingredient.optional = ingredient.optional || text.optional;
    recipe.ingredients.push_back(std::move(ingredient));
  }
}

void take_steps(const std::vector<StepText>& texts, Places& places, Recipe& recipe) {
  for (const auto& text : texts) {
    if (text.body.text.empty()) continue;
    Step step;
    step.number = static_cast<int>(recipe.steps.size()) + 1;
    step.line = text.line;
    step.text = text.body.text;
    step.part = text.part;
    read_method_text(step);
    const StepPlaces settle(text.body, places);
    settle.settle(step.times);
    settle.settle(step.temperatures);
    settle.settle(step.amounts);
    step.runs = StepPlaces::runs(text.body, places);
    recipe.steps.push_back(std::move(step));
  }
}

// "Simmer for 45 minutes." … "After 45 minutes, add the peas": one duration, told twice.
void drop_retold_times(Recipe& recipe) {
  constexpr std::size_t kRemembered = 3;
  std::vector<Amount> before;
  for (auto& step : recipe.steps) {
    std::vector<MethodTime> kept;
    for (auto& time : step.times) {
      const bool retold =
          time.after && std::any_of(before.begin(), before.end(), [&](const Amount& told) {
            return told == time.amount || (told.unit == time.amount.unit && told.value && !time.amount.to &&
                                           (told.value == time.amount.value || told.to == time.amount.value));
          });
      if (retold) continue;
      before.push_back(time.amount);
      if (before.size() > kRemembered) before.erase(before.begin());
      kept.push_back(std::move(time));
    }
    step.times = std::move(kept);
  }
}

void finish(Recipe& recipe) {
  drop_retold_times(recipe);
  set_keys(recipe);
  find_uses(recipe);
  guess_measures(recipe);
}

tl::unexpected<Error> no_ingredients(std::string_view text, const path& file) {
  int line = 1;
  for (const auto& one : split_lines(text)) {
    if (!trim(one.text).empty()) break;
    ++line;
  }
  return fail(ErrorCode::Malformed, "no list of ingredients is to be found", Place{file, line, 0},
              "write a line 'Ingredients', below it one ingredient a line, then a line 'Method'");
}

Result<Recipe> read_text(std::string_view text, const path& file) {
  const auto shown = blank_comments(text);
  const auto matter = read_front_matter(shown);
  auto sections = sort_sections(read_source_lines(shown, matter.lines));
  Recipe recipe;
  recipe.file = file;
  take_front_matter(matter, recipe);
  if (recipe.title.empty()) {
    recipe.title = sections.title;
    recipe.title_line = sections.title_line;
  } else if (!sections.title.empty() && sections.title != recipe.title) {
    recipe.introduction.push_back({sections.title_line, sections.title});
  }
  if (sections.ingredients.empty()) return no_ingredients(text, file);

  Places places(shown);
  take_header(sections.header, recipe);
  take_ingredients(sections.ingredients, places, recipe);
  take_steps(sections.steps, places, recipe);
  for (const auto& note : sections.notes) {
    recipe.notes.push_back(note.text);
    recipe.placed_notes.push_back({note.line, note.text});
  }
  return recipe;
}

// The lines of a page's text are not those of the file.
void forget_lines(Recipe& recipe) {
  const auto forget = [](auto& all) {
    for (auto& one : all) one.line = 0;
  };
  recipe.title_line = 0;
  forget(recipe.yields);
  forget(recipe.ingredients);
  forget(recipe.introduction);
  forget(recipe.placed_notes);
  forget(recipe.stated_times);
  forget(recipe.header_lines);
  forget(recipe.steps);
  for (auto& ingredient : recipe.ingredients) ingredient.column = 0;
  for (auto& step : recipe.steps) {
    read_method_text(step);  // columns of the step's own text
    step.runs.clear();
  }
}

Result<Recipe> read_page(std::string_view text, const path& file) {
  PANSLATE_TRY(auto page, read_web_page(text, file));
  if (page.data) return *std::move(page.data);
  auto recipe = read_text(page.text, file);
  if (recipe) forget_lines(*recipe);
  return recipe;
}

}  // namespace

WrittenPlace place_in(const Step& step, std::size_t offset) {
  const auto after = std::upper_bound(step.runs.begin(), step.runs.end(), offset,
                                      [](std::size_t at, const TextRun& run) { return at < run.offset; });
  const std::string_view text = step.text;
  if (after == step.runs.begin()) return {step.line, column_of(text, std::min(offset, text.size()))};
  const auto& run = *std::prev(after);
  const auto end = std::min(offset, text.size());
  return {run.line,
          run.column + static_cast<int>(character_count(text.substr(run.offset, end - run.offset)))};
}

Result<Recipe> read_recipe(std::string_view text, const path& file) {
  if (trim(text).empty())
    return fail(
        ErrorCode::Malformed, "the recipe is empty", Place{file, 0, 0},
        "write a title, a line 'Ingredients' with one ingredient a line below it, and a line 'Method'");
  if (auto error = refuse_binary(text, file)) return tl::unexpected(*std::move(error));
  if (auto error = refuse_captions(text, file)) return tl::unexpected(*std::move(error));

  auto recipe = is_json_text(text)        ? read_json_ld(text, file)
                : is_web_page(text, file) ? read_page(text, file)
                                          : read_text(text, file);
  if (recipe) finish(*recipe);
  return recipe;
}

}  // namespace panslate
