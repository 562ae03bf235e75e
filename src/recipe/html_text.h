#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "recipe/html_tree.h"

namespace panslate {

/// What becomes of a line end in the text of a page.
enum class LineEnds : std::uint8_t {
  Space,  ///< as a browser shows it
  Kept,   ///< a line end as it is: texts that were typed into a form, with a tag here and there
};

/// What a reader sees of the nodes [begin, end), as Markdown: headings, list items with their marks, table
/// rows, bold lines; one line a line, empty lines between paragraphs. Scripts, forms, menus and what is
/// hidden are left out.
[[nodiscard]] std::string text_of_html(const HtmlTree& tree, std::size_t begin, std::size_t end,
                                       LineEnds line_ends);

/// A string of recipe data as text: tags and entities read, also those escaped twice or thrice.
[[nodiscard]] std::string text_of_html_string(std::string_view text);

}  // namespace panslate
