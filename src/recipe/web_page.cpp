#include "recipe/web_page.h"

#include <algorithm>
#include <vector>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"

#include "recipe/heading_words.h"
#include "recipe/html_text.h"
#include "recipe/html_tree.h"
#include "recipe/json_text.h"
#include "recipe/microdata.h"
#include "recipe/recipe_data.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

using nlohmann::json;
using std::filesystem::path;

struct Script {
  std::string_view text;
  int line = 0;
};

std::vector<Script> data_scripts(const HtmlTree& page) {
  std::vector<Script> out;
  for (std::size_t i = 0; i < page.size(); ++i) {
    if (page[i].tag != "script" || fold_case(page[i].value("type")).find("ld+json") == std::string::npos)
      continue;
    for (auto inner = i + 1; inner < page[i].end; ++inner)
      if (!trim(page[inner].text).empty()) out.push_back({page[inner].text, page[i].line});
  }
  return out;
}

bool is_heading(std::string_view tag) {
  return tag.size() == 2 && tag[0] == 'h' && tag[1] >= '1' && tag[1] <= '6';
}

// Where the page's own headings stand. What is only bold or a paragraph of its own is a heading to the eye
// too.
struct Landmarks {
  std::vector<std::size_t> ingredients, methods, titles;
};

std::string words_inside(const HtmlTree& page, std::size_t at) {
  constexpr std::size_t kLongest = 120;
  std::string out;
  for (auto i = at + 1; i < page[at].end && out.size() < kLongest; ++i) out += page[i].text;
  return collapse_spaces(out);
}

Landmarks landmarks_of(const HtmlTree& page) {
  Landmarks out;
  for (std::size_t i = 0; i < page.size(); ++i) {
    const auto tag = page[i].tag;
    const bool heading = is_heading(tag);
    if (!heading && !is_one_of(tag, {"strong", "b", "p", "dt", "legend", "summary", "caption", "th", "div"}))
      continue;
    if (tag == "div" && page[i].end > i + 3) continue;
    const auto words = words_inside(page, i);
    const auto kind = section_of(words, heading ? HeadingShape::Marked : HeadingShape::Bare);
    if (kind == SectionKind::Ingredients) out.ingredients.push_back(i);
    if (kind == SectionKind::Method) out.methods.push_back(i);
    if (kind == SectionKind::None && (tag == "h1" || tag == "h2")) out.titles.push_back(i);
  }
  return out;
}

// The innermost part of the page that holds both lists; the whole page where nothing divides it.
std::optional<std::size_t> part_with_recipe(const HtmlTree& page, const Landmarks& marks) {
  if (marks.ingredients.empty()) return std::nullopt;
  const auto ingredients = marks.ingredients.front();
  const auto holds_method = [&](std::size_t at) {
    return std::any_of(marks.methods.begin(), marks.methods.end(),
                       [&](std::size_t method) { return at < method && method < page[at].end; });
  };
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < ingredients; ++i) {
    const bool part = is_one_of(page[i].tag, {"article", "main", "body"});
    if (part && page[i].end > ingredients && holds_method(i)) found = i;
  }
  return found;
}

std::string title_of(const HtmlTree& page) {
  for (std::size_t i = 0; i < page.size(); ++i)
    if (page[i].tag == "title") return words_inside(page, i);
  return {};
}

// The dish's heading: of those above the list the last that the window's title begins with, else the last of
// the first rank; the site's own name may stand in one too.
std::optional<std::size_t> title_heading(const HtmlTree& page, const Landmarks& marks, std::size_t part,
                                         const std::string& window) {
  std::optional<std::size_t> told, first_rank;
  const auto folded = fold_case(window);
  for (const auto title : marks.titles) {
    if (title <= part || title >= marks.ingredients.front()) continue;
    const auto words = fold_case(words_inside(page, title));
    if (!words.empty() && starts_with(folded, words)) told = title;
    if (page[title].tag == "h1") first_rank = title;
  }
  return told ? told : first_rank;
}

std::string visible_text(const HtmlTree& page) {
  const auto marks = landmarks_of(page);
  const auto part = part_with_recipe(page, marks);
  if (!part) return {};
  const auto end = page[*part].end;
  const auto window = title_of(page);
  const auto heading = title_heading(page, marks, *part, window);
  auto text = text_of_html(page, heading.value_or(*part), end, LineEnds::Space);
  if (!heading && !window.empty()) text = "# " + window + "\n\n" + text;
  return text;
}

std::string place_of(const std::vector<int>& lines) {
  return lines.size() == 1 ? " (line " + std::to_string(lines.front()) + ")" : std::string{};
}

}  // namespace

bool is_web_page(std::string_view text, const path& file) {
  const auto ending = fold_case(file.extension().string());
  if (is_one_of(ending, {".html", ".htm", ".xhtml"})) return true;
  constexpr std::size_t kHead = 2000;
  const auto start = fold_case(trim(text.substr(0, kHead)));
  for (const std::string_view tag : {"<!doctype html", "<html", "<head", "<body"})
    if (starts_with(start, tag)) return true;
  if (start.substr(0, 5) == "<?xml" && start.find("<html") != std::string::npos) return true;
  if (text.find("ld+json") != std::string_view::npos && text.find("<script") != std::string_view::npos)
    return true;
  return text.find("itemscope") != std::string_view::npos && text.find("itemprop=") != std::string_view::npos;
}

Result<WebPage> read_web_page(std::string_view text, const path& file) {
  const auto page = parse_html(text);
  if (!page)
    return fail(ErrorCode::Malformed, "this web page is too large to be a recipe", Place{file, 0, 0},
                "save the recipe alone as plain text: a title, 'Ingredients', 'Method'");
  WebPage out;
  std::optional<Recipe> bare;  // data that lists no ingredients
  const auto take = [&](const json* data) {
    if (data == nullptr) return;
    auto recipe = read_recipe_data(*data, file);
    if (!recipe.ingredients.empty())
      out.data = std::move(recipe);
    else
      bare = std::move(recipe);
  };
  std::vector<int> broken;
  for (const auto& script : data_scripts(*page)) {
    const auto value = read_json_as_found(script.text);
    if (!value) broken.push_back(script.line);
    take(value ? find_recipe_data(*value) : nullptr);
    if (out.data) return out;
  }
  const auto marked = read_microdata(*page);
  take(marked ? &*marked : nullptr);
  if (out.data) return out;
  out.text = visible_text(*page);
  if (!trim(out.text).empty()) return out;

  const std::string hint = "copy the recipe into a text file: a title, 'Ingredients', 'Method'";
  if (!broken.empty())
    return fail(ErrorCode::Malformed, "the recipe data in this page is broken" + place_of(broken),
                Place{file, broken.front(), 0}, hint);
  if (bare)
    return fail(ErrorCode::Malformed, "the recipe data in this page lists no ingredients", Place{file, 0, 0},
                hint);
  return fail(ErrorCode::Malformed,
              "this page carries no recipe data, and no headings tell its ingredients and its method",
              Place{file, 0, 0}, hint);
}

}  // namespace panslate
