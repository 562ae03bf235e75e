#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "panslate/recipe/flow.h"

#include "recipe/step_words.h"

/// The pieces of reading a flow, in the order they are done.
namespace panslate {

/// A recipe and its method in words.
struct MethodView {
  const Recipe& recipe;
  const std::vector<StepWords>& words;  // as recipe.steps
};

/// As flow_of, for who has the words already.
[[nodiscard]] Flow flow_of(const MethodView& method);

/// Which step uses which ingredient: sets FlowStep::uses.
void find_flow_uses(const MethodView& method, Flow& flow);

/// Foods of the method that no line lists: sets Flow::unlisted and Flow::mentioned.
void find_unlisted_foods(const MethodView& method, Flow& flow);

/// Where the cook waits: sets Flow::waits and FlowStep::beside.
void find_waits(const MethodView& method, Flow& flow);

/// What is made on the way, and which step must come after which: sets Flow::results and FlowStep::after.
void find_results(const MethodView& method, Flow& flow);

/// True for what a method makes on the way and speaks of as a thing: "dough", "mixture", "sauce", "mash".
[[nodiscard]] bool is_made_on_the_way(std::string_view folded_word);

/// True where the words of the step make the time one that somebody must stand by for: kneading, frying,
/// stirring all the while.
[[nodiscard]] bool is_hands_on(const MethodTime& time, const StepWords& words, const Step& step);

/// The token where a time of a step stands.
[[nodiscard]] std::size_t token_of(const MethodTime& time, const Step& step, const StepWords& words);

/// A duration in seconds: its least and its most; empty where it has no length. Overnight is 8 hours.
struct Seconds {
  std::int64_t least = 0, most = 0;
};
[[nodiscard]] std::optional<Seconds> seconds_of(const Amount& time);

/// "Keeps for 3 days in the fridge", "freeze for up to a month": the token `at` is a time that what is left
/// over waits, not the cook.
[[nodiscard]] bool is_storing(const StepWords& words, std::size_t at);

/// "overnight", "24 hours", "a day": it must start the day before.
[[nodiscard]] bool is_overnight(const MethodTime& time);

}  // namespace panslate
