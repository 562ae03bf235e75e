#pragma once

#include <string_view>

namespace panslate {

/// A file of the page, compiled into the program.
struct PageFile {
  std::string_view type;
  std::string_view text;
};

/// The file that the page calls so ("" is the page itself, "desk.css", …); null for any other name.
[[nodiscard]] const PageFile* page_file(std::string_view name);

}  // namespace panslate
