#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// A web page, or a piece of one, as libgumbo understands it: the rules of the HTML Standard for broken
/// mark-up, missing ends and entities are the library's.
namespace panslate {

/// An element or a run of text. Nodes stand in the order of the page; what lies inside the node at index i
/// are the nodes (i, end).
struct HtmlNode {
  std::string_view tag;  ///< lower case; empty for text; "?" for an element HTML does not know
  std::string text;      ///< of a text node, entities decoded
  std::size_t end = 0;
  int line = 0;  ///< of the page, from 1
  /// Those that tell what the element holds; others are left out.
  std::vector<std::pair<std::string, std::string>> attributes = {};

  [[nodiscard]] bool has(std::string_view attribute) const;
  /// Its value; empty when it is not there.
  [[nodiscard]] std::string_view value(std::string_view attribute) const;
};

using HtmlTree = std::vector<HtmlNode>;

/// Reads UTF-8 HTML. Empty for a page with more tags than any recipe has, or one that grows out of bounds
/// (both are what only a hostile page does).
[[nodiscard]] std::optional<HtmlTree> parse_html(std::string_view html);

}  // namespace panslate
