#pragma once

#include <string>
#include <vector>

#include "app/terminal.h"

namespace panslate::app {

struct Cell {
  std::string text;
  Look look = Look::Plain;
};

struct TableRow {
  std::vector<Cell> cells;  ///< as many as there are headings
  std::string remark;       ///< a sentence below the row, over its whole width; may be empty
};

/// A table whose cells wrap, so that it is never wider than the terminal. The first column gets the room
/// that the others leave. Where even the narrowest columns do not fit (below about 56 columns), each row is
/// a block of `heading: cell` lines.
[[nodiscard]] std::string text_table(const std::vector<std::string>& headings,
                                     const std::vector<TableRow>& rows, const Terminal& terminal);

}  // namespace panslate::app
