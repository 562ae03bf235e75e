#include "recipe/recipe_data.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"

#include "recipe/html_text.h"
#include "recipe/markup.h"
#include "recipe/sections.h"
#include "recipe/source_lines.h"
#include "recipe/yield.h"

namespace panslate {

namespace {

using nlohmann::json;
using std::filesystem::path;

constexpr int kDeepest = 24;  // a recipe page nests a handful of levels

// "Recipe", "https://schema.org/Recipe", "schema:Recipe".
bool names_type(const json& type, std::string_view wanted) {
  if (!type.is_string()) return false;
  const std::string_view name = type.get_ref<const std::string&>();
  if (name.size() < wanted.size()) return false;
  const auto start = name.size() - wanted.size();
  if (fold_case(name.substr(start)) != fold_case(wanted)) return false;
  return start == 0 || std::string_view("/:#").find(name[start - 1]) != std::string_view::npos;
}

bool is_type(const json& value, std::string_view wanted) {
  const auto type = value.is_object() ? value.find("@type") : value.end();
  if (type == value.end()) return false;
  if (!type->is_array()) return names_type(*type, wanted);
  return std::any_of(type->begin(), type->end(), [&](const json& one) { return names_type(one, wanted); });
}

// A property, also where its name is written out ("https://schema.org/name") or told with a prefix.
const json* property(const json& value, const std::string& name) {
  if (!value.is_object()) return nullptr;
  for (const char* prefix : {"", "https://schema.org/", "http://schema.org/", "schema:"}) {
    const auto found = value.find(prefix + name);
    if (found != value.end() && !found->is_null()) return &*found;
  }
  return nullptr;
}

void find_recipes(const json& value, int depth, std::vector<const json*>& found) {
  if (depth > kDeepest || !value.is_structured()) return;
  if (is_type(value, "Recipe")) found.push_back(&value);
  for (const auto& inner : value) find_recipes(inner, depth + 1, found);
}

// Lines of a string: tags and entities read, line ends kept.
std::string text_of(const json& value);

std::string measured(const json& value, const json& amount) {
  std::string out = text_of(amount);
  for (const char* key : {"unitText", "unitCode"})
    if (const auto* unit = property(value, key); unit != nullptr && unit->is_string())
      return out + " " + text_of(*unit);
  return out;
}

std::string text_of(const json& value) {
  if (value.is_string()) return text_of_html_string(value.get_ref<const std::string&>());
  if (value.is_number()) return value.dump();
  if (value.is_array() && value.size() == 1) return text_of(value.front());
  if (!value.is_object()) return {};
  // HowToSupply: what is needed, with how much of it.
  const auto* name = property(value, "name");
  if (const auto* needed = property(value, "requiredQuantity"); needed != nullptr && name != nullptr) {
    auto amount = needed->is_array() || needed->is_object() || needed->is_string() || needed->is_number()
                      ? text_of(*needed)
                      : std::string{};
    if (!amount.empty() && (name->is_string())) return amount + " " + text_of(*name);
  }
  for (const char* key : {"text", "@value", "name", "description"}) {
    const auto* found = property(value, key);
    if (found == nullptr || (!found->is_string() && !found->is_number())) continue;
    if (auto text = text_of(*found); !trim(text).empty()) return text;
  }
  if (const auto* amount = property(value, "value"))
    if (amount->is_string() || amount->is_number()) return measured(value, *amount);
  return {};
}

// One line without mark-up.
std::string line_of(const std::string& text) {
  return plain_string(text);
}

std::vector<std::string> texts_of(const json& recipe, const char* key) {
  std::vector<std::string> out;
  const auto* found = property(recipe, key);
  if (found == nullptr) return out;
  const auto add = [&](const json& one) {
    if (auto text = text_of(one); !trim(text).empty()) out.push_back(std::move(text));
  };
  if (found->is_array())
    for (const auto& one : *found) add(one);
  else
    add(*found);
  return out;
}

class RecipeTaker {
 public:
  RecipeTaker(const json& source, const path& file) : source_(source) { recipe_.file = file; }

  Recipe take() {
    for (const char* key : {"name", "headline"})
      if (const auto names = texts_of(source_, key); recipe_.title.empty() && !names.empty())
        recipe_.title = line_of(names.front());
    ingredients();
    if (const auto* instructions = property(source_, "recipeInstructions")) method(*instructions, {}, 0);
    flush();
    settle();
    yields();
    times();
    for (const auto& text : texts_of(source_, "description"))
      recipe_.introduction.push_back({0, line_of(text)});
    for (const char* key : {"keywords", "suitableForDiet", "recipeCategory"})
      for (const auto& text : texts_of(source_, key)) recipe_.tags.push_back({0, line_of(text)});
    return std::move(recipe_);
  }

 private:
  // One item a line; "For the sauce:" opens a group as it does on paper.
  void ingredients() {
    auto texts = texts_of(source_, "recipeIngredient");
    if (texts.empty()) texts = texts_of(source_, "ingredients");  // the older name
    std::vector<SourceLine> lines;
    for (const auto& text : texts) {
      for (auto& line : read_source_lines(text, 0)) {
        if (line.kind == LineKind::Blank || line.kind == LineKind::Rule) continue;
        if (line.kind == LineKind::Text || line.kind == LineKind::Numbered) line.kind = LineKind::Item;
        line.number = line.indent = 0;
        lines.push_back(std::move(line));
      }
    }
    read_ingredient_section(lines, 0, lines.size(), {}, sections_);
  }

  // One text, texts, HowToStep, HowToSection with steps of its own, ItemList.
  void method(const json& value, const std::string& part, int depth) {
    if (depth > kDeepest) return;
    if (value.is_string()) return written(text_of(value), part);
    if (value.is_array()) {
      const bool several = value.size() > 1;
      for (const auto& one : value) {
        if (several && one.is_string())
          paragraph(text_of(one), part);
        else
          method(one, part, depth + 1);
      }
      return;
    }
    if (!value.is_object()) return;
    const auto* inner = property(value, "itemListElement");
    for (const char* key : {"item", "step", "steps"})
      if (inner == nullptr) inner = property(value, key);
    if (is_type(value, "HowToTip")) return tip(text_of(value));
    const auto* text = property(value, "text");
    const bool told = !is_type(value, "HowToSection") && text != nullptr && !trim(text_of(*text)).empty();
    if (inner == nullptr || told) return paragraph(text_of(value), part);
    if (is_type(value, "HowToStep")) return directions(*inner, part);
    const auto* name = is_type(value, "HowToSection") ? property(value, "name") : nullptr;
    method(*inner, name != nullptr ? line_of(text_of(*name)) : part, depth + 1);
  }

  // A step told in directions: one step.
  void directions(const json& inner, const std::string& part) {
    std::string whole;
    const auto add = [&](const json& one) {
      if (is_type(one, "HowToTip")) return tip(text_of(one));
      const auto words = line_of(text_of(one));
      if (!words.empty()) whole += (whole.empty() ? "" : " ") + words;
    };
    if (inner.is_array())
      for (const auto& one : inner) add(one);
    else
      add(inner);
    paragraph(whole, part);
  }

  void tip(const std::string& text) {
    if (const auto words = line_of(text); !words.empty()) sections_.notes.push_back({0, words, false});
  }

  void in_part(const std::string& part) {
    if (part == part_) return;
    flush();
    part_ = part;
  }

  // A whole method in one string, as people write it.
  void written(const std::string& text, const std::string& part) {
    in_part(part);
    for (auto& line : read_source_lines(text, 0)) {
      line.number = 0;
      lines_.push_back(std::move(line));
    }
    lines_.emplace_back();
  }

  // A string that is one step, or names a part of the dish; its lines belong together.
  void paragraph(const std::string& text, const std::string& part) {
    in_part(part);
    SourceLine whole;
    whole.kind = LineKind::Text;
    bool first = true;
    for (const auto& line : read_source_lines(text, 0)) {
      if (line.kind == LineKind::Blank || line.kind == LineKind::Rule) continue;
      whole.body.append(line.body);
      whole.strong = first && line.strong && !line.capitals;
      first = false;
    }
    if (first) return;
    lines_.push_back(std::move(whole));
    lines_.emplace_back();
  }

  void flush() {
    read_method_section(lines_, 0, lines_.size(), part_, sections_);
    lines_.clear();
  }

  void settle() {
    for (const auto& text : sections_.ingredients) {
      auto ingredient = read_ingredient_line(text.body.text);
      if (ingredient.text.empty()) continue;
      ingredient.group = text.group;
      ingredient.optional = ingredient.optional || text.optional;
      recipe_.ingredients.push_back(std::move(ingredient));
    }
    for (const auto& text : sections_.steps) {
      if (text.body.text.empty()) continue;
      Step step;
      step.number = static_cast<int>(recipe_.steps.size()) + 1;
      step.text = text.body.text;
      step.part = text.part;
      read_method_text(step);
      recipe_.steps.push_back(std::move(step));
    }
    for (const auto& line : sections_.header) add_yields(yields_in(line.text, 0), recipe_.yields);
    for (const auto& note : sections_.notes) {
      recipe_.notes.push_back(note.text);
      recipe_.placed_notes.push_back({0, note.text});
    }
  }

  void yields() {
    constexpr std::size_t kMost = 24;
    for (const char* key : {"recipeYield", "yield"}) {
      auto lines = texts_of(source_, key);
      if (lines.size() > kMost) lines.resize(kMost);
      for (auto& line : lines) line = line_of(line);
      for (const auto& words : lines) {
        // ["12", "12 slices"]: the number alone says no more.
        const bool told_with_noun = std::any_of(
            lines.begin(), lines.end(), [&](const auto& other) { return other.starts_with(words + " "); });
        if (told_with_noun) continue;
        auto found = yields_in(words, 0);
        if (found.empty()) found = yields_in("Yield: " + words, 0);
        if (!found.empty()) recipe_.header_lines.push_back({0, words});
        add_yields(std::move(found), recipe_.yields);
      }
    }
  }

  // ISO 8601 durations: "PT1H20M".
  void times() {
    using Kind = StatedTime::Kind;
    for (const auto& [key, kind] : {std::pair{"prepTime", Kind::Prep}, std::pair{"cookTime", Kind::Cook},
                                    std::pair{"totalTime", Kind::Total}}) {
      for (const auto& text : texts_of(source_, key)) {
        const auto words = line_of(text);
        if (const auto minutes = iso_minutes(words)) {
          StatedTime time;
          time.kind = kind;
          time.amount.value = Ratio{*minutes};
          time.amount.unit = Unit::Minute;
          time.text = words;
          recipe_.stated_times.push_back(std::move(time));
        }
      }
    }
  }

  // Days, hours, minutes and seconds; nothing where there are years, months (an M before the T) or weeks, or
  // parts of anything but seconds: no recipe means them.
  static std::optional<std::int64_t> iso_minutes(std::string_view text) {
    if (text.substr(0, 1) != "P") return std::nullopt;
    constexpr std::int64_t kMost = 100'000;
    std::int64_t minutes = 0, number = 0;
    bool of_day = false, fraction = false;  // past the T, past the point
    for (const char c : text.substr(1)) {
      if (c >= '0' && c <= '9')
        number = fraction ? number : number * 10 + (c - '0');
      else if (c == '.' || c == ',')
        fraction = true;
      else if (c == 'T')
        of_day = true;
      else if (c == 'D' && !of_day && !fraction)
        minutes += number * 24 * 60, number = 0;
      else if (c == 'H' && of_day && !fraction)
        minutes += number * 60, number = 0;
      else if (c == 'M' && of_day && !fraction)
        minutes += number, number = 0;
      else if (c == 'S' && of_day)
        number = 0, fraction = false;
      else if (number != 0 || fraction)
        return std::nullopt;
      if (number > kMost || minutes > kMost) return std::nullopt;
    }
    if (minutes == 0) return std::nullopt;
    return minutes;
  }

  const json& source_;
  Recipe recipe_;
  Sections sections_;
  std::vector<SourceLine> lines_;  // of the method, of one part
  std::string part_;
};

}  // namespace

bool lists_ingredients(const json& recipe_data) {
  return !texts_of(recipe_data, "recipeIngredient").empty() || !texts_of(recipe_data, "ingredients").empty();
}

const json* find_recipe_data(const json& value) {
  std::vector<const json*> found;
  find_recipes(value, 0, found);
  if (found.empty()) return nullptr;
  const auto whole =
      std::find_if(found.begin(), found.end(), [](const json* one) { return lists_ingredients(*one); });
  return whole == found.end() ? found.front() : *whole;
}

Recipe read_recipe_data(const json& recipe_data, const path& file) {
  return RecipeTaker(recipe_data, file).take();
}

}  // namespace panslate
