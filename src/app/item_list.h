#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "app/terminal.h"

/// Lists in reports for a terminal: a heading with their number, then items with a place or a moment before
/// each.
namespace panslate::app {

/// Wider than this no text is set: long lines are hard to read.
inline constexpr std::size_t kMostWide = 120;
/// Columns of what stands before an item.
inline constexpr std::size_t kWhenWidth = 12;

/// "Needs attention (3)" between empty lines.
[[nodiscard]] std::string list_heading(std::string_view words, std::size_t count, const Terminal& terminal);

/// Adds one item: `when`, then `text` (which may hold anything) beside it.
void append_item(std::string& out, std::string_view when, std::string_view text, const Terminal& terminal);

}  // namespace panslate::app
