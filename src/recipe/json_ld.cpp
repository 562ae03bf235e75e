#include "recipe/json_ld.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"

#include "recipe/markup.h"
#include "recipe/yield.h"

namespace panslate {

namespace {

using nlohmann::json;
using std::filesystem::path;

constexpr int kDeepest = 24;  // a recipe page nests a handful of levels

bool starts_as_json(std::string_view text) {
  const auto bare = trim(text);
  if (bare.empty() || bare.front() == '{') return !bare.empty();
  const auto inner = bare.front() == '[' ? trim(bare.substr(1)) : std::string_view{};
  return !inner.empty() && (inner.front() == '{' || inner.front() == '[');
}

// The bodies of <script type="application/ld+json">.
std::vector<std::string_view> scripts_in(std::string_view page) {
  std::vector<std::string_view> out;
  std::size_t at = 0;
  while ((at = page.find("<script", at)) != std::string_view::npos) {
    const auto open = page.find('>', at);
    if (open == std::string_view::npos) break;
    const auto tag = page.substr(at, open - at);
    const auto close = page.find("</script", open);
    const auto end = close == std::string_view::npos ? page.size() : close;
    if (tag.find("ld+json") != std::string_view::npos) out.push_back(page.substr(open + 1, end - open - 1));
    at = end;
  }
  return out;
}

// Nesting beyond what any page has is refused before it is read, so that it cannot fill the stack.
bool nests_too_deep(std::string_view text) {
  constexpr int kLimit = 200;
  int depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '\\')
        ++i;
      else if (c == '"')
        quoted = false;
      continue;
    }
    if (c == '"') quoted = true;
    if ((c == '{' || c == '[') && ++depth > kLimit) return true;
    if (c == '}' || c == ']') --depth;
  }
  return false;
}

std::optional<json> parsed(std::string_view text) {
  if (nests_too_deep(text)) return std::nullopt;
  auto value = json::parse(text.begin(), text.end(), nullptr, false, true);
  if (value.is_discarded()) return std::nullopt;
  return value;
}

bool is_type(const json& value, std::string_view wanted) {
  const auto matches = [&](const json& type) {
    if (!type.is_string()) return false;
    const auto& name = type.get_ref<const std::string&>();
    return name == wanted || (name.size() > wanted.size() &&
                              name.substr(name.size() - wanted.size() - 1) == "/" + std::string(wanted));
  };
  const auto type = value.find("@type");
  if (type == value.end()) return false;
  if (!type->is_array()) return matches(*type);
  for (const auto& one : *type)
    if (matches(one)) return true;
  return false;
}

const json* find_recipe(const json& value, int depth) {
  if (depth > kDeepest || !value.is_structured()) return nullptr;
  if (value.is_object() && is_type(value, "Recipe")) return &value;
  for (const auto& inner : value)
    if (const auto* found = find_recipe(inner, depth + 1)) return found;
  return nullptr;
}

std::string text_of(const json& value) {
  if (value.is_string()) return plain_string(plain_string(value.get_ref<const std::string&>()));
  if (value.is_number()) return value.dump();
  if (value.is_object()) {
    for (const char* key : {"text", "name", "@value"}) {
      const auto found = value.find(key);
      if (found != value.end() && (found->is_string() || found->is_number())) return text_of(*found);
    }
  }
  return {};
}

std::vector<std::string> texts_of(const json& recipe, const char* key) {
  std::vector<std::string> out;
  const auto found = recipe.find(key);
  if (found == recipe.end()) return out;
  const auto add = [&](const json& one) {
    if (auto text = text_of(one); !text.empty()) out.push_back(std::move(text));
  };
  if (found->is_array()) {
    for (const auto& one : *found) add(one);
  } else {
    add(*found);
  }
  return out;
}

class RecipeTaker {
 public:
  RecipeTaker(const json& source, const path& file) : source_(source) { recipe_.file = file; }

  Recipe take() {
    const auto names = texts_of(source_, "name");
    if (!names.empty()) recipe_.title = names.front();
    ingredients();
    const auto instructions = source_.find("recipeInstructions");
    if (instructions != source_.end()) steps(*instructions, {}, 0);
    yields();
    times();
    for (const auto& text : texts_of(source_, "description")) recipe_.introduction.push_back({0, text});
    for (const char* key : {"keywords", "suitableForDiet", "recipeCategory"})
      for (const auto& text : texts_of(source_, key)) recipe_.tags.push_back({0, text});
    return std::move(recipe_);
  }

 private:
  void ingredients() {
    auto lines = texts_of(source_, "recipeIngredient");
    if (lines.empty()) lines = texts_of(source_, "ingredients");  // the older name
    std::string group;
    for (const auto& line : lines) {
      if (line.back() == ':') {
        group = line.substr(0, line.size() - 1);
        continue;
      }
      auto ingredient = read_ingredient_line(line);
      ingredient.group = group;
      recipe_.ingredients.push_back(std::move(ingredient));
    }
  }

  // One text, texts, HowToStep, HowToSection with steps of its own, ItemList.
  void steps(const json& value, const std::string& part, int depth) {
    if (depth > kDeepest) return;
    if (value.is_array()) {
      for (const auto& one : value) steps(one, part, depth + 1);
      return;
    }
    if (value.is_object()) {
      const auto inner = value.find("itemListElement");
      const bool holds_text = value.find("text") != value.end();
      if (inner != value.end() && !holds_text) {
        const auto name = is_type(value, "HowToSection") && value.find("name") != value.end()
                              ? text_of(value["name"])
                              : part;
        return steps(*inner, name, depth + 1);
      }
      return add_step(text_of(value), part);
    }
    if (!value.is_string()) return;
    // A string may hold a line a step.
    for (const auto& line : split_lines(with_line_ends(value.get_ref<const std::string&>())))
      add_step(plain_string(plain_string(line.text)), part);
  }

  // Paragraph tags end lines as line ends do.
  const std::string& with_line_ends(const std::string& text) {
    lines_ = text;
    for (const std::string_view tag : {"</p>", "<br>", "<br/>", "<br />", "</li>"})
      for (auto at = lines_.find(tag); at != std::string::npos; at = lines_.find(tag, at + 1))
        lines_.replace(at, tag.size(), std::string(tag.size() - 1, ' ') + "\n");
    return lines_;
  }

  void add_step(std::string text, const std::string& part) {
    if (text.empty()) return;
    Step step;
    step.number = static_cast<int>(recipe_.steps.size()) + 1;
    step.text = std::move(text);
    step.part = part;
    read_method_text(step);
    recipe_.steps.push_back(std::move(step));
  }

  void yields() {
    for (const auto& text : texts_of(source_, "recipeYield")) {
      auto found = yields_in(text, 0);
      if (found.empty()) found = yields_in("Yield: " + text, 0);
      add_yields(std::move(found), recipe_.yields);
    }
  }

  // ISO 8601 durations: "PT1H20M".
  void times() {
    using Kind = StatedTime::Kind;
    for (const auto& [key, kind] : {std::pair{"prepTime", Kind::Prep}, std::pair{"cookTime", Kind::Cook},
                                    std::pair{"totalTime", Kind::Total}}) {
      for (const auto& text : texts_of(source_, key)) {
        if (const auto minutes = iso_minutes(text)) {
          StatedTime time;
          time.kind = kind;
          time.amount.value = Ratio{*minutes};
          time.amount.unit = Unit::Minute;
          time.text = text;
          recipe_.stated_times.push_back(std::move(time));
        }
      }
    }
  }

  static std::optional<std::int64_t> iso_minutes(std::string_view text) {
    if (text.substr(0, 1) != "P") return std::nullopt;
    constexpr std::int64_t kMost = 100'000;
    std::int64_t minutes = 0, number = 0;
    for (const char c : text.substr(1)) {
      if (c >= '0' && c <= '9')
        number = number * 10 + (c - '0');
      else if (c == 'D')
        minutes += number * 24 * 60, number = 0;
      else if (c == 'H')
        minutes += number * 60, number = 0;
      else if (c == 'M')
        minutes += number, number = 0;
      else if (c != 'T')
        number = 0;
      if (number > kMost || minutes > kMost) return std::nullopt;
    }
    if (minutes == 0) return std::nullopt;
    return minutes;
  }

  const json& source_;
  Recipe recipe_;
  std::string lines_;
};

}  // namespace

bool carries_json_ld(std::string_view text) {
  return starts_as_json(text) ||
         (text.find("ld+json") != std::string_view::npos && text.find("<script") != std::string_view::npos);
}

Result<Recipe> read_json_ld(std::string_view text, const path& file) {
  const auto scripts = starts_as_json(text) ? std::vector<std::string_view>{text} : scripts_in(text);
  for (const auto script : scripts) {
    const auto value = parsed(script);
    const auto* found = value ? find_recipe(*value, 0) : nullptr;
    if (found == nullptr) continue;
    auto recipe = RecipeTaker(*found, file).take();
    if (recipe.ingredients.empty())
      return fail(
          ErrorCode::Malformed, "the recipe data lists no ingredients", Place{file, 0, 0},
          "recipe data has them under 'recipeIngredient'; the recipe can be given as plain text instead");
    return recipe;
  }
  return fail(ErrorCode::Malformed, "no recipe is to be found in the data", Place{file, 0, 0},
              "panslate reads a schema.org Recipe; the recipe can be given as plain text instead");
}

}  // namespace panslate
