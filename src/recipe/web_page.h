#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/recipe/recipe.h"

namespace panslate {

/// A recipe's page: what it tells as data, else its visible text.
struct WebPage {
  std::optional<Recipe> data;  ///< JSON-LD, microdata or RDFa; all lines 0
  std::string text;            ///< without data: the part of the page with the recipe, as Markdown
};

/// True for HTML: by its first tag, by marks of recipe data, or by the ending of the file's name.
[[nodiscard]] bool is_web_page(std::string_view text, const std::filesystem::path& file);

/// Reads the recipe data of the first of these that lists ingredients: the scripts with JSON-LD (a broken one
/// beside a whole one is passed over), the marks in the page itself. Else the visible text, where headings
/// tell both the ingredients and the method. Fails (Malformed) when there is none of these.
[[nodiscard]] Result<WebPage> read_web_page(std::string_view text, const std::filesystem::path& file);

}  // namespace panslate
