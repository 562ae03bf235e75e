#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "recipe/markup.h"

/// A recipe cut into lines by their shape alone: headings, list items, table rows, text. What they mean is
/// decided later (sections.h).
namespace panslate {

enum class LineKind : std::uint8_t {
  Blank,
  Heading,   ///< Markdown (`## …`, underlined) or HTML heading
  Item,      ///< any bullet: - * + • – ▢ [ ] or a small picture
  Numbered,  ///< 1. 1) (1) Step 1:
  Row,       ///< | table | row |
  Rule,      ///< --- and the like, also the rule of a table
  Text,
};

struct SourceLine {
  LineKind kind = LineKind::Blank;
  int number = 0;  ///< line of the file, from 1
  int indent = 0;  ///< columns before the list mark or the text; a tab counts to the next multiple of four
  int level = 0;   ///< headings: 1 to 6
  bool strong = false;  ///< the whole line is bold or in capitals: often a heading that is not marked as one
  bool capitals = false;  ///< all its letters are capitals
  PlainText body;         ///< without list mark and mark-up
};

/// Cuts a text (valid UTF-8, comments blanked) into lines. Lines before `first_line` (0-based) are left out.
[[nodiscard]] std::vector<SourceLine> read_source_lines(std::string_view text, std::size_t first_line);

}  // namespace panslate
