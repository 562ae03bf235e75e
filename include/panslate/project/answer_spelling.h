#pragma once

#include <optional>
#include <string_view>

#include "panslate/project/project.h"

namespace panslate {

/// What the project file and the desk's page call it: "said", "shown", "picture"; "yes", "no", "leave".
[[nodiscard]] std::string_view spelling_of(Answer::About about);
[[nodiscard]] std::string_view spelling_of(Answer::Is is);
[[nodiscard]] std::optional<Answer::About> about_from_spelling(std::string_view spelling);
[[nodiscard]] std::optional<Answer::Is> is_from_spelling(std::string_view spelling);

/// What she reads: "yes", "no", "leave this line alone", as the desk's keys have it.
[[nodiscard]] std::string_view words_for(Answer::Is is);

}  // namespace panslate
