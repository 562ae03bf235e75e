#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "recipe/source_lines.h"

/// A recipe's lines sorted into what they are for: title, ingredient list, method, notes.
namespace panslate {

struct IngredientText {
  int line = 0;
  PlainText body;
  std::string group;
  bool optional = false;  ///< stands under "Optional" or the like
};

struct StepText {
  int line = 0;
  PlainText body;
  std::string part;
};

/// A line that is neither: introduction, "Serves 4 | 20 minutes", headings.
struct OtherText {
  int line = 0;
  std::string text;
  bool heading = false;
};

struct Sections {
  std::string title;
  int title_line = 0;
  std::vector<OtherText>
      header;  ///< before the method, outside the ingredient list: yields and times stand here
  std::vector<IngredientText> ingredients;
  std::vector<StepText> steps;
  std::vector<OtherText> notes;
};

/// Sorts the lines. Where headings tell nothing, the shape of the lines does. No ingredients: none found.
[[nodiscard]] Sections sort_sections(const std::vector<SourceLine>& lines);

/// Reads lines [begin, end) as an ingredient list. Every item and row becomes an ingredient or a group.
void read_ingredient_section(const std::vector<SourceLine>& lines, std::size_t begin, std::size_t end,
                             const std::string& group, Sections& out);

/// Reads lines [begin, end) as a method: one step per numbered item or paragraph, as the recipe has it.
void read_method_section(const std::vector<SourceLine>& lines, std::size_t begin, std::size_t end,
                         const std::string& part, Sections& out);

}  // namespace panslate
