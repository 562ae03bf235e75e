#pragma once

#include <cstddef>
#include <string_view>

/// What a line looks like, for recipes whose lines are not marked.
namespace panslate {

/// An amount opens the line: "200 g flour", "2 leeks", "a pinch of salt"; no times, no oven settings.
[[nodiscard]] bool starts_with_amount(std::string_view text);

/// An amount ends the line or stands after its first words: "Butter – 200 g", "Flour: 1 cup".
[[nodiscard]] bool ends_with_amount(std::string_view text);

/// Words, counted as a reader would: runs between spaces.
[[nodiscard]] std::size_t word_count(std::string_view text);

/// Ends as a sentence does (. ! ?), after any closing marks.
[[nodiscard]] bool ends_sentence(std::string_view text);

/// The first word tells what to do: "Heat the oil".
[[nodiscard]] bool starts_with_action(std::string_view text);

/// Reads as a step of a method: told as an order, or a whole sentence of some length.
[[nodiscard]] bool looks_like_step(std::string_view text);

/// Reads as a line of an ingredient list.
[[nodiscard]] bool looks_like_ingredient(std::string_view text);

}  // namespace panslate
