#pragma once

#include <string>
#include <string_view>
#include <vector>

/// The lines between `---` at the top of a Markdown file: `title: "…"`, `servings: 4`, `tags: [a, b]`.
namespace panslate {

struct FrontMatterEntry {
  int line = 0;
  std::string key;  ///< folded
  std::string value;
  std::vector<std::string> list;  ///< of `[a, b]` or of indented `- a` lines
};

struct FrontMatter {
  std::size_t lines = 0;  ///< lines it takes of the file, with its marks; 0 when there is none
  std::vector<FrontMatterEntry> entries;
};

[[nodiscard]] FrontMatter read_front_matter(std::string_view text);

}  // namespace panslate
