#pragma once

#include <string>

#include "panslate/plan/shot_list.h"

/// What the forms of the shot list say alike.
namespace panslate {

/// "insert", "overhead", …
[[nodiscard]] std::string framing_words(const Shot& shot);

/// "to film", or the parts of clips that have it: "s4 (pan-2, 0:12–0:20)".
[[nodiscard]] std::string filmed_words(const Shot& shot, const Project* project);

/// "6.5 s", to the half second, upwards.
[[nodiscard]] std::string length_words(const Shot& shot);

/// "12 shots, 9 to film, about 2:10 of film."
[[nodiscard]] std::string shot_list_summary(const ShotList& list);

/// Number of the shot's step, from 1; 0 where the recipe has no method.
[[nodiscard]] std::size_t step_number(const Shot& shot, const Recipe& recipe);

}  // namespace panslate
