#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/project/project.h"

/// How an action of the kitchen is filmed: from the compiled-in table (actions.csv).
namespace panslate {

enum class Repeatable : std::uint8_t { No, Yes };

struct FilmedAction {
  std::string_view verb;
  Framing framing = Framing::Overhead;
  Repeatable repeatable = Repeatable::Yes;
  std::string_view see;  ///< what the viewer must be able to see
};

/// The row of a verb in its base form, case and accents folded; empty when the table has none.
[[nodiscard]] std::optional<FilmedAction> filmed_action_of(std::string_view verb);

/// The actions a sentence of a method tells to do, in order: verbs where a clause starts ("Drain and rinse
/// …, then add …"); so "the stock" or "a cut" are none.
[[nodiscard]] std::vector<FilmedAction> filmed_actions_in(std::string_view sentence);

/// Sentences of a step. "approx. 5 cm" and "2.5" end none.
[[nodiscard]] std::vector<std::string> method_sentences(std::string_view text);

}  // namespace panslate
