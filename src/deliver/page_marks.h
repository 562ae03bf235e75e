#pragma once

#include <string>
#include <string_view>

#include "panslate/base/media_time.h"
#include "panslate/check/report.h"

#include "deliver/page_template.h"

/// How the report page marks what was found: by shape and colour, always beside words.
namespace panslate {

struct PageMark {
  std::string_view shape;
  std::string_view css_class;  ///< "good", "doubt", "wrong" or "none"
  std::string_view words;      ///< "said differently"
};

[[nodiscard]] PageMark said_mark(Verdict verdict);
[[nodiscard]] PageMark shown_mark(ShownVerdict verdict);
/// Text on the picture repeats what is said: where it is not there, nothing is wrong.
[[nodiscard]] PageMark on_picture_mark(Verdict verdict);

/// The one mark of a line: what is wrong with it, else that it is in order; quiet where it need not be found.
[[nodiscard]] PageMark line_mark(const Requirement& requirement);

/// A later naming of what a mention before it decided.
inline constexpr PageMark kNamedAgain{"•", "none", "named again"};
/// Said or written beside the recipe.
inline constexpr PageMark kBesideRecipe{"+", "none", "not in the recipe"};

/// Sets `mark` and `class`.
void set_mark(PageData& data, const PageMark& mark);
/// The text, or false where it is empty, so that a template can ask for it.
void set_if(PageData& data, const std::string& name, const std::string& text);
void set_flag(PageData& data, const std::string& name, bool value);

/// "1:36"
[[nodiscard]] std::string spoken(MediaTime time);
/// Seconds with up to three decimals, for a program: "96.846".
[[nodiscard]] std::string seconds_text(MediaTime time);

/// A text of one line for the page: single spaces, at most `characters` of it.
[[nodiscard]] std::string page_text(std::string_view text, std::size_t characters = 600);

}  // namespace panslate
